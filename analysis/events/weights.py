"""How many nats each thing that is seen speaks for a jump: tables, calibrated together.

`python -m tests.bench calibrate` fits them anew by a logistic regression on drawn, integrated and grounded motion
and prints this file's tables: so they may be added up although the witnesses are not quite independent. Between
knots they are interpolated, beyond them they stay.
"""

from bisect import bisect_right
from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Table:
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


TABLES: Mapping[str, Table] = {
    "belief": Table((1.0,), (-1.15,)),
    "posed": Table((0.0, 1.0, 2.0, 3.0), (3.43, 4.73, 5.85, 6.86)),
    "stand unseen": Table((1.0,), (-3.54,)),
    "stays under": Table((1.0,), (-5.35,)),
    "rise": Table((0.0, 0.5, 1.0, 1.5, 2.0, 3.0, 4.5), (-3.67, -1.08, 0.56, 1.43, 1.71, 1.24, -0.02)),
    "pace": Table(
        (-2.74, -2.0, -1.51, -1.0, -0.51, -0.15, 0.58, 1.58, 2.32),
        (-5.33, -4.22, -2.84, -1.1, 0.78, 2.38, 3.26, 3.56, 3.69),
    ),
    "dip": Table((-3.0, -1.5, -0.5, 0.5, 1.5, 2.5), (-3.61, -1.85, 0.01, 1.45, 1.95, 2.23)),
    "dip to rise": Table((-2.0, 0.0, 1.0, 2.0, 3.0), (2.73, 1.29, -0.09, -1.32, -2.44)),
    "bob is better": Table((0.0, 10.0, 30.0, 60.0), (-0.75, -2.05, -2.68, -2.94)),
    "no parabola": Table((1.0,), (0.29,)),
    "no parabola in poses": Table((1.0,), (0.19,)),
    "contacts lost": Table((1.0,), (-0.7,)),
    "held by keys": Table((1.0,), (-6.82,)),
    "strides": Table((1.0,), (-1.72,)),
    "exact": Table((1.0,), (4.76,)),
    "drawn parabola": Table((0.0, 0.25, 0.5, 0.75, 1.0), (-1.12, -0.02, 1.0, 2.04, 3.12)),
    "measured parabola": Table((0.0, 0.25, 0.5, 0.75, 1.0), (-1.03, -0.74, -0.26, 0.37, 1.06)),
    "parabola's pace": Table(
        (-2.32, -1.51, -1.0, -0.51, -0.15, 0.58, 1.58), (-3.94, -2.68, -1.24, 0.19, 1.14, 2.09, 2.81)
    ),
}


def nats(seen: Mapping[str, float]) -> float:
    """Add up what is seen: names of tables, and the values there.

    >>> nats({"stays under": 1.0}) < 0.0 < nats({"exact": 1.0})
    True
    """
    return sum(TABLES[name].at(value) for name, value in seen.items())
