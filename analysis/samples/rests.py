"""Where a point rests: the levels that it holds, among them the height that a body stands at."""

import math
from dataclasses import dataclass

import numpy as np

from ..arrays import Array
from .poses import keyed_samples

LASTING = 0.3
"""Least time that a level is held, in seconds (ours: longer than any pose of a jump but a held crouch)."""


@dataclass(frozen=True, slots=True)
class Rest:
    """A level held from sample `first` to `last` (indices, both in); start and end are its heights there, meters.

    keyed says that two keys hold it, whatever the curve does between them.
    """

    first: int
    last: int
    start: float
    end: float
    keyed: bool = False


def rests_of(frames: Array, heights: Array, *, fps: float, within: float) -> list[Rest]:
    """Find all stretches whose every LASTING seconds stay within so many meters, in order of time.

    frames, heights: (n,) rising frames, meters. A slow drift is one rest, whose start and end differ.
    """
    n = len(frames)
    if n < 2:
        return []
    beat = float(frames[-1] - frames[0]) / (n - 1)
    width = max(2, math.ceil(LASTING * fps / beat - 1e-6) + 1)
    if width > n:
        return []
    level = _furthest(np.maximum, heights, width) - _furthest(np.minimum, heights, width) <= within
    inside = np.zeros(len(level) + 2, dtype=bool)
    inside[1:-1] = level
    edges = (inside[1:] != inside[:-1]).nonzero()[0].tolist()
    held = [(a, b - 1) for a, b in zip(edges[::2], edges[1::2], strict=True)]
    return [
        Rest(a, b + width - 1, _mean(heights[a : a + width]), _mean(heights[b : b + width])) for a, b in held
    ]


def _mean(values: Array) -> float:
    return float(np.add.reduce(values)) / len(values)


def held_between(keys: Array, frames: Array, heights: Array, *, fps: float, within: float) -> list[Rest]:
    """Find the levels that neighboring keys hold, whatever a curve does that overshoots between them.

    keys: (k,) rising frames, of those of the samples; frames, heights: (n,) rising frames, meters.
    """
    at = keyed_samples(frames, keys)
    f, z = frames[at], heights[at]
    long, level = f[1:] - f[:-1] >= LASTING * fps - 1e-6, np.abs(z[1:] - z[:-1]) <= within
    return [
        Rest(int(at[i]), int(at[i + 1]), float(z[i]), float(z[i + 1]), keyed=True)
        for i in (long & level).nonzero()[0].tolist()
    ]


def _furthest(of: np.ufunc, heights: Array, width: int) -> Array:
    """Return the largest, or the least, of every `width` samples in a row: windows are doubled until two cover them."""
    wide, covered = heights, 1
    while 2 * covered <= width:
        wide, covered = of(wide[:-covered], wide[covered:]), 2 * covered
    return wide if covered == width else of(wide[: covered - width], wide[width - covered :])
