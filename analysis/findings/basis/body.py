"""The size of the body, as far as its track tells it."""

from ...jump import Jump
from ...world import STANCES

SINKS = 0.6
"""Share of its height over its feet that a body can sink: the hips of a deep squat are at 0.4 of it (ours)."""


def stance(jump: Jump) -> float:
    """Metres that tell the size of the body: the track over its feet, or what its legs give, twice."""
    below = jump.feet.below if jump.feet else None
    legs = [2.0 * part.distance.value for part in (jump.push, jump.absorb) if part is not None]
    return max([below or 0.0, *legs])


def sinks(jump: Jump) -> float:
    """Meters that a body of its size can sink at most: a share of its height over its feet."""
    return SINKS * max(stance(jump), STANCES.get(jump.kind, 0.0) * jump.size)
