"""The size of the body, as far as its track tells it, and what its limbs may do to the point that is followed."""

from dataclasses import replace

from ...finding import SEVERITIES, Finding
from ...jump import Jump
from ...limits import Limits
from ...measures.push import Push
from ...track import Followed
from ...world import STANCES

LIMB_SHIFT_SHARE = 0.1
"""Most that limbs move a body's center of mass against its hips, as a share of its height over its feet (ours): legs
are 0.397 of a man's mass, so that lifting them 20 cm moves it 7.9 of 97 cm; raising both arms moves it 5.9 cm (de Leva
1996)."""
ARMS = 0.06
"""The same between crouch and takeoff: raising both arms moves it 5.9 of 97 cm (de Leva 1996)."""
OWN_ARC_STRAY, LOST_ARC_RMS = 0.015, 0.15
"""Shares of its height by which hips leave their arc at most as their flight is still the body's, and rms from which
they fly no arc of it at all (ours: those of a recorded jump leave it by 0.9 to 1.7 %, those of a flying kick by 2 to
16 %, those of a backflip by 19 to 34 % rms)."""
LIMBED = "nothing: a tuck or a turn moves the hips {limbs:.2f} m against the center of mass, so follow that to be sure"

SINKS = 0.6
"""Most that a body can sink, as a share of its height over its feet: the hips of a deep squat are at 0.4 of it (ours).
"""


def stance(jump: Jump) -> float:
    """Return meters that tell the size of the body: the track over its feet, or what its legs give, twice."""
    below = jump.feet.below if jump.feet else None
    legs = [2.0 * part.distance.value for part in (jump.push, jump.absorb) if part is not None]
    return max([below or 0.0, *legs])


def limb_room(jump: Jump) -> float:
    """Return meters that limbs may move the followed point against the center of mass; 0 for that itself, and for a
    thing.
    """
    if jump.follows is not Followed.BODY:
        return 0.0
    return LIMB_SHIFT_SHARE * max(stance(jump), STANCES.get(jump.kind, 0.0) * jump.size)


def doubted(finding: Finding, jump: Jump, *, off: float, share: float = LIMB_SHIFT_SHARE) -> Finding:
    """Return the finding as it is; a note where limbs may explain it, with what tells.

    off: meters that the followed point is at most away from where a free flight has it; share: of its height over its
    feet that limbs move it by.
    """
    room = limb_room(jump) * share / LIMB_SHIFT_SHARE
    if off > room:
        return finding
    told = replace(finding, severity=SEVERITIES[0], limbs=room, values={**finding.values, "limbs": room})
    return replace(told, mend_template=or_limbs(told.mend_template))


def push_doubted(finding: Finding, jump: Jump, limits: Limits) -> Finding:
    """Return the finding of a push as it is; a note where the flight shows that the hips are not the center of mass.

    That is so where they leave their arc: then limbs that move them at takeoff by what raised arms do, or a flight
    that is none of the body's, may explain what the push is off by.
    """
    height, residual = jump.flight.height.value, jump.shape.residual
    clean = residual is not None and jump.flight.free is None and residual.worst <= OWN_ARC_STRAY * height
    if clean or jump.method != "curve" or jump.push is None:
        return finding
    lost = residual is not None and residual.rms > LOST_ARC_RMS * height
    return doubted(finding, jump, off=0.0 if lost else _shift(jump, jump.push, limits), share=ARMS)


def _shift(jump: Jump, push: Push, limits: Limits) -> float:
    """Work out the meters that the hips at takeoff must be off the center of mass, were the push right.

    A takeoff that is x too low has d - x and h + x in place of d and h: with b the most, or the least, that a push of
    so many frames fits, in rises, (d - x) / (h + x) = b. Where they leave their arc, the rise may be any of three.
    """
    flight, frames = jump.flight, push.frames.value
    d, h, step = push.distance.value, flight.height.value, limits.frames_band * jump.step
    rises = (flight.own_rise, flight.rise.value, flight.rise_expected.value)
    if frames > push.expected.value:
        ratio = min(frames - step, frames / (1.0 + limits.push_check)) / max(rises)
        return (ratio * h - d) / (1.0 + ratio)
    usual = limits.push_usual
    ratio = max((frames + step) / usual, frames / (usual - limits.push_check_short)) / min(rises)
    return (d - ratio * h) / (1.0 + ratio)


def or_limbs(mend: str) -> str:
    """Add to a mend that limbs may explain what is off, and how to tell."""
    return f"{mend}; or {LIMBED}" if mend else LIMBED[:1].upper() + LIMBED[1:]


def sinks(jump: Jump) -> float:
    """Return meters that a body of its size can sink at most: a share of its height over its feet."""
    return SINKS * max(stance(jump), STANCES.get(jump.kind, 0.0) * jump.size)
