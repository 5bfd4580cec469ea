"""The type of arrays: of numbers, or of booleans where a mask is spoken of. Shapes stand in docstrings. And what few
numbers are asked for: their median, differences between neighbors, a value between two."""

from bisect import bisect_right
from collections.abc import Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

Array = NDArray[Any]


def thirds(values: Array) -> Array:
    """Return the (n - 3, …) third differences of (n, …) numbers, of which a parabola has none.

    >>> thirds(np.array([0.0, 1.0, 8.0, 27.0, 64.0]))
    array([6., 6.])
    """
    for _ in range(3):
        values = values[1:] - values[:-1]
    return values


def median(values: Array) -> float:
    """Return the median of (n,) numbers, n ≥ 1, all of them finite: numpy's own takes many times as long for few.

    >>> median(np.array([3.0, 1.0, 2.0])), median(np.array([4, 1, 2, 3]))
    (2.0, 2.5)
    """
    ordered = np.sort(values)
    half = len(ordered) // 2
    return float(ordered[half]) if len(ordered) % 2 else 0.5 * (float(ordered[half - 1]) + float(ordered[half]))


def interpolated(value: float, knots: Sequence[float], values: Sequence[float]) -> float:
    """Return numpy.interp's, for one value at a fraction of its cost. knots, values: (n,) plain numbers, knots rise.

    >>> interpolated(1.5, (1.0, 2.0), (3.0, 5.0)), interpolated(7.0, (1.0, 2.0), (3.0, 5.0))
    (4.0, 5.0)
    """
    i = bisect_right(knots, value) - 1
    if i < 0 or i + 1 >= len(knots):
        return values[0] if i < 0 else values[-1]
    return (values[i + 1] - values[i]) / (knots[i + 1] - knots[i]) * (value - knots[i]) + values[i]
