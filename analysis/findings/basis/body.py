"""The size of the body, as far as its track tells it, and what its limbs may do to the point that is followed."""

from dataclasses import replace

from ...finding import NOTE, Finding
from ...jump import Jump
from ...track import Followed
from ...world import STANCES

LIMBS = 0.1
"""Most that limbs move a body's center of mass against its hips, as a share of its height over its feet (ours): legs
are 0.397 of a man's mass, so that lifting them 20 cm moves it 7.9 of 97 cm; raising both arms moves it 5.9 cm (de Leva
1996)."""
SETTLES = "nothing: a tuck or a turn moves the hips {limbs:.2f} m against the center of mass, so follow that to be sure"

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
    return LIMBS * max(stance(jump), STANCES.get(jump.kind, 0.0) * jump.size)


def doubted(finding: Finding, jump: Jump, *, off: float) -> Finding:
    """Return the finding as it is; a note where limbs may explain it, with what tells.

    off: meters that the followed point is at most away from where a free flight has it.
    """
    room = limb_room(jump)
    if off > room:
        return finding
    told = replace(finding, severity=NOTE, limbs=room, values={**finding.values, "limbs": room})
    return replace(told, mend_template=settled(told.mend_template))


def settled(mend: str) -> str:
    """Return a mend's template with the way to be sure of it where limbs may explain what is off."""
    return f"{mend}; or {SETTLES}" if mend else SETTLES[:1].upper() + SETTLES[1:]


def sinks(jump: Jump) -> float:
    """Return meters that a body of its size can sink at most: a share of its height over its feet."""
    return SINKS * max(stance(jump), STANCES.get(jump.kind, 0.0) * jump.size)
