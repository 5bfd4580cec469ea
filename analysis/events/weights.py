"""How many nats each thing that is seen speaks for a jump: tables, calibrated together.

`python -m tests.bench calibrate` fits them anew by a logistic regression on drawn, integrated and grounded motion
and prints this file's tables: so they may be added up although the witnesses are not quite independent. Between
knots they are interpolated, beyond them they stay.
"""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np


@dataclass(frozen=True, slots=True)
class Table:
    """Nats (k,) at these rising knots (k,) of what is seen; of a bare fact, one knot."""

    knots: tuple[float, ...]
    nats: tuple[float, ...]

    def at(self, value: float) -> float:
        """Return nats of a value."""
        return float(np.interp(value, self.knots, self.nats))


TABLES: Mapping[str, Table] = {
    "belief": Table((1.0,), (-0.9,)),
    "posed": Table((0.0, 1.0, 2.0, 3.0), (3.16, 5.87, 8.45, 10.91)),
    "stand unseen": Table((1.0,), (-1.13,)),
    "stays under": Table((1.0,), (0.0,)),
    "rise": Table((0.0, 0.5, 1.0, 1.5, 2.0, 3.0, 4.5), (-1.06, -0.05, 0.64, 0.95, 0.8, 0.09, -1.15)),
    "pace": Table(
        (-2.74, -2.0, -1.51, -1.0, -0.51, -0.15, 0.58, 1.58, 2.32),
        (-5.08, -4.43, -3.68, -2.07, 0.36, 2.64, 3.77, 4.23, 4.48),
    ),
    "dip": Table((-3.0, -1.5, -0.5, 0.5, 1.5, 2.5), (-3.96, -2.19, -0.31, 1.57, 2.51, 2.6)),
    "dip to rise": Table((-2.0, 0.0, 1.0, 2.0, 3.0), (2.56, 1.49, 0.3, -1.28, -2.84)),
    "bob is better": Table((0.0, 10.0, 30.0, 60.0), (-0.08, -1.51, -2.42, -3.21)),
    "no parabola": Table((1.0,), (-1.89,)),
    "no parabola in poses": Table((1.0,), (-1.0,)),
    "contacts lost": Table((1.0,), (-2.07,)),
    "exact": Table((1.0,), (5.93,)),
    "drawn parabola": Table((0.0, 0.25, 0.5, 0.75, 1.0), (-1.34, -0.44, 0.44, 1.23, 1.96)),
    "measured parabola": Table((0.0, 0.25, 0.5, 0.75, 1.0), (-2.67, -1.46, -0.21, 1.08, 2.41)),
    "parabola's pace": Table(
        (-2.32, -1.51, -1.0, -0.51, -0.15, 0.58, 1.58),
        (-0.59, -1.34, -1.74, -1.28, 0.29, 2.04, 3.61),
    ),
}


def nats(seen: Mapping[str, float]) -> float:
    """Add up what is seen: names of tables, and the values there.

    >>> nats({"stays under": 1.0, "dip to rise": 0.0})
    1.49
    """
    return sum(TABLES[name].at(value) for name, value in seen.items())
