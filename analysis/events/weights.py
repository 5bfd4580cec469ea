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
    "belief": WeightTable((1.0,), (-2.91,)),
    "posed": WeightTable((0.0, 1.0, 2.0, 3.0), (2.09, 2.24, 1.72, 1.24)),
    "no crouch": WeightTable((1.0,), (-2.52,)),
    "stand unseen": WeightTable((1.0,), (-4.52,)),
    "stays under": WeightTable((1.0,), (-2.78,)),
    "rise": WeightTable((0.0, 0.5, 1.0, 1.5, 2.0, 3.0, 4.5), (-3.26, -0.89, 0.62, 1.19, 1.4, 0.98, -0.15)),
    "pace": WeightTable(
        (-2.74, -2.0, -1.51, -1.0, -0.51, -0.15, 0.58, 1.58, 2.32),
        (-7.91, -7.2, -5.77, -2.46, 0.59, 3.28, 5.45, 6.58, 7.34),
    ),
    "dip": WeightTable((-3.0, -1.5, -0.5, 0.5, 1.5, 2.5), (-4.34, -1.95, 0.12, 1.12, 1.49, 3.45)),
    "reach": WeightTable(
        (-1.0, 0.0, 0.5, 1.0, 1.5, 2.0, 3.0, 4.0, 5.0), (-3.33, -1.86, -0.46, 0.46, 0.42, -0.42, 0.11, 1.76, 3.22)
    ),
    "dip to rise": WeightTable((-2.0, 0.0, 1.0, 2.0, 3.0), (3.34, 2.1, 0.09, -1.88, -3.76)),
    "keyed over stand": WeightTable((-0.2, 0.0, 0.15, 0.3, 0.5, 0.8), (-1.19, 1.74, 3.7, 3.2, 1.02, -1.51)),
    "fastest at": WeightTable((-0.2, 0.0, 0.15, 0.3, 0.4, 0.5), (2.78, 2.24, 1.4, 0.3, -0.8, -1.52)),
    "bob is better": WeightTable((0.0, 10.0, 30.0, 60.0), (-1.6, -1.6, -1.37, -1.76)),
    "no parabola": WeightTable((1.0,), (0.43,)),
    "no parabola in poses": WeightTable((1.0,), (-0.46,)),
    "contacts lost": WeightTable((1.0,), (-5.14,)),
    "held by keys": WeightTable((1.0,), (-6.57,)),
    "strides": WeightTable((1.0,), (-1.84,)),
    "exact": WeightTable((1.0,), (4.84,)),
    "drawn parabola": WeightTable((0.0, 0.25, 0.5, 0.75, 1.0), (0.26, 1.18, 2.01, 2.71, 3.42)),
    "measured parabola": WeightTable((0.0, 0.25, 0.5, 0.75, 1.0), (0.3, 0.08, 0.35, 0.8, 1.12)),
    "parabola's pace": WeightTable(
        (-2.32, -1.51, -1.0, -0.51, -0.15, 0.58, 1.58), (-2.81, -1.53, -0.46, -0.05, -0.29, 0.7, 1.57)
    ),
}


def nats(seen: Mapping[str, float]) -> float:
    """Add up what is seen: names of tables, and the values there.

    >>> nats({"stays under": 1.0}) < 0.0 < nats({"exact": 1.0})
    True
    """
    return sum(WEIGHTS[name].at(value) for name, value in seen.items())
