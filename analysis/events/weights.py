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
    "belief": WeightTable((1.0,), (-2.97,)),
    "posed": WeightTable((0.0, 1.0, 2.0, 3.0), (2.28, 2.38, 1.86, 1.38)),
    "no crouch": WeightTable((1.0,), (-2.11,)),
    "stand unseen": WeightTable((1.0,), (-4.46,)),
    "stays under": WeightTable((1.0,), (-2.34,)),
    "rise": WeightTable((0.0, 0.5, 1.0, 1.5, 2.0, 3.0, 4.5), (-3.01, -0.87, 0.41, 0.84, 1.12, 0.88, 0.04)),
    "pace": WeightTable(
        (-2.74, -2.0, -1.51, -1.0, -0.51, -0.15, 0.58, 1.58, 2.32),
        (-7.9, -7.35, -6.14, -2.81, 0.19, 3.1, 5.56, 6.9, 7.85),
    ),
    "dip": WeightTable((-3.0, -1.5, -0.5, 0.5, 1.5, 2.5), (-4.33, -1.85, 0.17, 1.05, 1.24, 3.12)),
    "reach": WeightTable(
        (-1.0, 0.0, 0.5, 1.0, 1.5, 2.0, 3.0, 4.0, 5.0), (-4.96, -2.66, -0.44, 0.95, 0.91, -0.11, 0.59, 1.99, 3.13)
    ),
    "dip to rise": WeightTable((-2.0, 0.0, 1.0, 2.0, 3.0), (3.74, 2.33, 0.04, -2.28, -4.43)),
    "keyed over stand": WeightTable((-0.2, 0.0, 0.15, 0.3, 0.5, 0.8), (-1.04, 1.76, 3.58, 3.23, 1.23, -1.15)),
    "fastest at": WeightTable((-0.2, 0.0, 0.15, 0.3, 0.4, 0.5), (2.47, 2.33, 1.53, 0.28, -0.98, -1.78)),
    "bob is better": WeightTable((0.0, 10.0, 30.0, 60.0), (-1.4, -1.58, -1.46, -1.87)),
    "no parabola": WeightTable((1.0,), (0.26,)),
    "no parabola in poses": WeightTable((1.0,), (-0.62,)),
    "contacts lost": WeightTable((1.0,), (-5.18,)),
    "held by keys": WeightTable((1.0,), (-10.04,)),
    "strides": WeightTable((1.0,), (-2.13,)),
    "exact": WeightTable((1.0,), (4.97,)),
    "drawn parabola": WeightTable((0.0, 0.25, 0.5, 0.75, 1.0), (0.47, 1.27, 1.97, 2.6, 3.25)),
    "measured parabola": WeightTable((0.0, 0.25, 0.5, 0.75, 1.0), (0.42, 0.14, 0.22, 0.66, 1.22)),
    "parabola's pace": WeightTable(
        (-2.32, -1.51, -1.0, -0.51, -0.15, 0.58, 1.58), (-2.71, -1.41, -0.32, -0.06, -0.39, 0.65, 1.62)
    ),
}


def nats(seen: Mapping[str, float]) -> float:
    """Add up what is seen: names of tables, and the values there.

    >>> nats({"stays under": 1.0}) < 0.0 < nats({"exact": 1.0})
    True
    """
    return sum([interpolated(seen[name], (table := WEIGHTS[name]).knots, table.nats) for name in seen])
