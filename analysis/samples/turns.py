"""Where a track turns: its tops and bottoms, small wobbles left out."""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from ..arrays import Array


@dataclass(frozen=True, slots=True)
class Turn:
    """A top at index `top`, with the lowest sample before it and after it (indices; the ends count)."""

    before: int
    top: int
    after: int


@dataclass(frozen=True, slots=True)
class Descent:
    """A way down, from the index of its top to that of its bottom; the ends of the track count."""

    top: int
    bottom: int


def tops(heights: Array, swing: float) -> list[Turn]:
    """Find all tops that stand out from both sides by at least `swing` meters.

    heights: (n,) meters. A top at an end of the track is none.
    """
    turns = _turns(heights, swing)
    return [
        Turn(a, b, c)
        for a, b, c in zip(turns, turns[1:], turns[2:], strict=False)
        if heights[b] - heights[a] >= swing and heights[b] - heights[c] >= swing
    ]


def descents(heights: Array, swing: float) -> list[Descent]:
    """Find all ways down of at least `swing` meters."""
    turns = _turns(heights, swing)
    return [
        Descent(a, b) for a, b in zip(turns, turns[1:], strict=False) if heights[a] - heights[b] >= swing
    ]


def _turns(heights: Array, swing: float) -> list[int]:
    """Return indices of alternating bottoms and tops, the first and last sample among them."""
    extremes, values = _extremes(heights.tobytes())
    if not extremes:
        return []
    last = extremes[-1]
    kept = [0]
    low = high = 0
    direction = 0
    for i, value in enumerate(values):
        if value < values[low]:
            low = i
        if value > values[high]:
            high = i
        if direction >= 0 and value <= values[high] - swing:
            if direction > 0 or high > 0:
                kept.append(extremes[high])
            direction, low, high = -1, i, i
        elif direction <= 0 and value >= values[low] + swing:
            if direction < 0 or low > 0:
                kept.append(extremes[low])
            direction, low, high = 1, i, i
    tail = extremes[high if direction > 0 else low]
    if tail != kept[-1]:
        kept.append(tail)
    if last != kept[-1]:
        kept.append(last)
    return kept


@lru_cache(maxsize=4)
def _extremes(heights: bytes) -> tuple[list[int], list[float]]:
    """Return indices and heights of all local extremes, the ends among them; none where nothing moves.

    Tops and ways down of one track ask for them in turn.
    """
    z = np.frombuffer(heights)
    steps = np.sign(z[1:] - z[:-1])
    moving = steps.nonzero()[0]
    if not len(moving):
        return [], []
    ways = steps[moving]
    flips = (ways[1:] != ways[:-1]).nonzero()[0] + 1
    extremes = [0, *moving[flips].tolist(), len(z) - 1]
    return extremes, z[extremes].tolist()
