"""By how much the spread of a start over its hypotheses is too wide or too narrow: a table, calibrated.

The hypotheses of `onset` bend less smoothly than bodies do, which is made up for by a misfit of the samples; where one
force goes through the bottom and nothing is noisy, it is much too large. `python -m tests.bench start_errors` fits the
table anew, on pushes integrated from random forces and from eight kinds of onset, and prints it.
"""

from bisect import bisect_right

THROUGH = (0.0, 0.5, 1.0)
"""How likely the force goes through the bottom: its share of the evidence."""
FACTORS = (1.00, 0.82, 0.38)
"""What the spread is multiplied with where the samples are clean, at each of THROUGH: the least with which 68 in 100
starts lie within one error and 95 in 100 within two, and their 95 % intervals score no worse; 1 at most, since a wider
one does.
"""
NOISY_SHARE = 0.004
"""Noise of the samples, as a share of the push distance, from which a spread stays as it is, since pushes by one force
that sets in at once need it so."""


def factor(through: float, noise: float) -> float:
    """Return what the spread of a start is multiplied with; noise: a share of the push distance.

    Straight between the knots of THROUGH, and from a clean track to NOISY_SHARE.

    >>> factor(1.0, 0.0) < factor(1.0, 0.004) == factor(1.0, 0.03)
    True
    """
    i = min(max(bisect_right(THROUGH, through) - 1, 0), len(THROUGH) - 2)
    share = min(max((through - THROUGH[i]) / (THROUGH[i + 1] - THROUGH[i]), 0.0), 1.0)
    clean = FACTORS[i] + share * (FACTORS[i + 1] - FACTORS[i])
    return clean + min(noise / NOISY_SHARE, 1.0) * (1.0 - clean)
