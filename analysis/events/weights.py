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
    "belief": WeightTable((1.0,), (-2.7,)),
    "posed": WeightTable((0.0, 1.0, 2.0, 3.0), (2.07, 2.29, 1.85, 1.39)),
    "no crouch": WeightTable((1.0,), (-2.17,)),
    "stand unseen": WeightTable((1.0,), (-4.3,)),
    "stays under": WeightTable((1.0,), (-2.7,)),
    "rise": WeightTable((0.0, 0.5, 1.0, 1.5, 2.0, 3.0, 4.5), (-2.97, -0.76, 0.58, 1.05, 1.22, 0.91, 0.01)),
    "pace": WeightTable(
        (-2.74, -2.0, -1.51, -1.0, -0.51, -0.15, 0.58, 1.58, 2.32),
        (-8.08, -7.52, -6.26, -2.79, 0.42, 3.21, 5.75, 7.15, 8.15),
    ),
    "dip": WeightTable((-3.0, -1.5, -0.5, 0.5, 1.5, 2.5), (-3.78, -1.66, 0.13, 0.97, 1.26, 3.12)),
    "reach": WeightTable(
        (-1.0, 0.0, 0.5, 1.0, 1.5, 2.0, 3.0, 4.0, 5.0), (-3.55, -1.89, -0.31, 0.75, 0.71, -0.28, 0.18, 1.6, 2.83)
    ),
    "dip to rise": WeightTable((-2.0, 0.0, 1.0, 2.0, 3.0), (3.67, 2.16, 0.02, -1.97, -3.84)),
    "keyed over stand": WeightTable((-0.2, 0.0, 0.15, 0.3, 0.5, 0.8), (-1.11, 1.78, 3.67, 3.22, 1.12, -1.33)),
    "fastest at": WeightTable((-0.2, 0.0, 0.15, 0.3, 0.4, 0.5), (2.68, 2.51, 1.63, 0.34, -0.99, -1.86)),
    "bob is better": WeightTable((0.0, 10.0, 30.0, 60.0), (-1.5, -1.6, -1.43, -1.84)),
    "no parabola": WeightTable((1.0,), (0.37,)),
    "no parabola in poses": WeightTable((1.0,), (-0.72,)),
    "contacts lost": WeightTable((1.0,), (-5.18,)),
    "held by keys": WeightTable((1.0,), (-6.44,)),
    "strides": WeightTable((1.0,), (-2.04,)),
    "exact": WeightTable((1.0,), (4.79,)),
    "drawn parabola": WeightTable((0.0, 0.25, 0.5, 0.75, 1.0), (0.26, 1.09, 1.86, 2.53, 3.21)),
    "measured parabola": WeightTable((0.0, 0.25, 0.5, 0.75, 1.0), (0.21, 0.08, 0.39, 0.84, 1.23)),
    "parabola's pace": WeightTable(
        (-2.32, -1.51, -1.0, -0.51, -0.15, 0.58, 1.58), (-2.7, -1.35, -0.23, -0.01, -0.43, 0.67, 1.71)
    ),
}


def nats(seen: Mapping[str, float]) -> float:
    """Add up what is seen: names of tables, and the values there.

    >>> nats({"stays under": 1.0}) < 0.0 < nats({"exact": 1.0})
    True
    """
    return sum([interpolated(seen[name], (table := WEIGHTS[name]).knots, table.nats) for name in seen])
