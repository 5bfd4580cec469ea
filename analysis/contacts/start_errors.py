"""By how much the spread of a start over its hypotheses is too wide or too narrow: a table, calibrated.

The hypotheses of `onset` bend less smoothly than bodies do, which is made up for by a misfit of the samples; where one
force goes through the bottom and nothing is noisy, it is much too large. `python -m tests.bench start_errors` fits the
table anew, on pushes integrated from random forces and from eight kinds of onset, and prints it.
"""

from bisect import bisect_right

THROUGH = (0.0, 0.5, 1.0)
"""How likely the force goes through the bottom: its share of the evidence."""
NOISE_SHARES = (0.0, 0.004)
"""Noise of the samples, as a share of the push distance; from the last on a spread stays as it is, since pushes by one
force that sets in at once need it so."""
FACTORS = (
    (1.00, 1.00),
    (0.73, 1.00),
    (0.38, 1.00),
)
"""What the spread is multiplied with, a row of NOISE_SHARES for each of THROUGH: the least with which 68 in 100 starts
lie within one error and 95 in 100 within two, and their 95 % intervals score no worse; 1 at most, since a wider one
does.
"""


def factor(through: float, noise: float) -> float:
    """Return what the spread of a start is multiplied with; noise: a share of the push distance.

    Straight between the knots of both.

    >>> factor(1.0, 0.0) < factor(1.0, 0.004) == factor(1.0, 0.03)
    True
    """
    row, x = _place(THROUGH, through)
    column, y = _place(NOISE_SHARES, noise)
    low, high = (FACTORS[i][column] + y * (FACTORS[i][column + 1] - FACTORS[i][column]) for i in (row, row + 1))
    return low + x * (high - low)


def _place(knots: tuple[float, ...], value: float) -> tuple[int, float]:
    """Return the knot below a value, and its share of the way to the next; beyond the ends, theirs."""
    i = min(max(bisect_right(knots, value) - 1, 0), len(knots) - 2)
    return i, min(max((value - knots[i]) / (knots[i + 1] - knots[i]), 0.0), 1.0)
