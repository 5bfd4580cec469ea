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
    "belief": WeightTable((1.0,), (-2.75,)),
    "posed": WeightTable((0.0, 1.0, 2.0, 3.0), (1.82, 2.03, 1.58, 1.16)),
    "no crouch": WeightTable((1.0,), (-2.38,)),
    "stand unseen": WeightTable((1.0,), (-4.47,)),
    "stays under": WeightTable((1.0,), (-2.64,)),
    "rise": WeightTable((0.0, 0.5, 1.0, 1.5, 2.0, 3.0, 4.5), (-3.37, -0.93, 0.61, 1.22, 1.47, 1.02, -0.12)),
    "pace": WeightTable(
        (-2.74, -2.0, -1.51, -1.0, -0.51, -0.15, 0.58, 1.58, 2.32),
        (-7.8, -7.12, -5.75, -2.48, 0.55, 3.25, 5.41, 6.54, 7.31),
    ),
    "dip": WeightTable((-3.0, -1.5, -0.5, 0.5, 1.5, 2.5), (-4.17, -1.83, 0.17, 1.11, 1.38, 3.25)),
    "reach": WeightTable(
        (-1.0, 0.0, 0.5, 1.0, 1.5, 2.0, 3.0, 4.0, 5.0), (-3.43, -1.9, -0.45, 0.52, 0.47, -0.48, 0.06, 1.76, 3.35)
    ),
    "dip to rise": WeightTable((-2.0, 0.0, 1.0, 2.0, 3.0), (3.32, 2.04, 0.07, -1.85, -3.67)),
    "keyed over stand": WeightTable((-0.2, 0.0, 0.15, 0.3, 0.5, 0.8), (-1.27, 1.65, 3.61, 3.17, 1.01, -1.5)),
    "fastest at": WeightTable((-0.2, 0.0, 0.15, 0.3, 0.4, 0.5), (2.93, 2.4, 1.5, 0.31, -0.93, -1.86)),
    "bob is better": WeightTable((0.0, 10.0, 30.0, 60.0), (-1.59, -1.6, -1.4, -1.81)),
    "no parabola": WeightTable((1.0,), (0.49,)),
    "no parabola in poses": WeightTable((1.0,), (-0.6,)),
    "contacts lost": WeightTable((1.0,), (-5.15,)),
    "held by keys": WeightTable((1.0,), (-6.62,)),
    "strides": WeightTable((1.0,), (-1.98,)),
    "exact": WeightTable((1.0,), (4.79,)),
    "drawn parabola": WeightTable((0.0, 0.25, 0.5, 0.75, 1.0), (0.21, 1.08, 1.87, 2.55, 3.24)),
    "measured parabola": WeightTable((0.0, 0.25, 0.5, 0.75, 1.0), (0.24, 0.06, 0.38, 0.88, 1.3)),
    "parabola's pace": WeightTable(
        (-2.32, -1.51, -1.0, -0.51, -0.15, 0.58, 1.58), (-2.88, -1.51, -0.33, 0.09, -0.2, 0.7, 1.48)
    ),
}


def nats(seen: Mapping[str, float]) -> float:
    """Add up what is seen: names of tables, and the values there.

    >>> nats({"stays under": 1.0}) < 0.0 < nats({"exact": 1.0})
    True
    """
    return sum([interpolated(seen[name], (table := WEIGHTS[name]).knots, table.nats) for name in seen])
