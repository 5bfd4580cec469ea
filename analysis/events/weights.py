"""How many nats each thing that is seen speaks for a jump: tables, calibrated together.

`python -m tests.bench calibrate` fits them anew by a logistic regression on drawn, integrated and grounded motion
and prints this file's tables: so they may be added up although the witnesses are not quite independent. Between
knots they are interpolated, beyond them they stay.
"""

from bisect import bisect_right
from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class WeightTable:
    """Nats (k,) at these rising knots (k,) of what is seen; of a bare fact, one knot."""

    knots: tuple[float, ...]
    nats: tuple[float, ...]

    def at(self, value: float) -> float:
        """Return nats of a value: numpy.interp's, for one value at a fraction of its cost."""
        x, y = self.knots, self.nats
        i = bisect_right(x, value) - 1
        if i < 0 or i + 1 >= len(x):
            return y[0] if i < 0 else y[-1]
        return (y[i + 1] - y[i]) / (x[i + 1] - x[i]) * (value - x[i]) + y[i]


WEIGHTS: Mapping[str, WeightTable] = {
    "belief": WeightTable((1.0,), (-2.95,)),
    "posed": WeightTable((0.0, 1.0, 2.0, 3.0), (2.13, 2.28, 1.75, 1.25)),
    "no crouch": WeightTable((1.0,), (-2.52,)),
    "stand unseen": WeightTable((1.0,), (-4.48,)),
    "stays under": WeightTable((1.0,), (-2.78,)),
    "rise": WeightTable((0.0, 0.5, 1.0, 1.5, 2.0, 3.0, 4.5), (-3.17, -0.87, 0.57, 1.09, 1.33, 1.0, -0.09)),
    "pace": WeightTable(
        (-2.74, -2.0, -1.51, -1.0, -0.51, -0.15, 0.58, 1.58, 2.32),
        (-7.91, -7.24, -5.86, -2.54, 0.58, 3.3, 5.49, 6.64, 7.41),
    ),
    "dip": WeightTable((-3.0, -1.5, -0.5, 0.5, 1.5, 2.5), (-4.3, -1.92, 0.13, 1.11, 1.44, 3.39)),
    "reach": WeightTable(
        (-1.0, 0.0, 0.5, 1.0, 1.5, 2.0, 3.0, 4.0, 5.0), (-3.31, -1.81, -0.4, 0.51, 0.41, -0.48, 0.09, 1.71, 3.13)
    ),
    "dip to rise": WeightTable((-2.0, 0.0, 1.0, 2.0, 3.0), (3.4, 2.1, 0.07, -1.92, -3.8)),
    "keyed over stand": WeightTable((-0.2, 0.0, 0.15, 0.3, 0.5, 0.8), (-1.3, 1.74, 3.74, 3.22, 1.03, -1.52)),
    "fastest at": WeightTable((-0.2, 0.0, 0.15, 0.3, 0.4, 0.5), (2.7, 2.16, 1.4, 0.33, -0.77, -1.51)),
    "bob is better": WeightTable((0.0, 10.0, 30.0, 60.0), (-1.63, -1.61, -1.37, -1.76)),
    "no parabola": WeightTable((1.0,), (0.48,)),
    "no parabola in poses": WeightTable((1.0,), (-1.13,)),
    "contacts lost": WeightTable((1.0,), (-5.16,)),
    "held by keys": WeightTable((1.0,), (-6.51,)),
    "strides": WeightTable((1.0,), (-1.86,)),
    "exact": WeightTable((1.0,), (4.89,)),
    "drawn parabola": WeightTable((0.0, 0.25, 0.5, 0.75, 1.0), (0.25, 1.12, 1.92, 2.62, 3.32)),
    "measured parabola": WeightTable((0.0, 0.25, 0.5, 0.75, 1.0), (0.3, 0.08, 0.36, 0.8, 1.11)),
    "parabola's pace": WeightTable(
        (-2.32, -1.51, -1.0, -0.51, -0.15, 0.58, 1.58), (-2.66, -1.36, -0.29, 0.04, -0.26, 0.69, 1.54)
    ),
}


def nats(seen: Mapping[str, float]) -> float:
    """Add up what is seen: names of tables, and the values there.

    >>> nats({"stays under": 1.0}) < 0.0 < nats({"exact": 1.0})
    True
    """
    return sum(WEIGHTS[name].at(value) for name, value in seen.items())
