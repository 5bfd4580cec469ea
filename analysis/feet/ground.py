"""Where the points of a foot stand: the level each of them keeps on the ground, and when it is down there.

Meters and samples, z up. The ground may be given; if not, it is read from the poses themselves: a foot that
stands keeps its height, and comes down to it from above or leaves it upwards.
"""

from bisect import bisect
from collections import deque
from typing import NamedTuple

import numpy as np

from ..arrays import Array
from ..track import Track

DOWN_SHARE = 0.03
"""Share of the range of heights within which a point is down (ours); DOWN_MOST and DOWN_LEAST bound it."""
DOWN_MOST, NEAR_NOISE, DOWN_LEAST = 0.02, 4.0, 1e-4
"""Most meters within which a point is down; least, as a multiple of its noise; and least in meters (ours)."""
STAND_SECONDS = 0.15
"""Seconds: a height that is kept this long is a stand of its own; one that is kept less is a stand only at the level of
such a one (ours)."""
STEP_SECONDS, ON_ITS_WAY = 0.085, 0.5
"""A foot on its way to a longer stand: it keeps a level this many seconds from that stand, and ends higher or lower
than it began, by this share of the tolerance (ours: two frames of film)."""
HELD_SECONDS = 0.6
"""Seconds: a height above its surroundings that is kept this long is a ledge, not the top of a flight (ours)."""
DIP_SECONDS = 0.5
"""Seconds: a foot that goes under its level and comes back within this time sinks; it does not step down (ours)."""
LEFT_LEVEL_TOLERANCES = 3.0
"""Distance from a level, in tolerances, past which a point has gone up or down from it."""
SHORTEST_STAND_SHARE = 0.3
"""Least length of a stand whose level counts over a given ground, as a share of the longest stand (ours)."""


LEVEL_TOLERANCE, GIVEN_LEVEL_TOLERANCE = 0.6, 0.1
"""Shares of the tolerance by which the level of a point may lie elsewhere, read from its stands and over a given
ground: soles and ground give way under a push (calibrated by tests/truth/contact_errors.py on simulated bodies)."""


class Stand(NamedTuple):
    """A stretch at one level: first and last sample, meters."""

    first: int
    last: int
    level: float


class Point(NamedTuple):
    """One point of a foot: heights (n,) m over the given ground or the origin, down (n,) whether it is on the
    ground, level (n,) m of where it stands; its tolerance, its noise and one standard error of its level, m."""

    heights: Array
    down: Array
    level: Array
    near: float
    noise: float
    level_error: float

    @property
    def backward(self) -> "Point":
        """The same point with time reversed."""
        return Point(self.heights[::-1], self.down[::-1], self.level[::-1], *self[3:])


def points_of(track: Track, rows: Array) -> tuple[Point, ...]:
    """Tell for each point of a track's feet when it is on the ground, over those of its rows where they were read."""
    if track.feet is None:
        return ()
    heights = track.feet[rows, :, 2] - (0.0 if track.ground is None else track.ground[rows])
    reach, seconds = float(np.ptp(track.heights)), track.frames[rows] / track.fps
    return tuple(_point(column, seconds, reach, given=track.ground is not None) for column in heights.T)


def _point(heights: Array, seconds: Array, reach: float, *, given: bool) -> Point:
    noise = _noise(heights)
    near = max(min(DOWN_MOST, DOWN_SHARE * max(reach, float(np.ptp(heights)))), NEAR_NOISE * noise, DOWN_LEAST)
    stands = _stands(heights, seconds, near)
    if given:
        level = np.full_like(heights, _clearance(stands))
        return Point(
            heights, heights <= level + near, level, near, noise, float(np.hypot(GIVEN_LEVEL_TOLERANCE * near, noise))
        )
    down, level = np.zeros(len(heights), dtype=bool), np.full_like(heights, np.nan)
    long = np.array([stand[:2] for stand in stands if _lasts(seconds, stand)], dtype=np.int64).reshape(-1, 2)
    onward = _Way(heights, seconds, long, near)
    backward = _Way(heights[::-1], -seconds[::-1], len(heights) - 1 - long[::-1, ::-1], near)
    for stand in sorted(stands, key=lambda stand: stand.last - stand.first):  # the longest has the last word
        last = _onward(onward, stand.last, stand.level)
        first = len(heights) - 1 - _onward(backward, len(heights) - 1 - stand.first, stand.level)
        down[first : last + 1], level[first : last + 1] = True, stand.level
    return Point(heights, down, level, near, noise, float(np.hypot(LEVEL_TOLERANCE * near, noise)))


def _clearance(stands: list[Stand]) -> float:
    """Tell how far the point keeps over a given ground when it stands: a bone lies within its foot. Never under it."""
    longest = max((stand.last - stand.first for stand in stands), default=0)
    levels = [stand.level for stand in stands if stand.last - stand.first >= SHORTEST_STAND_SHARE * longest]
    return max(min(levels, default=0.0), 0.0)


