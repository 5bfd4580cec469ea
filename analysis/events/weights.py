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
    "belief": Table((1.0,), (-0.9,)),
    "posed": Table((0.0, 1.0, 2.0, 3.0), (3.42, 4.68, 5.76, 6.74)),
    "stand unseen": Table((1.0,), (-3.56,)),
    "stays under": Table((1.0,), (-5.28,)),
    "rise": Table((0.0, 0.5, 1.0, 1.5, 2.0, 3.0, 4.5), (-3.69, -1.11, 0.56, 1.44, 1.72, 1.25, -0.03)),
    "pace": Table(
        (-2.74, -2.0, -1.51, -1.0, -0.51, -0.15, 0.58, 1.58, 2.32),
        (-5.33, -4.2, -2.81, -1.05, 0.8, 2.35, 3.22, 3.52, 3.65),
    ),
    "dip": Table((-3.0, -1.5, -0.5, 0.5, 1.5, 2.5), (-3.59, -1.84, 0.01, 1.42, 1.92, 2.22)),
    "dip to rise": Table((-2.0, 0.0, 1.0, 2.0, 3.0), (2.76, 1.32, -0.08, -1.35, -2.51)),
    "bob is better": Table((0.0, 10.0, 30.0, 60.0), (-0.78, -2.06, -2.68, -2.93)),
    "no parabola": Table((1.0,), (0.0,)),
    "no parabola in poses": Table((1.0,), (-0.06,)),
    "contacts lost": Table((1.0,), (-0.68,)),
    "held by keys": Table((1.0,), (-6.79,)),
    "strides": Table((1.0,), (-1.7,)),
    "exact": Table((1.0,), (4.56,)),
    "drawn parabola": Table((0.0, 0.25, 0.5, 0.75, 1.0), (-1.48, -0.29, 0.81, 1.9, 3.04)),
    "keyed parabola": Table((0.0, 0.25, 0.5, 0.75, 1.0), (-1.34, -0.96, -0.56, -0.25, 0.02)),
    "measured parabola": Table((0.0, 0.25, 0.5, 0.75, 1.0), (-1.35, -0.99, -0.45, 0.19, 0.87)),
    "parabola's pace": Table(
        (-2.32, -1.51, -1.0, -0.51, -0.15, 0.58, 1.58), (-3.87, -2.61, -1.17, 0.27, 1.24, 2.25, 3.05)
    ),
}


def nats(seen: Mapping[str, float]) -> float:
    """Add up what is seen: names of tables, and the values there.

    >>> nats({"stays under": 1.0}) < 0.0 < nats({"exact": 1.0})
    True
    """
    return sum(TABLES[name].at(value) for name, value in seen.items())
