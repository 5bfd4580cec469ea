"""When a point of a foot leaves the ground and touches it: between two samples, or on a pose that is held.

Frames, sub-frame where the heights allow; errors are one standard error.
"""

import math
from typing import NamedTuple

import numpy as np

from ..arrays import Array
from ..beat import ROUNDING
from .ground import NEAR_NOISE, Point

CONTACT_GAP_ERROR = 0.11
"""Standard error of a contact that is read between two samples, as a share of their gap (calibrated, see
`ground.SOFT`)."""
FLAT = 0.5
"""Share of a point's tolerance: a point this far up is in the air already, if it rises on from there (ours)."""
ROLLS = 0.085
"""Longest time that a point takes to rise through its tolerance, in seconds (ours): one that takes longer is on a foot
that rolls."""
HAIR = 1e-6
"""Meters within which a drawn foot keeps its height: single precision at a few meters."""
AIR_LINE_SECONDS = 0.045
"""Length of the way in the air, in seconds, that is drawn on to the ground (ours)."""


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


def runs(down: Array) -> Array:
    """Return (k, 2): first and last index of each stretch of n booleans that is true."""
    edges = np.flatnonzero(np.diff(np.concatenate(([0], down.astype(np.int8), [0]))))
    return edges.reshape(-1, 2) - [0, 1]


def leaves(
    frames: Array, points: tuple[Point, ...], at: int, *, fps: float, step: int, held: bool
) -> tuple[float, float]:
    """Return where the last point leaves the ground after sample `at`, the last with one down, and its error.

    held: each pose is kept for `step` frames, so that a contact lies on a pose. Else it lies between two
    samples, where the motion in the air, drawn on, meets the ground.
    """
    if held:
        return float(frames[at + 1]) - step, step / 3**0.5
    return max(_leaves(frames, point, at, fps, step) for point in points if point.down[at])


def touches(
    frames: Array, points: tuple[Point, ...], at: int, *, fps: float, step: int, held: bool
) -> tuple[float, float]:
    """Return where the first point touches the ground before sample `at`, the first with one down, and its error."""
    if held:
        return float(frames[at]), step / 3**0.5
    last = len(frames) - 1 - at
    ends = [_leaves(-frames[::-1], point.backward, last, fps, step) for point in points if point.down[at]]
    frame, error = max(ends)
    return -frame, error


def _leaves(frames: Array, point: Point, last: int, fps: float, step: int) -> tuple[float, float]:
    """Tell where one point leaves the ground after its last sample on it."""
    up = _up(frames, point, last, fps)
    stop = max(int(np.searchsorted(frames, frames[up] + AIR_LINE_SECONDS * fps, side="right")), up + 2)
    f, lift = frames[up:stop], point.heights[up:stop] - point.level[last]
    here, there = float(frames[up - 1]), float(frames[up])
    beat = max(there - here, float(step))
    off = f - f.mean()
    pace = float(off @ lift) / max(float(off @ off), 1e-12)
    if len(f) < 2 or pace <= 0.0:
        return 0.5 * (here + there), ROUNDING * beat
    eased = _eases(frames, point, up) / pace
    left = float(f.mean() - lift.mean() / pace) - eased
    left = min(max(left, here - FLAT * point.near / pace), there)
    drawn = max(left - here, 0.0) / 2.0 if _is_drawn(point, up) else 0.0
    return left, math.hypot(CONTACT_GAP_ERROR * beat, point.level_error / pace, eased, drawn)


def _eases(frames: Array, point: Point, up: int) -> float:
    """Return meters that a foot rises more in its second frame in the air than in its first, beyond its noise.

    No foot of a body that flies gains speed so; one that is drawn and eases out does, and was up before the line.
    """
    if up + 2 >= len(frames):
        return 0.0
    (first, second), (one, two) = np.diff(point.heights[up : up + 3]), np.diff(frames[up : up + 3])
    return max(float(second / two - first / one) - 2.0 * NEAR_NOISE * point.noise, 0.0)


def _is_drawn(point: Point, up: int) -> bool:
    """Tell whether a foot stands as only a drawn one does, the same to a hair: it may ease out from its last such
    sample.
    """
    return up > 1 and point.noise < HAIR and bool(np.ptp(point.heights[up - 2 : up]) < HAIR)


def _up(frames: Array, point: Point, last: int, fps: float) -> int:
    """Return the first sample that is up: after the last one down, or on its way up within the tolerance."""
    least, earliest = FLAT * point.near, frames[last] - ROLLS * fps
    up = last + 1
    while up > 1 and frames[up - 1] > earliest and point.down[up - 2]:
        lift = point.heights[up - 1] - point.level[last]
        if not least < lift > point.heights[up - 2] - point.level[last] - NEAR_NOISE * point.noise:
            break
        up -= 1
    return up
