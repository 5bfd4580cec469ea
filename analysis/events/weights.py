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
    "belief": WeightTable((1.0,), (-4.17,)),
    "posed": WeightTable((0.0, 1.0, 2.0, 3.0), (2.13, 2.31, 1.83, 1.41)),
    "no crouch": WeightTable((1.0,), (-2.21,)),
    "stand unseen": WeightTable((1.0,), (-1.22,)),
    "stays under": WeightTable((1.0,), (-1.06,)),
    "rise": WeightTable((0.0, 0.5, 1.0, 1.5, 2.0, 3.0, 4.5), (-3.46, -1.33, 0.01, 0.53, 0.86, 0.62, -0.28)),
    "pace": WeightTable(
        (-2.74, -2.0, -1.51, -1.0, -0.51, -0.15, 0.58, 1.58, 2.32),
        (-7.99, -7.41, -6.18, -2.98, -0.06, 2.78, 5.11, 6.39, 7.3),
    ),
    "dip": WeightTable((-3.0, -1.5, -0.5, 0.5, 1.5, 2.5), (-4.54, -2.11, -0.19, 0.59, 0.71, 2.49)),
    "reach": WeightTable(
        (-1.0, 0.0, 0.5, 1.0, 1.5, 2.0, 3.0, 4.0, 5.0), (-5.37, -2.99, -0.7, 0.74, 0.7, -0.38, 0.27, 1.74, 2.94)
    ),
    "dip to rise": WeightTable((-2.0, 0.0, 1.0, 2.0, 3.0), (3.19, 1.75, -0.48, -2.72, -4.78)),
    "keyed over stand": WeightTable((-0.2, 0.0, 0.15, 0.3, 0.5, 0.8), (-1.07, 1.69, 3.52, 3.2, 1.26, -1.05)),
    "fastest at": WeightTable((-0.2, 0.0, 0.15, 0.3, 0.4, 0.5), (6.25, 5.62, 4.57, 3.21, 1.91, 1.11)),
    "bob is better": WeightTable((0.0, 10.0, 30.0, 60.0), (-1.39, -1.6, -1.52, -1.96)),
    "no parabola": WeightTable((1.0,), (0.19,)),
    "no parabola in poses": WeightTable((1.0,), (-0.69,)),
    "contacts lost": WeightTable((1.0,), (-5.29,)),
    "held by keys": WeightTable((1.0,), (-10.12,)),
    "strides": WeightTable((1.0,), (-2.16,)),
    "exact": WeightTable((1.0,), (4.99,)),
    "drawn parabola": WeightTable((0.0, 0.25, 0.5, 0.75, 1.0), (0.48, 1.29, 2.0, 2.61, 3.23)),
    "measured parabola": WeightTable((0.0, 0.25, 0.5, 0.75, 1.0), (0.43, 0.13, 0.22, 0.69, 1.25)),
    "parabola's pace": WeightTable(
        (-2.32, -1.51, -1.0, -0.51, -0.15, 0.58, 1.58), (-2.98, -1.64, -0.48, -0.12, -0.41, 0.55, 1.43)
    ),
}


def nats(seen: Mapping[str, float]) -> float:
    """Add up what is seen: names of tables, and the values there.

    >>> nats({"stays under": 1.0}) < 0.0 < nats({"exact": 1.0})
    True
    """
    return sum([interpolated(seen[name], (table := WEIGHTS[name]).knots, table.nats) for name in seen])
