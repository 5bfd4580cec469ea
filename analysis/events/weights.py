"""How many nats each thing that is seen speaks for a jump: tables, calibrated together.

`python -m tests.bench calibrate` fits them anew by a logistic regression on drawn, integrated and grounded motion
and prints this file's tables: so they may be added up although the witnesses are not quite independent. Between
knots they are interpolated, beyond them they stay.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from ..arrays import interpolated


@dataclass(frozen=True, slots=True)
class WeightTable:
    """Nats (k,) at these rising knots (k,) of what is seen; of a bare fact, one knot."""

    knots: tuple[float, ...]
    nats: tuple[float, ...]

    def at(self, value: float) -> float:
        """Return nats of a value."""
        return interpolated(value, self.knots, self.nats)


WEIGHTS: Mapping[str, WeightTable] = {
    "belief": WeightTable((1.0,), (-3.01,)),
    "posed": WeightTable((0.0, 1.0, 2.0, 3.0), (2.14, 2.32, 1.87, 1.42)),
    "no crouch": WeightTable((1.0,), (-2.12,)),
    "stand unseen": WeightTable((1.0,), (-4.21,)),
    "stays under": WeightTable((1.0,), (-2.32,)),
    "rise": WeightTable((0.0, 0.5, 1.0, 1.5, 2.0, 3.0, 4.5), (-3.1, -0.9, 0.43, 0.92, 1.12, 0.85, 0.01)),
    "pace": WeightTable(
        (-2.74, -2.0, -1.51, -1.0, -0.51, -0.15, 0.58, 1.58, 2.32),
        (-7.9, -7.29, -6.01, -2.63, 0.46, 3.17, 5.44, 6.64, 7.48),
    ),
    "dip": WeightTable((-3.0, -1.5, -0.5, 0.5, 1.5, 2.5), (-3.82, -1.72, 0.07, 0.89, 1.09, 2.84)),
    "reach": WeightTable(
        (-1.0, 0.0, 0.5, 1.0, 1.5, 2.0, 3.0, 4.0, 5.0), (-4.86, -2.64, -0.47, 0.95, 1.01, 0.03, 0.48, 1.86, 3.0)
    ),
    "dip to rise": WeightTable((-2.0, 0.0, 1.0, 2.0, 3.0), (3.94, 2.43, 0.01, -2.41, -4.62)),
    "keyed over stand": WeightTable((-0.2, 0.0, 0.15, 0.3, 0.5, 0.8), (-1.15, 1.77, 3.67, 3.23, 1.12, -1.35)),
    "fastest at": WeightTable((-0.2, 0.0, 0.15, 0.3, 0.4, 0.5), (2.53, 2.37, 1.52, 0.22, -1.12, -1.99)),
    "bob is better": WeightTable((0.0, 10.0, 30.0, 60.0), (-1.41, -1.57, -1.44, -1.84)),
    "no parabola": WeightTable((1.0,), (0.28,)),
    "no parabola in poses": WeightTable((1.0,), (-0.65,)),
    "contacts lost": WeightTable((1.0,), (-5.18,)),
    "held by keys": WeightTable((1.0,), (-10.06,)),
    "strides": WeightTable((1.0,), (-2.09,)),
    "exact": WeightTable((1.0,), (4.84,)),
    "drawn parabola": WeightTable((0.0, 0.25, 0.5, 0.75, 1.0), (0.3, 1.12, 1.87, 2.53, 3.19)),
    "measured parabola": WeightTable((0.0, 0.25, 0.5, 0.75, 1.0), (0.27, 0.14, 0.41, 0.83, 1.21)),
    "parabola's pace": WeightTable(
        (-2.32, -1.51, -1.0, -0.51, -0.15, 0.58, 1.58), (-2.67, -1.35, -0.26, -0.07, -0.45, 0.59, 1.57)
    ),
}


def nats(seen: Mapping[str, float]) -> float:
    """Add up what is seen: names of tables, and the values there.

    >>> nats({"stays under": 1.0}) < 0.0 < nats({"exact": 1.0})
    True
    """
    return sum([interpolated(seen[name], (table := WEIGHTS[name]).knots, table.nats) for name in seen])
