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
    "belief": WeightTable((1.0,), (0.32,)),
    "posed": WeightTable((0.0, 1.0, 2.0, 3.0), (2.8, 4.26, 5.48, 6.51)),
    "no crouch": WeightTable((1.0,), (-5.42,)),
    "stand unseen": WeightTable((1.0,), (-5.33,)),
    "stays under": WeightTable((1.0,), (-6.31,)),
    "rise": WeightTable((0.0, 0.5, 1.0, 1.5, 2.0, 3.0, 4.5), (-3.22, -0.86, 0.58, 1.14, 1.15, 0.56, -0.69)),
    "pace": WeightTable(
        (-2.74, -2.0, -1.51, -1.0, -0.51, -0.15, 0.58, 1.58, 2.32),
        (-6.72, -5.28, -3.54, -1.79, 0.05, 2.2, 3.81, 4.67, 5.27),
    ),
    "dip": WeightTable((-3.0, -1.5, -0.5, 0.5, 1.5, 2.5), (-4.65, -2.52, -0.29, 1.39, 2.05, 2.67)),
    "reach": WeightTable(
        (-1.0, 0.0, 0.5, 1.0, 1.5, 2.0, 3.0, 4.0, 5.0), (-3.37, -2.35, -1.28, -0.3, 0.35, 0.46, 0.92, 1.81, 2.41)
    ),
    "dip to rise": WeightTable((-2.0, 0.0, 1.0, 2.0, 3.0), (2.47, 1.2, -0.3, -1.71, -3.0)),
    "bob is better": WeightTable((0.0, 10.0, 30.0, 60.0), (-1.18, -1.53, -1.54, -1.74)),
    "no parabola": WeightTable((1.0,), (0.04,)),
    "no parabola in poses": WeightTable((1.0,), (-0.31,)),
    "contacts lost": WeightTable((1.0,), (-1.15,)),
    "held by keys": WeightTable((1.0,), (-7.08,)),
    "strides": WeightTable((1.0,), (-1.61,)),
    "exact": WeightTable((1.0,), (5.18,)),
    "drawn parabola": WeightTable((0.0, 0.25, 0.5, 0.75, 1.0), (-1.04, -0.08, 0.84, 1.81, 2.85)),
    "measured parabola": WeightTable((0.0, 0.25, 0.5, 0.75, 1.0), (-0.78, -0.82, -0.54, 0.0, 0.58)),
    "parabola's pace": WeightTable(
        (-2.32, -1.51, -1.0, -0.51, -0.15, 0.58, 1.58), (-2.21, -1.29, -0.41, 0.1, 0.6, 1.53, 2.26)
    ),
}


def nats(seen: Mapping[str, float]) -> float:
    """Add up what is seen: names of tables, and the values there.

    >>> nats({"stays under": 1.0}) < 0.0 < nats({"exact": 1.0})
    True
    """
    return sum(WEIGHTS[name].at(value) for name, value in seen.items())
