"""Flank: one side of a top: where the point is fastest there, and at which height the body may stand."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from ..arrays import Array

MIDST = 0.5
"""Speed at the end of the track, as a share of the side's top speed, above which the track cuts the motion off
(ours)."""
NEARLY = 0.9
"""Share of the top speed from which on a point counts as nearly as fast (ours)."""
SLOW = 0.5
"""Most speed, as a share of the top speed, of a pause that parts one fast stretch from another (ours)."""
FASTEST_AFTER_TAKEOFF = 0.1
"""Most time between passing the toes of a body that stands at a level and being fastest, as a share of the time from
the fastest to the apex. With more, the body does not stand at that level: it is a seat or a held crouch (ours)."""
TIPTOE = 0.25
"""How far over its stand a body is when it leaves the ground from its toes, as a share of how deep it crouches under
the stand: 6 % of the height of a body that crouches by a quarter of it (ours)."""

POPPED_SHARE = 0.35
"""Share of bodies that leave the ground without a crouch, from where they are held, among those that are held at the
bottom of the way up and seen to stand nowhere else (ours)."""


@dataclass(frozen=True, eq=False)
class Flank:
    """One side of a top, ground first.

    frames, heights   (n,) from the bottom to the top, both included; for a landing, time is reversed
    stand             height in meters at which the body stands on this side, None where that is not seen
    elsewhere         heights at which it stands beyond the next jump, and on the other side
    is_open           whether the track ends at the bottom of the side, or the side is a single step, as at a cut
    is_held           whether the bottom is held, or the track begins there: the body may stand at it
    """

    frames: Array
    heights: Array
    stand: float | None
    elsewhere: tuple[float, ...]
    is_open: bool = False
    is_held: bool = False

    @property
    def levels(self) -> tuple[float, ...]:
        """All levels at which it may stand on this side, the likeliest first."""
        return self.elsewhere if self.stand is None else (self.stand,)

    @cached_property
    def assumed(self) -> float | None:
        """Height in meters at which the body most likely stands.

        Where that is not seen, its toes are taken to leave the ground where it is fastest. None where the track is cut
        off too early to tell.
        """
        if self.levels:
            return self.levels[0]
        if self.is_cut:
            return None
        left = float(np.interp(self.fastest, self.frames, self.heights))
        return self.bottom + (left - self.bottom) / (1.0 + TIPTOE)

    @property
    def may_pop(self) -> bool:
        """Whether the body may leave the ground, or meet it, at the bottom, where it is held."""
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
        """First and last frame between which the point rises nearly as fast as anywhere: the last such stretch, since
        what is slow in between parts a landing from the squat that follows it.
        """
        f, z = self.frames, self.heights
        speeds = (z[1:] - z[:-1]) / (f[1:] - f[:-1])
        top_speed = speeds.max()
        fast = (speeds >= NEARLY * top_speed).nonzero()[0]
        first, last = int(fast[0]), int(fast[-1])
        if last - first >= len(fast):
            slow = (speeds[first:last] <= SLOW * top_speed).nonzero()[0]
            first = int(fast[fast.searchsorted(first + slow[-1])]) if len(slow) else first
        return float(f[first]), float(f[last + 1])

    @property
    def fastest(self) -> float:
        """Frame around which the point rises fastest."""
        return 0.5 * (self.fast[0] + self.fast[1])

    def is_near(self, level: float) -> bool:
        """Tell whether the point is about fastest where a body that stands at this level would leave the ground."""
        passed, (first, last) = self.crossing(level + TIPTOE * (level - self.bottom)), self.fast
        apart = FASTEST_AFTER_TAKEOFF * (float(self.frames[-1]) - first)
        return passed is not None and first - apart <= passed[0] <= last + apart

    def height_at(self, frames: Array) -> Array:
        """Return the heights, meters, at these frames (n,)."""
        return np.interp(frames, self.frames, self.heights)

    def share_at(self, frame: float) -> float | None:
        """Tell how far the point is up from its likeliest stand to its top at a frame, as a share; None without one."""
        if not self.levels:
            return None
        height, stand = float(np.interp(frame, self.frames, self.heights)), self.levels[0]
        return (height - stand) / (self.top - stand)

    def crossing(self, height: float) -> tuple[float, float] | None:
        """Tell where the way up last passes a height: the frame, and the speed there in meters per frame; None where it
        does not.
        """
        under = (self.heights <= height).nonzero()[0]
        if not len(under) or under[-1] == len(self.heights) - 1:
            return None
        i = int(under[-1])
        f, z = self.frames, self.heights
        speed = float((z[i + 1] - z[i]) / (f[i + 1] - f[i]))
        return float(f[i]) + (height - float(z[i])) / speed, speed