def _stands(heights: Array, seconds: Array, near: float) -> list[Stand]:
    """Return the stretches that are stands, in order: not the top of a flight, not a swing's low point."""
    found = [Stand(a, b, float(np.median(heights[a : b + 1]))) for a, b in _level_runs(heights, near)]
    found = [stand for stand in found if not _is_top(heights, seconds, stand, near)]
    levels = np.array([stand.level for stand in found if _lasts(seconds, stand)])
    if len(levels):
        found = [stand for stand in found if _lasts(seconds, stand) or np.abs(levels - stand.level).min() <= 2.0 * near]
    return _apart(heights, seconds, found, near)


def _apart(heights: Array, seconds: Array, stands: list[Stand], near: float) -> list[Stand]:
    """Return the stands in order, without the short ones that are a foot on its way from a longer one, or to it."""
    kept: list[Stand] = []
    for stand in sorted(stands, key=lambda stand: stand.first - stand.last):
        at = bisect(kept, stand)
        before = at > 0 and seconds[stand.first] - seconds[kept[at - 1].last] < STEP_SECONDS
        after = at < len(kept) and seconds[kept[at].first] - seconds[stand.last] < STEP_SECONDS
        moves = abs(heights[stand.last] - heights[stand.first]) > ON_ITS_WAY * near
        if _lasts(seconds, stand) or not ((before or after) and moves):
            kept.insert(at, stand)
    return kept


def _lasts(seconds: Array, stand: Stand) -> bool:
    return bool(seconds[stand.last] - seconds[stand.first] >= STAND_SECONDS)


def _level_runs(heights: Array, near: float) -> list[tuple[int, int]]:
    """Return stretches of two samples and more that keep their height within a tolerance, the longest first taken."""
    n = len(heights)
    reach = _reach(heights.tolist(), near)
    taken = np.zeros(n, dtype=bool)
    runs = []
    for start in sorted(range(n), key=lambda i: i - reach[i]):
        if reach[start] > start and not taken[start : reach[start] + 1].any():
            taken[start : reach[start] + 1] = True
            runs.append((start, reach[start]))
    return sorted(runs)


def _reach(values: list[float], near: float) -> list[int]:
    """For each sample the last one up to which the range stays within a tolerance."""
    lows: deque[int] = deque()
    highs: deque[int] = deque()
    reach, end = [], 0
    for start in range(len(values)):
        while end < len(values):
            low = min(values[lows[0]], values[end]) if lows else values[end]
            high = max(values[highs[0]], values[end]) if highs else values[end]
            if high - low > near:
                break
            while lows and values[lows[-1]] >= values[end]:
                lows.pop()
            while highs and values[highs[-1]] <= values[end]:
                highs.pop()
            lows.append(end)
            highs.append(end)
            end += 1
        reach.append(end - 1)
        for ends in (lows, highs):
            if ends[0] == start:
                ends.popleft()
    return reach


def _is_top(heights: Array, seconds: Array, stand: Stand, near: float) -> bool:
    """Tell whether the heights fall off on both sides, as over the top of a flight."""
    if seconds[stand.last] - seconds[stand.first] >= HELD_SECONDS:
        return False
    sides = heights[: stand.first][::-1], heights[stand.last + 1 :]
    return all(_falls(side, stand.level, LEFT_LEVEL_TOLERANCES * near) for side in sides)


def _falls(side: Array, level: float, far: float) -> bool:
    """Tell whether the first sample that lies far from a level lies under it; looked for in ever longer pieces."""
    start, length = 0, 16
    while start < len(side):
        off = side[start : start + length] - level
        gone = np.abs(off) > far
        if gone.any():
            return bool(off[int(gone.argmax())] < 0.0)
        start, length = start + length, 2 * length
    return False


class _Way(NamedTuple):
    """Heights and seconds (n,) forward or backward in time, the long stands' ends (k, 2), and the tolerance."""

    heights: Array
    seconds: Array
    long: Array
    near: float


def _onward(way: _Way, at: int, level: float) -> int:
    """Return the last sample from `at` on that is down at this level: near it, or in a dip under it that comes back."""
    heights, n = way.heights, len(way.heights)
    while at + 1 < n and heights[at + 1] <= level + way.near:
        if heights[at + 1] >= level - way.near:
            at += 1
            continue
        end = int(np.searchsorted(way.seconds, way.seconds[at] + DIP_SECONDS, side="right"))
        back = np.flatnonzero(heights[at + 1 : end] >= level - way.near)
        if len(back) == 0:
            return at
        up = at + 1 + int(back[0])
        if _stands_within(way.long, at + 1, up):
            return at
        at = up if heights[up] <= level + way.near else up - 1
    return at


def _stands_within(long: Array, first: int, end: int) -> bool:
    row = int(np.searchsorted(long[:, 0], first))
    return row < len(long) and bool(long[row, 1] < end)


def _noise(heights: Array) -> float:
    """Return white noise, meters, from third differences: those add it up by √20; motion fills few of them, so the
    lower quartile (0.3186 standard deviations of a normal variable) tells it."""
    if len(heights) < 12:
        return 0.0
    third = np.abs(np.diff(heights, 3))
    return float(np.partition(third, len(third) // 4)[len(third) // 4]) / (0.3186 * 20**0.5)
