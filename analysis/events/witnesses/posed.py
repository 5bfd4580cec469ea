"""The poses: where few of them tell a jump, they are its events, whatever the curve between them looks like."""

import math

from ...cases.case import Case
from ...contacts.arcs import AGREED
from ..testimony import TRUST, ContactReading, Testimony
from ..weights import nats
from . import rhythm


def hear(case: Case) -> Testimony | None:
    """Say whether few poses tell a jump, and which of them its contacts may be."""
    posed = case.posed
    if posed is None:
        return None
    takeoff, landing = (
        tuple(ContactReading(frame, AGREED, TRUST * share) for frame, share in keys)
        for keys in (posed.takeoffs, posed.landings)
    )
    there = seen(case)
    return Testimony(nats(there), takeoff, landing, there)


def seen(case: Case) -> dict[str, float]:
    """Tell what there is to see, by the names of its tables: how high the poses rise, in smallest hops, as a power of
    two, and whether they leave the ground without a crouch. Poses of one stride among many show nothing.
    """
    posed = case.posed
    if posed is None or rhythm.seen(case):
        return {}
    height = {"posed": math.log2(max(posed.height, 1e-4) / case.limits.smallest_hop)}
    return height | ({"no crouch": 1.0} if posed.crouch is None else {})
