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
    "belief": WeightTable((1.0,), (-3.07,)),
    "posed": WeightTable((0.0, 1.0, 2.0, 3.0), (2.04, 2.26, 1.81, 1.39)),
    "no crouch": WeightTable((1.0,), (-2.11,)),
    "stand unseen": WeightTable((1.0,), (-4.37,)),
    "stays under": WeightTable((1.0,), (-2.31,)),
    "rise": WeightTable((0.0, 0.5, 1.0, 1.5, 2.0, 3.0, 4.5), (-2.98, -0.9, 0.41, 0.91, 1.13, 0.79, -0.11)),
    "pace": WeightTable(
        (-2.74, -2.0, -1.51, -1.0, -0.51, -0.15, 0.58, 1.58, 2.32),
        (-7.87, -7.25, -5.98, -2.69, 0.35, 3.11, 5.42, 6.65, 7.52),
    ),
    "dip": WeightTable((-3.0, -1.5, -0.5, 0.5, 1.5, 2.5), (-4.13, -1.78, 0.12, 0.94, 1.16, 2.94)),
    "reach": WeightTable(
        (-1.0, 0.0, 0.5, 1.0, 1.5, 2.0, 3.0, 4.0, 5.0), (-5.3, -2.87, -0.52, 1.01, 1.09, 0.1, 0.58, 1.99, 3.18)
    ),
    "dip to rise": WeightTable((-2.0, 0.0, 1.0, 2.0, 3.0), (4.0, 2.43, 0.0, -2.45, -4.71)),
    "keyed over stand": WeightTable((-0.2, 0.0, 0.15, 0.3, 0.5, 0.8), (-1.11, 1.72, 3.58, 3.21, 1.22, -1.13)),
    "fastest at": WeightTable((-0.2, 0.0, 0.15, 0.3, 0.4, 0.5), (3.18, 2.48, 1.39, -0.01, -1.33, -2.11)),
    "bob is better": WeightTable((0.0, 10.0, 30.0, 60.0), (-1.35, -1.58, -1.5, -1.91)),
    "no parabola": WeightTable((1.0,), (0.37,)),
    "no parabola in poses": WeightTable((1.0,), (-0.62,)),
    "contacts lost": WeightTable((1.0,), (-5.14,)),
    "held by keys": WeightTable((1.0,), (-10.37,)),
    "strides": WeightTable((1.0,), (-2.15,)),
    "exact": WeightTable((1.0,), (5.0,)),
    "drawn parabola": WeightTable((0.0, 0.25, 0.5, 0.75, 1.0), (0.39, 1.22, 1.95, 2.6, 3.24)),
    "measured parabola": WeightTable((0.0, 0.25, 0.5, 0.75, 1.0), (0.36, 0.21, 0.44, 0.87, 1.29)),
    "parabola's pace": WeightTable(
        (-2.32, -1.51, -1.0, -0.51, -0.15, 0.58, 1.58), (-2.84, -1.51, -0.36, -0.01, -0.34, 0.65, 1.59)
    ),
}


def nats(seen: Mapping[str, float]) -> float:
    """Add up what is seen: names of tables, and the values there.

    >>> nats({"stays under": 1.0}) < 0.0 < nats({"exact": 1.0})
    True
    """
    return sum([interpolated(seen[name], (table := WEIGHTS[name]).knots, table.nats) for name in seen])
