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
    "belief": WeightTable((1.0,), (-4.21,)),
    "posed": WeightTable((0.0, 1.0, 2.0, 3.0), (1.98, 2.21, 1.77, 1.37)),
    "no crouch": WeightTable((1.0,), (-2.22,)),
    "stand unseen": WeightTable((1.0,), (-1.06,)),
    "stays under": WeightTable((1.0,), (-1.03,)),
    "rise": WeightTable((0.0, 0.5, 1.0, 1.5, 2.0, 3.0, 4.5), (-3.48, -1.33, 0.03, 0.58, 0.85, 0.57, -0.33)),
    "pace": WeightTable(
        (-2.74, -2.0, -1.51, -1.0, -0.51, -0.15, 0.58, 1.58, 2.32),
        (-7.99, -7.38, -6.12, -2.89, 0.09, 2.81, 5.03, 6.24, 7.09),
    ),
    "dip": WeightTable((-3.0, -1.5, -0.5, 0.5, 1.5, 2.5), (-4.36, -2.07, -0.23, 0.53, 0.66, 2.36)),
    "reach": WeightTable(
        (-1.0, 0.0, 0.5, 1.0, 1.5, 2.0, 3.0, 4.0, 5.0), (-5.36, -3.01, -0.74, 0.73, 0.77, -0.27, 0.22, 1.68, 2.88)
    ),
    "dip to rise": WeightTable((-2.0, 0.0, 1.0, 2.0, 3.0), (3.32, 1.81, -0.5, -2.81, -4.93)),
    "keyed over stand": WeightTable((-0.2, 0.0, 0.15, 0.3, 0.5, 0.8), (-1.1, 1.74, 3.6, 3.24, 1.25, -1.09)),
    "fastest at": WeightTable((-0.2, 0.0, 0.15, 0.3, 0.4, 0.5), (6.32, 5.65, 4.55, 3.14, 1.8, 0.98)),
    "bob is better": WeightTable((0.0, 10.0, 30.0, 60.0), (-1.37, -1.59, -1.51, -1.95)),
    "no parabola": WeightTable((1.0,), (0.23,)),
    "no parabola in poses": WeightTable((1.0,), (-0.7,)),
    "contacts lost": WeightTable((1.0,), (-5.26,)),
    "held by keys": WeightTable((1.0,), (-10.19,)),
    "strides": WeightTable((1.0,), (-2.13,)),
    "exact": WeightTable((1.0,), (4.94,)),
    "drawn parabola": WeightTable((0.0, 0.25, 0.5, 0.75, 1.0), (0.39, 1.21, 1.94, 2.57, 3.19)),
    "measured parabola": WeightTable((0.0, 0.25, 0.5, 0.75, 1.0), (0.35, 0.16, 0.39, 0.85, 1.28)),
    "parabola's pace": WeightTable(
        (-2.32, -1.51, -1.0, -0.51, -0.15, 0.58, 1.58), (-2.94, -1.61, -0.46, -0.13, -0.47, 0.49, 1.38)
    ),
}


def nats(seen: Mapping[str, float]) -> float:
    """Add up what is seen: names of tables, and the values there.

    >>> nats({"stays under": 1.0}) < 0.0 < nats({"exact": 1.0})
    True
    """
    return sum([interpolated(seen[name], (table := WEIGHTS[name]).knots, table.nats) for name in seen])
