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
    "belief": Table((1.0,), (-2.7,)),
    "posed": Table((0.0, 1.0, 2.0, 3.0), (3.53, 5.32, 6.94, 8.51)),
    "stand unseen": Table((1.0,), (-1.18,)),
    "stays under": Table((1.0,), (-2.31,)),
    "rise": Table((0.0, 0.5, 1.0, 1.5, 2.0, 3.0, 4.5), (-1.55, -0.19, 0.67, 1.03, 1.0, 0.47, -0.66)),
    "pace": Table(
        (-2.74, -2.0, -1.51, -1.0, -0.51, -0.15, 0.58, 1.58, 2.32),
        (-4.99, -4.23, -3.21, -1.41, 0.88, 2.8, 3.53, 3.7, 3.69),
    ),
    "dip": Table((-3.0, -1.5, -0.5, 0.5, 1.5, 2.5), (-3.98, -2.16, -0.21, 1.66, 2.6, 2.86)),
    "dip to rise": Table((-2.0, 0.0, 1.0, 2.0, 3.0), (2.6, 1.49, 0.42, -1.08, -2.65)),
    "bob is better": Table((0.0, 10.0, 30.0, 60.0), (0.25, -2.27, -3.84, -5.12)),
    "no parabola": Table((1.0,), (-0.42,)),
    "no parabola in poses": Table((1.0,), (-0.99,)),
    "contacts lost": Table((1.0,), (-1.54,)),
    "held by keys": Table((1.0,), (-4.31,)),
    "strides": Table((1.0,), (-2.0,)),
    "exact": Table((1.0,), (6.98,)),
    "drawn parabola": Table((0.0, 0.25, 0.5, 0.75, 1.0), (-1.85, -0.73, 0.34, 1.38, 2.44)),
    "keyed parabola": Table((0.0, 0.25, 0.5, 0.75, 1.0), (-3.05, -1.96, -0.79, 0.3, 1.34)),
    "measured parabola": Table((0.0, 0.25, 0.5, 0.75, 1.0), (-2.27, -0.92, 0.31, 1.48, 2.66)),
    "parabola's pace": Table(
        (-2.32, -1.51, -1.0, -0.51, -0.15, 0.58, 1.58), (-4.65, -3.5, -2.12, -0.35, 1.71, 3.23, 4.37)
    ),
}


def nats(seen: Mapping[str, float]) -> float:
    """Add up what is seen: names of tables, and the values there.

    >>> nats({"stays under": 1.0}) < 0.0 < nats({"exact": 1.0})
    True
    """
    return sum(TABLES[name].at(value) for name, value in seen.items())
