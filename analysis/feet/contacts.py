"""When a point of a foot leaves the ground and touches it: between two samples, or on a pose that is held.

Frames, sub-frame where the heights allow; errors are one standard error.
"""

from typing import NamedTuple

import numpy as np

from .ground import NEAR_NOISE, Point

UNSURE = 0.15
"""Share of the gap between two samples that a contact read from both sides of it may be off (calibrated on a
simulated body)."""
FLAT = 0.2
"""Share of a point's tolerance by which it is up already, where it rises on from there (ours)."""
ROLLS = 2
"""Samples that a point takes at most to rise through its tolerance (ours): more is a foot that rolls."""


class Gap(NamedTuple):
    """A stretch with no foot on the ground, frames: the last foot leaves at its takeoff, the first one touches
    at its landing. None where the track begins or ends in it."""

    takeoff: float | None
    takeoff_error: float | None
    landing: float | None
    landing_error: float | None

    def shared(self, first: float, last: float) -> float:
        """Return how many of the frames from first to last lie in the gap; under 0 where it lies apart."""
        start = first if self.takeoff is None else max(self.takeoff, first)
        end = last if self.landing is None else min(self.landing, last)
        return end - start


def runs(down: np.ndarray) -> np.ndarray:
    """Return (k, 2): first and last index of each stretch of n booleans that is true."""
    edges = np.flatnonzero(np.diff(np.concatenate(([0], down.astype(np.int8), [0]))))
    return edges.reshape(-1, 2) - [0, 1]


def leaves(frames: np.ndarray, points: tuple[Point, ...], at: int, *, step: int, held: bool) -> tuple[float, float]:
    """Return where the last point leaves the ground after sample `at`, the last with one down, and its error.

    held: each pose is kept for `step` frames, so that a contact lies on a pose. Else it lies between two
    samples, where the motion in the air, drawn on, meets the ground.
    """
    if held:
        return float(frames[at + 1]) - step, step / 12**0.5
    return max(_leaves(frames, point, at) for point in points if point.down[at])


def touches(frames: np.ndarray, points: tuple[Point, ...], at: int, *, step: int, held: bool) -> tuple[float, float]:
    """Return where the first point touches the ground before sample `at`, the first with one down, and its error."""
    if held:
        return float(frames[at]), step / 12**0.5
    backward, last = frames[::-1], len(frames) - 1 - at
    return min(_leaves(backward, point.backward, last) for point in points if point.down[at])


def _leaves(frames: np.ndarray, point: Point, last: int) -> tuple[float, float]:
    """Where one point leaves the ground after its last sample on it; frames may run backwards."""
    last = _flat(point, last)
    here, there = float(frames[last]), float(frames[last + 1])
    left = 0.5 * (here + there)
    if last + 2 < len(frames):
        rise = point.heights[last + 1 : last + 3] - point.level[last]
        pace = rise[1] - rise[0]
        back = rise[0] / pace if pace > 0.0 else 0.5
        left = there - (frames[last + 2] - there) * min(max(back, 0.0), 1.0)
    return float(left), UNSURE * abs(there - here)


def _flat(point: Point, last: int) -> int:
    """The last sample that is down, not on its way up within the tolerance."""
    least = max(NEAR_NOISE * point.noise, FLAT * point.near)
    for at in range(last, max(last - ROLLS, 0), -1):
        if not (
            point.down[at - 1]
            and least < point.heights[at] - point.level[at] > point.heights[at - 1] - point.level[at - 1]
        ):
            return at
    return last
