"""The standing height: what takes a body higher than it stands, and brings it back as quickly as a fall, is a jump.

The shape of the curve in between does not matter. A body leaves the ground on its toes, somewhat over the height it
stands at; how much is unknown, and is what the contacts are unsure by.
"""

import math

from ...cases.case import Case
from ...cases.flank import Flank
from ...cases.flank_samples import FlankSamples
from ...contacts.side import NOISY
from ..testimony import TRUST, ContactReading, Testimony, backward
from ..weights import nats
from . import parabola
from .feet import feet_over

DRAWN_TOES, MEASURED_TOES = (0.06, 0.03), (0.075, 0.04)
"""Mean and standard deviation of how far over its standing height a body leaves the ground, as a share of that height:
of drawn bodies, 2 to 10 %; of what may be measured, since recorded people have 8 % and more, or drawn on every frame.
"""
DEEPEST = 0.8
"""Most depth of a crouch, as a share of the standing height: less deep, a height over the world's origin
may be the body's own (ours)."""
USUAL_CROUCH_SHARE = 0.25
"""Usual depth of a crouch, as a share of the standing height, from which that height is told where the origin cannot
tell it (ours)."""
FAR_STAND_FACTOR = 2.25
"""Factor on the standard error where no stand is seen beside the jump: it may be another than those near it (ours).
"""

DOUBTED = 0.6
"""Weight of a stand that the point leaves long before it is fastest: it may be a seat (ours)."""


def hear(case: Case) -> Testimony | None:
    """Say how far and how quickly the point rises over where it stands, and where it passes the height of its toes."""
    there, (left, met) = seen(case), _known(case)
    by_hand = case.flight is not None and case.flight.poses.by_hand
    toes = DRAWN_TOES if case.poses.noise <= NOISY or by_hand else MEASURED_TOES
    takeoff = () if left else _crossing(case.rising, toes)
    landing = () if met else _crossing(case.falling, toes)
    return Testimony(nats(there), takeoff, backward(landing), there)


def _known(case: Case) -> tuple[bool, bool]:
    """Tell whether takeoff and landing are known without the stand: by the one pose that may be it, by feet that are
    seen to leave the ground and to meet it, or by an exact parabola.
    """
    posed = case.posed
    if posed is not None and len(posed.takeoffs) == len(posed.landings) == 1:
        return True, True
    gap, flight = feet_over(case), case.flight
    if flight is not None and parabola.is_exact(case):
        left, met = (end is not None and not end.is_lost(flight.poses.beat) for end in (flight.takeoff, flight.landing))
    else:
        left = met = False
    if gap is None:
        return left, met
    first, last = (float(case.poses.frames[at]) for at in (case.turn.before, case.turn.after))
    seen_off, seen_on = (frame is not None and first <= frame <= last for frame in (gap.takeoff, gap.landing))
    return left or seen_off, met or seen_on


def seen(case: Case) -> dict[str, float]:
    """Tell what there is to see, by the names of its tables, as powers of two.

    Rise over the stand and dip under it are in smallest hops; the pace is of real time, √(8 A / g) ÷ T with T the
    seconds that a flight of the height A spends over the stand.
    """
    up, down = case.rising, case.falling
    if case.stays_under:
        return {"stays under": 1.0}
    # What the track cuts off on one side, the other tells.
    sides = [(side, stand) for side in (up, down) if (stand := side.assumed) is not None]
    if not sides:
        return {"stand unseen": 1.0}
    top = up.samples.top
    rise = top - max([stand for _, stand in sides])
    passed = [side.samples.crossing(stand) for side, stand in sides]
    over = [side.samples.frames[-1] - one[0] for (side, _), one in zip(sides, passed, strict=True) if one is not None]
    if rise <= 0.0 or len(over) < len(sides):
        return {"stays under": 1.0}
    seconds = sum(over) / case.fps
    real = sum([math.sqrt(2.0 * (top - stand) / case.gravity) for _, stand in sides])
    # Where it stands elsewhere, it may have come down from there, rather than crouch.
    own = [(side, stand) for side, stand in sides if side.stand is not None] or sides
    dip = max([stand - side.samples.bottom for side, stand in own])
    rise, pace, dip = max(rise, 1e-4), max(real / max(seconds, 1e-9), 1e-4), max(dip, 1e-4)
    hop = case.limits.smallest_hop
    unseen = {} if up.levels or down.levels else {"stand unseen": 1.0}
    size = max([_size(side.samples, stand) for side, stand in own])
    return (
        unseen
        | _fastest(up, down)
        | {
            "reach": math.log2(rise / max(DRAWN_TOES[0] * size, 1e-4)),
            "rise": math.log2(rise / hop),
            "pace": math.log2(pace),
            "dip": math.log2(dip / hop),
            "dip to rise": math.log2(dip / rise),
        }
    )


def _fastest(up: Flank, down: Flank) -> dict[str, float]:
    """Tell how far over its stand the point is fastest, as a share of the rise: the least of the sides that show one.

    A body that jumps is fastest about where it leaves the ground, one that climbs or is lifted half way up.
    """
    shares = [share for side in (up, down) if (share := side.share_at(side.samples.fastest)) is not None]
    return {"fastest at": min(shares)} if shares else {}


def _crossing(side: Flank, toes: tuple[float, float]) -> tuple[ContactReading, ...]:
    if side.may_pop:
        one = _over(side, side.samples.bottom, 0.5 * toes[0], toes[1])
        return () if one is None else (ContactReading(*one, side.popped_share * TRUST),)
    levels = side.levels
    found = [one for level in levels if (one := _over(side, level, *toes)) is not None]
    trust = TRUST if all([side.samples.is_near(level) for level in levels]) else DOUBTED * TRUST
    return tuple([ContactReading(*one, trust / len(found)) for one in found])


def _over(side: Flank, level: float, mean: float, spread: float) -> tuple[float, float] | None:
    """Return where the point is as high over this level as toes carry it, and the error of that, frames; mean and
    spread are shares of the level.
    """
    samples = side.samples
    size = _size(samples, level)
    found = samples.crossing(level + min(mean * size, 0.5 * (samples.top - level)))
    if found is None or found[1] <= 0.0:
        return None
    frame, speed = found
    spread *= 1.0 if side.stand is not None else FAR_STAND_FACTOR
    return frame, min(spread * size / speed, samples.frames[-1] - samples.frames[0])


def _size(samples: FlankSamples, stand: float) -> float:
    """Return meters that the body stands high: over the world's origin, if that crouch can be, else by its depth."""
    dip = max(stand - samples.bottom, 0.15 * (samples.top - stand))
    return stand if dip <= DEEPEST * stand else dip / USUAL_CROUCH_SHARE
