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
    "belief": WeightTable((1.0,), (-2.87,)),
    "posed": WeightTable((0.0, 1.0, 2.0, 3.0), (1.96, 2.16, 1.69, 1.22)),
    "no crouch": WeightTable((1.0,), (-2.36,)),
    "stand unseen": WeightTable((1.0,), (-4.47,)),
    "stays under": WeightTable((1.0,), (-2.78,)),
    "rise": WeightTable((0.0, 0.5, 1.0, 1.5, 2.0, 3.0, 4.5), (-3.33, -0.92, 0.6, 1.21, 1.47, 1.03, -0.13)),
    "pace": WeightTable(
        (-2.74, -2.0, -1.51, -1.0, -0.51, -0.15, 0.58, 1.58, 2.32),
        (-7.87, -7.14, -5.73, -2.48, 0.54, 3.25, 5.43, 6.57, 7.34),
    ),
    "dip": WeightTable((-3.0, -1.5, -0.5, 0.5, 1.5, 2.5), (-4.21, -1.85, 0.18, 1.13, 1.39, 3.28)),
    "reach": WeightTable(
        (-1.0, 0.0, 0.5, 1.0, 1.5, 2.0, 3.0, 4.0, 5.0), (-3.46, -1.94, -0.48, 0.51, 0.48, -0.45, 0.1, 1.79, 3.38)
    ),
    "dip to rise": WeightTable((-2.0, 0.0, 1.0, 2.0, 3.0), (3.41, 2.12, 0.08, -1.9, -3.78)),
    "keyed over stand": WeightTable((-0.2, 0.0, 0.15, 0.3, 0.5, 0.8), (-1.25, 1.69, 3.67, 3.2, 1.01, -1.53)),
    "fastest at": WeightTable((-0.2, 0.0, 0.15, 0.3, 0.4, 0.5), (3.02, 2.4, 1.46, 0.28, -0.93, -1.85)),
    "bob is better": WeightTable((0.0, 10.0, 30.0, 60.0), (-1.6, -1.61, -1.41, -1.81)),
    "no parabola": WeightTable((1.0,), (0.43,)),
    "no parabola in poses": WeightTable((1.0,), (-0.49,)),
    "contacts lost": WeightTable((1.0,), (-5.17,)),
    "held by keys": WeightTable((1.0,), (-6.59,)),
    "strides": WeightTable((1.0,), (-1.87,)),
    "exact": WeightTable((1.0,), (4.8,)),
    "drawn parabola": WeightTable((0.0, 0.25, 0.5, 0.75, 1.0), (0.21, 1.1, 1.91, 2.62, 3.33)),
    "measured parabola": WeightTable((0.0, 0.25, 0.5, 0.75, 1.0), (0.25, 0.07, 0.38, 0.89, 1.31)),
    "parabola's pace": WeightTable(
        (-2.32, -1.51, -1.0, -0.51, -0.15, 0.58, 1.58), (-2.94, -1.56, -0.36, 0.07, -0.22, 0.7, 1.5)
    ),
}


def nats(seen: Mapping[str, float]) -> float:
    """Add up what is seen: names of tables, and the values there.

    >>> nats({"stays under": 1.0}) < 0.0 < nats({"exact": 1.0})
    True
    """
    return sum(WEIGHTS[name].at(value) for name, value in seen.items())
