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
    "belief": Table((1.0,), (0.01,)),
    "posed": Table((0.0, 1.0, 2.0, 3.0), (2.48, 4.03, 5.37, 6.55)),
    "no crouch": Table((1.0,), (-4.02,)),
    "stand unseen": Table((1.0,), (-5.09,)),
    "stays under": Table((1.0,), (-6.23,)),
    "rise": Table((0.0, 0.5, 1.0, 1.5, 2.0, 3.0, 4.5), (-3.17, -0.85, 0.56, 1.1, 1.11, 0.52, -0.78)),
    "pace": Table(
        (-2.74, -2.0, -1.51, -1.0, -0.51, -0.15, 0.58, 1.58, 2.32),
        (-6.67, -5.09, -3.23, -1.41, 0.2, 2.1, 3.53, 4.28, 4.78),
    ),
    "dip": Table((-3.0, -1.5, -0.5, 0.5, 1.5, 2.5), (-4.89, -2.68, -0.35, 1.43, 2.17, 2.8)),
    "reach": Table(
        (-1.0, 0.0, 0.5, 1.0, 1.5, 2.0, 3.0, 4.0, 5.0), (-3.24, -2.29, -1.28, -0.28, 0.44, 0.56, 0.83, 1.61, 2.15)
    ),
    "dip to rise": Table((-2.0, 0.0, 1.0, 2.0, 3.0), (2.85, 1.32, -0.39, -1.94, -3.35)),
    "bob is better": Table((0.0, 10.0, 30.0, 60.0), (-1.23, -1.58, -1.58, -1.77)),
    "no parabola": Table((1.0,), (0.32,)),
    "no parabola in poses": Table((1.0,), (-0.35,)),
    "contacts lost": Table((1.0,), (-1.02,)),
    "held by keys": Table((1.0,), (-7.23,)),
    "strides": Table((1.0,), (-1.52,)),
    "exact": Table((1.0,), (5.24,)),
    "drawn parabola": Table((0.0, 0.25, 0.5, 0.75, 1.0), (-1.02, -0.04, 0.92, 1.92, 2.99)),
    "measured parabola": Table((0.0, 0.25, 0.5, 0.75, 1.0), (-0.75, -0.8, -0.53, 0.02, 0.62)),
    "parabola's pace": Table(
        (-2.32, -1.51, -1.0, -0.51, -0.15, 0.58, 1.58), (-2.32, -1.48, -0.66, -0.13, 0.53, 1.61, 2.49)
    ),
}


def nats(seen: Mapping[str, float]) -> float:
    """Add up what is seen: names of tables, and the values there.

    >>> nats({"stays under": 1.0}) < 0.0 < nats({"exact": 1.0})
    True
    """
    return sum(TABLES[name].at(value) for name, value in seen.items())
