"""Flank: one side of a top, where it is fastest, and which height its body may stand at."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from ..arrays import Array

MIDST = 0.5
"""Speed of a side at the end of the track, as a share of its top speed, past which the track cuts the motion off
(ours)."""
NEARLY = 0.9
"""Share of the top speed from which a point moves nearly as fast (ours)."""
FASTEST_AFTER_TAKEOFF = 0.1
"""Time between where a body leaves the ground and where it is fastest, as a share of that from there to the apex, past
which it stands elsewhere: a seat or a held crouch is no stand (ours)."""
TIPTOE = 0.25
"""Height of the toes over the stand, as a share of how deep the body crouches under it: 6 % of a body that crouches by
a quarter of its height (ours)."""

POPPED_SHARE = 0.35
"""Share of bodies, among those held at the bottom of the way up and seen to stand nowhere else, that leave the ground
from there, without a crouch (ours)."""


@dataclass(frozen=True, eq=False)
class Flank:
    """One side of a top, ground first.

    frames, heights   (n,) from the bottom to the top, both in; of a landing with time reversed
    stand             meters that the body stands at on this side, None where that is not seen
    elsewhere         where it is not: the levels that it stands at beyond its next jump, and on the other side
    is_open           whether the track ends at its bottom, or a cut does: it is all of the way in one step
    is_held           whether its bottom is held, or the track begins there: the body may stand at it
    """

    frames: Array
    heights: Array
    stand: float | None
    elsewhere: tuple[float, ...]
    is_open: bool = False
    is_held: bool = False

    @property
    def levels(self) -> tuple[float, ...]:
        """All levels that it may stand at on this side, the likeliest first."""
        return self.elsewhere if self.stand is None else (self.stand,)

    @cached_property
    def assumed(self) -> float | None:
        """Meters that the body most likely stands at; seen nowhere, its toes leave the ground where it is fastest.

        None where the track cuts it off before that is known.
        """
        if self.levels:
            return self.levels[0]
        if self.is_cut:
            return None
        left = float(np.interp(self.fastest, self.frames, self.heights))
        return self.bottom + (left - self.bottom) / (1.0 + TIPTOE)

    @property
    def may_pop(self) -> bool:
        """Whether its body may leave the ground, or meet it, where it is held: at the bottom."""
        return self.is_held and not self.levels and not self.is_cut

    @property
    def bottom(self) -> float:
        """Height of the bottom, meters."""
        return float(self.heights[0])

    @property
    def top(self) -> float:
        """Height of the top, meters."""
        return float(self.heights[-1])

    @property
    def is_cut(self) -> bool:
        """Whether the track ends in the midst of the motion."""
        if not self.is_open:
            return False
        steps = np.diff(self.heights) / np.diff(self.frames)
        return bool(steps[0] > MIDST * steps.max())

    @cached_property
    def fast(self) -> tuple[float, float]:
        """Frames from and to which the point rises nearly as fast as anywhere."""
        f, z = self.frames, self.heights
        speeds = (z[1:] - z[:-1]) / (f[1:] - f[:-1])
        fast = (speeds >= NEARLY * speeds.max()).nonzero()[0]
        return float(f[fast[0]]), float(f[fast[-1] + 1])

    @property
    def fastest(self) -> float:
        """Frame around which the point rises fastest."""
        return 0.5 * (self.fast[0] + self.fast[1])

    def is_near(self, level: float) -> bool:
        """Tell whether the point passes the toes of a body that stands at this level about where it is fastest."""
        passed, (first, last) = self.crossing(level + TIPTOE * (level - self.bottom)), self.fast
        apart = FASTEST_AFTER_TAKEOFF * (float(self.frames[-1]) - first)
        return passed is not None and first - apart <= passed[0] <= last + apart

    def height_at(self, frames: Array) -> Array:
        """Return the heights, meters, at these frames (n,)."""
        return np.interp(frames, self.frames, self.heights)

    def crossing(self, height: float) -> tuple[float, float] | None:
        """Tell where the way up last passes a height: frame, and meters a frame there; None where it does not."""
        under = (self.heights <= height).nonzero()[0]
        if not len(under) or under[-1] == len(self.heights) - 1:
            return None
        i = int(under[-1])
        f, z = self.frames, self.heights
        speed = float((z[i + 1] - z[i]) / (f[i + 1] - f[i]))
        return float(f[i]) + (height - float(z[i])) / speed, speed
