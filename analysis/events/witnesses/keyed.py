"""The keys: an animator keys the poses in which the body leaves the ground and meets it.

Keys that lie at a regular beat say nothing: there one lies everywhere. Breakdowns lie on the arc too, so each key
between bottom and top may be the contact; which one, the others must say. A top between two neighboring keys of one
height is mostly a hold that the curve overshoots; it may be an arc drawn by its handles, and then follows a parabola.
"""

from ...arrays import Array
from ...cases.case import Case
from ...cases.flank import Flank
from ...contacts.arcs import AGREED
from ..testimony import TRUST, ContactReading, Testimony
from ..weights import nats


def hear(case: Case) -> Testimony | None:
    """Offer the keyed frames of each side as places of its contact."""
    if case.keys is None or case.posed is not None:
        return None
    there = seen(case)
    takeoff, landing = _keys(case.keys, case.rising), _keys(-case.keys[::-1], case.falling, sign=-1.0)
    return Testimony(nats(there), takeoff, landing, there)


def seen(case: Case) -> dict[str, float]:
    """Return what there is to see, by the name of its table."""
    if case.keys is None or case.posed is not None:
        return {}
    top = case.turn.top
    held = any(rest.keyed and rest.first < top < rest.last for rest in case.course.rests)
    return {"held by keys": 1.0} if held else {}


def _keys(keys: Array, side: Flank, *, sign: float = 1.0) -> tuple[ContactReading, ...]:
    inside = keys[(keys > side.frames[0]) & (keys < side.frames[-1])]
    return tuple(ContactReading(sign * float(key), AGREED, TRUST / len(inside)) for key in inside)
