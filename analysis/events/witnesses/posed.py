"""The poses: where few of them tell a jump, they are its events, whatever the curve between them looks like."""

import math

from ...cases.blocking import BY_EYE, Posed
from ...cases.case import Case
from ...cases.flank import Flank
from ...contacts.arcs import AGREED
from ..testimony import TRUST, ContactReading, Testimony
from ..weights import nats
from . import rhythm


def hear(case: Case) -> Testimony | None:
    """Say whether few poses tell a jump, and which of them its contacts may be."""
    posed = case.posed
    if posed is None:
        return None
    there = seen(case)
    return Testimony(nats(there), _readings(posed.takeoffs), _readings(posed.landings), there)


def seen(case: Case) -> dict[str, float]:
    """Tell what there is to see, by the names of its tables: how high the poses rise, in smallest hops, as a power of
    two, and whether they leave the ground without a crouch. Poses of one stride among many show nothing.
    """
    posed = case.posed
    if posed is None or rhythm.seen(case):
        return {}
    height = {"posed": math.log2(max(posed.height, 1e-4) / case.limits.smallest_hop)}
    return height | _over_stand(case, posed) | ({"no crouch": 1.0} if posed.is_popped else {})


def _over_stand(case: Case, posed: Posed) -> dict[str, float]:
    """Tell how far over its stand the likeliest takeoff or landing is keyed, as a share of the rise: the higher one's.

    A contact is keyed about as high as the body stands, a breakdown of any other motion anywhere. A stand that is left
    without a crouch tells neither.
    """
    sides = ((case.rising, posed.takeoffs, 1.0), (case.falling, posed.landings, -1.0))
    shares = [share for side, keys, way in sides if (share := _share(side, keys, way)) is not None]
    return {"keyed over stand": max(shares)} if shares else {}


def _share(side: Flank, keys: tuple[tuple[float, float], ...], way: float) -> float | None:
    """Return that share of one side, at the likeliest of its keys over the bottom; way: -1 where time is reversed."""
    samples = side.samples
    bottom = samples.bottom + BY_EYE * (samples.top - samples.bottom)
    over = [(share, way * frame) for frame, share in keys if samples.height_at(way * frame) > bottom]
    return side.share_at(max(over)[1]) if over else None


def _readings(keys: tuple[tuple[float, float], ...]) -> tuple[ContactReading, ...]:
    return tuple([ContactReading(frame, AGREED, TRUST * share) for frame, share in keys])
