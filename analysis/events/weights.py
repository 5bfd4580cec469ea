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
    "belief": Table((1.0,), (-2.49,)),
    "posed": Table((0.0, 1.0, 2.0, 3.0), (4.22, 5.9, 7.39, 8.83)),
    "stand unseen": Table((1.0,), (-0.86,)),
    "stays under": Table((1.0,), (-2.36,)),
    "rise": Table((0.0, 0.5, 1.0, 1.5, 2.0, 3.0, 4.5), (-1.43, -0.09, 0.8, 1.16, 1.01, 0.29, -1.0)),
    "pace": Table(
        (-2.74, -2.0, -1.51, -1.0, -0.51, -0.15, 0.58, 1.58, 2.32),
        (-5.67, -4.56, -3.25, -1.31, 1.03, 3.02, 3.74, 3.88, 3.83),
    ),
    "dip": Table((-3.0, -1.5, -0.5, 0.5, 1.5, 2.5), (-3.88, -2.16, -0.28, 1.59, 2.58, 2.87)),
    "dip to rise": Table((-2.0, 0.0, 1.0, 2.0, 3.0), (2.8, 1.61, 0.45, -1.2, -2.93)),
    "bob is better": Table((0.0, 10.0, 30.0, 60.0), (0.07, -1.68, -2.67, -3.46)),
    "no parabola": Table((1.0,), (-0.81,)),
    "no parabola in poses": Table((1.0,), (-1.29,)),
    "contacts lost": Table((1.0,), (-1.26,)),
    "held by keys": Table((1.0,), (-4.36,)),
    "strides": Table((1.0,), (-1.96,)),
    "exact": Table((1.0,), (6.56,)),
    "drawn parabola": Table((0.0, 0.25, 0.5, 0.75, 1.0), (-2.28, -1.04, 0.13, 1.28, 2.44)),
    "measured parabola": Table((0.0, 0.25, 0.5, 0.75, 1.0), (-2.67, -1.5, -0.24, 1.06, 2.41)),
    "parabola's pace": Table(
        (-2.32, -1.51, -1.0, -0.51, -0.15, 0.58, 1.58),
        (-4.15, -3.15, -1.96, -0.35, 1.64, 3.19, 4.38),
    ),
}


def nats(seen: Mapping[str, float]) -> float:
    """Add up what is seen: names of tables, and the values there.

    >>> nats({"stays under": 1.0, "dip to rise": 0.0})
    1.49
    """
    return sum(TABLES[name].at(value) for name, value in seen.items())
