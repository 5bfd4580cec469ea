"""Flank samples: those of one side of a top: where they pass a height, and where the point is fastest."""

import math
from bisect import bisect_right
from dataclasses import dataclass, field
from itertools import accumulate

from ..arrays import Array, interpolated
from ..contacts.ballistic import parabola_over

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
FEWEST_ARC_KEYS = 4
"""Fewest keys that an arc is taken of: any three lie on one."""


@dataclass(frozen=True, slots=True, eq=False)
class FlankSamples:
    """The samples of one side of a top, ground first: n frames and meters; for a landing, time is reversed.

    Plain numbers: a side holds few, and arrays of few take longer. keys: (2, k) frames and meters of keys around the
    top, on both sides of it, that tell more than the curve between them; None: the curve tells as much. rested: the
    last sample at which the point still rests on its way, 0 where it does not: what lies before is another move.
    """

    frames: list[float]
    heights: list[float]
    keys: Array | None = None
    rested: int = 0
    fast: tuple[float, float] = field(init=False)
    """First and last frame between which the point rises nearly as fast as anywhere: the last such stretch, since what
    is slow in between parts a landing from the squat that follows it."""
    least_after: list[float] = field(init=False)
    """The least height from each sample on, which rises: by it a height is looked up."""

    def __post_init__(self) -> None:
        object.__setattr__(self, "fast", self._fast())
        object.__setattr__(self, "least_after", [*accumulate(self.heights[::-1], min)][::-1])

    @property
    def bottom(self) -> float:
        """Height of the bottom, meters."""
        return self.heights[0]

    @property
    def top(self) -> float:
        """Height of the top, meters."""
        return self.heights[-1]

    @property
    def begins_in_midst(self) -> bool:
        """Whether the point is about as fast at the bottom as anywhere."""
        speeds = self._speeds()
        return speeds[0] > MIDST * max(speeds)

    @property
    def fastest(self) -> float:
        """Frame around which the point rises fastest."""
        first, last = self.fast
        return 0.5 * (first + last)

    def is_near(self, level: float) -> bool:
        """Tell whether the point is about fastest where a body that stands at this level would leave the ground."""
        passed, (first, last) = self.crossing(level + TIPTOE * (level - self.bottom)), self.fast
        apart = FASTEST_AFTER_TAKEOFF * (self.frames[-1] - first)
        return passed is not None and first - apart <= passed[0] <= last + apart

    def height_at(self, frame: float) -> float:
        """Return the height, meters, at a frame."""
        return interpolated(frame, self.frames, self.heights)

    def crossing(self, height: float) -> tuple[float, float] | None:
        """Tell where the way up last passes a height: the frame, and the speed there in meters per frame; None where it
        does not.
        """
        if self.keys is not None and (passed := self._crossing_of_arc(height, self.keys)) is not None:
            return passed
        f, z = self.frames, self.heights
        i = bisect_right(self.least_after, height) - 1
        if i < 0 or i == len(z) - 1:
            return None
        speed = (z[i + 1] - z[i]) / (f[i + 1] - f[i])
        return f[i] + (height - z[i]) / speed, speed

    def _fast(self) -> tuple[float, float]:
        speeds = self._speeds()
        top_speed = max(speeds[self.rested :])
        fast = [i for i in range(self.rested, len(speeds)) if speeds[i] >= NEARLY * top_speed]
        first, last = fast[0], fast[-1]
        if last - first >= len(fast):
            slow = [i for i in range(first, last) if speeds[i] <= SLOW * top_speed]
            first = next(i for i in fast if i > slow[-1]) if slow else first
        return self.frames[first], self.frames[last + 1]

    def _speeds(self) -> list[float]:
        """Return meters a frame, up, from each sample to the next."""
        f, z = self.frames, self.heights
        return [(b - a) / (end - start) for start, end, a, b in zip(f, f[1:], z, z[1:], strict=False)]

    def _crossing_of_arc(self, height: float, keys: Array) -> tuple[float, float] | None:
        """Tell the same of the arc through the keys over that height; None where they are too few."""
        frames, heights = keys[:, keys[1] > height]
        if len(frames) < FEWEST_ARC_KEYS:
            return None
        arc, *_ = parabola_over(frames, heights)
        drop = arc.height(arc.vertex) - height if arc.c2 < 0.0 else 0.0
        frame = arc.vertex - math.sqrt(drop / -arc.c2) if drop > 0.0 else -math.inf
        return (frame, arc.speed(frame)) if self.frames[0] <= frame <= self.frames[-1] else None
