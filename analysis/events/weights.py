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
        """Nats of a value."""
        return float(np.interp(value, self.knots, self.nats))


TABLES: Mapping[str, Table] = {
    "belief": Table((1.0,), (-0.79,)),
    "posed": Table((0.0, 1.0, 2.0, 3.0), (3.61, 6.14, 8.49, 10.78)),
    "stand unseen": Table((1.0,), (-1.28,)),
    "stays under": Table((1.0,), (0.0,)),
    "rise": Table((0.0, 0.5, 1.0, 1.5, 2.0, 3.0, 4.5), (-0.87, 0.15, 0.84, 1.1, 0.88, -0.01, -1.6)),
    "pace": Table(
        (-2.74, -2.0, -1.51, -1.0, -0.51, -0.15, 0.58, 1.58, 2.32),
        (-4.87, -4.3, -3.57, -1.99, 0.37, 2.53, 3.68, 4.18, 4.45),
    ),
    "dip": Table((-3.0, -1.5, -0.5, 0.5, 1.5, 2.5), (-3.69, -2.17, -0.41, 1.45, 2.56, 2.75)),
    "dip to rise": Table((-2.0, 0.0, 1.0, 2.0, 3.0), (2.91, 1.65, 0.39, -1.3, -3.16)),
    "bob is better": Table((0.0, 10.0, 30.0, 60.0), (-0.27, -1.65, -2.78, -3.82)),
    "no parabola": Table((1.0,), (-2.1,)),
    "contacts lost": Table((1.0,), (-2.08,)),
    "exact": Table((1.0,), (5.87,)),
    "drawn parabola": Table((0.0, 0.25, 0.5, 0.75, 1.0), (-1.05, -0.45, 0.26, 1.12, 2.11)),
    "measured parabola": Table((0.0, 0.25, 0.5, 0.75, 1.0), (-2.23, -1.28, -0.22, 0.92, 2.12)),
    "parabola's pace": Table(
        (-2.32, -1.51, -1.0, -0.51, -0.15, 0.58, 1.58),
        (-0.62, -1.59, -2.08, -1.51, 0.34, 2.45, 4.33),
    ),
}


def nats(seen: Mapping[str, float]) -> float:
    """Add up what is seen: names of tables, and the values there.

    >>> nats({"stays under": 1.0, "dip to rise": 0.0})
    1.65
    """
    return sum(TABLES[name].at(value) for name, value in seen.items())
