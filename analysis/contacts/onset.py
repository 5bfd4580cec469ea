"""How likely it is that a push began at each of some frames, averaged over the ways in which its force may have set in.

A track shows when the body has moved, not when its force began, so the start that we infer depends on how the force set
in. We do not know how it did, and the samples tell it only in part. So we state hypotheses. Each is a family of forces
with a normal prior, over a push whose time and distance are both one unit: the net force is an onset (one of ONSETS)
times a level that wanders (a Wiener process, straight between KNOTS). Before the start the body rests for some time,
and before the rest it dips under a force of its own; or, as one more hypothesis, one force acts through the bottom.
The heights are linear in all these unknowns, so the likelihood of the samples, given a start, is a normal density in
closed form (the evidence of a linear model: Bishop 2006, Pattern Recognition and Machine Learning, section 3.5). We
average the hypotheses and choose none, so that the error of the start includes what they disagree on.
"""

from collections.abc import Callable
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from ..arrays import Array

Ramp = Callable[[Array], Array]


def _even(share: Array) -> Array:
    return share


def _smooth(share: Array) -> Array:
    return share**2 * (3.0 - 2.0 * share)


def _jerk(share: Array) -> Array:
    """Rise without slope or bend at the ends: a reach of least jerk (Flash and Hogan 1985, J. Neurosci. 5:1688)."""
    return share**3 * (10.0 - 15.0 * share + 6.0 * share**2)


def _late(share: Array) -> Array:
    """Rise so late that the body has moved by a tenth of the push when three quarters of it are over."""
    return share**5


class Onset(NamedTuple):
    """A way in which a force sets in: the share of the push that this takes, 0 at once, and the shape of the rise; its
    probability beforehand; and the factor on FORCE_WANDERS, by which the force wanders afterwards.
    """

    over: float
    ramp: Ramp
    likely: float
    wanders: float = 1.0


ONSETS = (
    Onset(0.0, _even, 0.26),
    Onset(0.0, _even, 0.015, wanders=0.15),
    Onset(0.1, _even, 0.055),
    Onset(0.25, _even, 0.055),
    Onset(0.5, _even, 0.055),
    Onset(1.0, _even, 0.055),
    Onset(0.2, _smooth, 0.05),
    Onset(0.4, _smooth, 0.05),
    Onset(0.7, _smooth, 0.05),
    Onset(0.4, _jerk, 0.10),
    Onset(0.8, _jerk, 0.165),
    Onset(0.7, _late, 0.05),
    Onset(1.0, _late, 0.04),
)
"""Ways in which a force sets in. Three in ten set in at once, a few of these nearly constant, as textbooks draw them
(our choice: with it, each kind of start in `tests/truth/onsets.py` lies within its error about equally often)."""
RESTS = (0.0, 0.25, 0.5, 0.75)
"""For how long the body may have rested before the start, as shares of the time that is seen before it. A rest over all
of that time is one more hypothesis."""
FLOWS = 0.5
"""Prior probability that one force acts through the bottom, as in a countermovement (our choice)."""
KNOTS = np.array([0.0, 0.2, 0.4, 0.6, 0.8, 0.9, 1.0])
"""Shares of the push at which the force may bend, from its start to its end: closer at the end, where it may fade."""
DIP_KNOTS = np.array([0.0, 0.33, 0.66, 1.0])
"""Shares of the dip at which its force may bend: at even steps, from the bottom back to its beginning."""
MEAN_FORCE, MEAN_FORCE_SPREAD, FORCE_WANDERS = 2.0, 0.7, 1.5
"""Net force of a push, in push distances over push time squared: its mean (that of a constant force), the standard
deviation of its level, and that of its change over the push (about as in the forces of `tests/truth/forces.py`)."""
FADES = 4.0
"""How many more units of time the force wanders for, nearly all at the end of the push: forces fade there (see `clock`
in `_tables`)."""
BRAKES, DIPS, BENDS = 1.0, 2.0, 2.0
"""Net force of a dip before a push, in the same unit: its mean, the standard deviation of its level, and that of its
change. It is usually weaker than that of a push, but may be as strong as a stamp. Half the mean moves a start by a
sixth of its error at most."""
GRID = np.linspace(0.0, 1.0, 201)
"""Shares of a push, or of a dip, at which the tables hold forces, speeds and heights; half or twice as many move no
start by a fiftieth of its error."""


def _twice(force: Array) -> tuple[Array, Array]:
    """Return speed and height of (…, n) forces over GRID, from rest."""
    sums = [force]
    for _ in range(2):
        last = sums[-1]
        added = np.cumsum(0.5 * GRID[1] * (last[..., 1:] + last[..., :-1]), axis=-1)
        sums.append(np.concatenate([np.zeros((*force.shape[:-1], 1)), added], axis=-1))
    return sums[1], sums[2]


def _hats(knots: Array) -> Array:
    """Return a force of one at each knot and none at the others, (k, n)."""
    return np.array([np.interp(GRID, knots, one) for one in np.eye(len(knots))])


def _root(spread: float, *wandering: tuple[Array, float]) -> Array:
    """Return the transposed Cholesky root of the covariance of a force at its knots.

    spread: standard deviation of the level, which all knots share; wandering: of each side of the bottom, its knots and
    how far the force wanders over them, independent of the other side.
    """
    size = sum(len(knots) for knots, _ in wandering)
    covariance, first = np.full((size, size), spread**2), 0
    for knots, wanders in wandering:
        part = slice(first, first := first + len(knots))
        covariance[part, part] += wanders**2 * np.minimum(knots[:, None], knots[None, :])
    return np.linalg.cholesky(covariance + 1e-8 * np.eye(size)).T


def _tables() -> tuple[Array, ...]:
    """Return the heights over GRID, and the speeds at the end, that each part of a force gives; the last is its mean.

    Of pushes: heights (n, o, k + 1) and end speeds (o, k + 1), for o onsets. Of dips: heights (n, j + 1). Of one force
    through the bottom: heights of its push (n, k + j + 1), end speeds (k + j + 1,), heights of its dip (n, k + j + 1).
    """
    at_once = np.ones_like(GRID)
    ramps = np.array([one.ramp(np.clip(GRID / one.over, 0.0, 1.0)) if one.over else at_once for one in ONSETS])
    ramps /= MEAN_FORCE * _twice(ramps)[1][:, -1:]  # so that the mean force goes the whole way
    free = np.array([one.wanders for one in ONSETS])[:, None, None]
    clock = KNOTS + FADES * KNOTS**6
    root, both = (
        _root(MEAN_FORCE_SPREAD, (clock, FORCE_WANDERS)),
        _root(MEAN_FORCE_SPREAD, (clock, FORCE_WANDERS), (DIP_KNOTS, BENDS)),
    )
    hats, dips = _hats(KNOTS), _twice(_hats(DIP_KNOTS))[1]

    def of(ways: Array) -> Array:
        return np.concatenate([free * (root @ ways), MEAN_FORCE * ways.sum(axis=1, keepdims=True)], axis=1)

    fast, high = _twice(ramps[:, None] * hats)
    push, ends = np.moveaxis(of(high), -1, 0), of(fast)[..., -1]
    slowed = np.concatenate([_root(DIPS, (DIP_KNOTS, BENDS)) @ dips, BRAKES * dips.sum(axis=0, keepdims=True)])
    speeds, heights = _twice(hats)
    k = len(KNOTS)
    risen = np.concatenate([both[:, :k] @ heights, MEAN_FORCE * heights.sum(axis=0, keepdims=True)])
    sunk = np.concatenate([both[:, k:] @ dips, MEAN_FORCE * dips.sum(axis=0, keepdims=True)])
    last = np.append(both[:, :k] @ speeds[:, -1], MEAN_FORCE * speeds[:, -1].sum())
    return push, ends, slowed.T.copy(), risen.T.copy(), last, sunk.T.copy()


PUSH_TABLE, PUSH_SPEED_TABLE, DIP_TABLE, FLOW_TABLE, FLOW_SPEED_TABLE, FLOW_DIP_TABLE = _tables()
BELIEVED = np.log(np.array([one.likely for one in ONSETS]) * (1.0 - FLOWS) / (len(RESTS) + 1.0))


@dataclass(frozen=True, slots=True, eq=False)
class Seen:
    """What is known of a push: the samples from before its start to its end, and how it ends.

    frames, heights   (m,) frames and meters
    spread            (m,) meters, standard deviation of a sample about the best hypothesis: noise and misfit together
    end               frame, height (meters) and speed (meters per frame) of the push at its end
    loose             standard errors of that height (meters) and of that speed (meters per frame)
    distance          meters from the bottom to the end, about
    """

    frames: Array
    heights: Array
    spread: Array
    end: tuple[float, float, float]
    loose: tuple[float, float]
    distance: float


def evidence(seen: Seen, starts: Array) -> tuple[Array, Array]:
    """Return the log likelihood of the samples given each hypothesis and start, (h, n), and the most likely height of
    the bottom then, (h, n) meters.

    starts: (n,) frames, before the end.
    """
    one, (end, height, _) = seen.distance / seen.spread, seen.end
    off = (seen.heights - height) / seen.spread + one
    held = seen.frames <= starts[:, None]
    spans, back = end - starts, np.maximum(starts - seen.frames[0], 1e-3)
    after = np.where(held, 0.0, (seen.frames - starts[:, None]) / spans[:, None])
    before = np.where(held, starts[:, None] - seen.frames, 0.0)

    thick = one[:, None]
    rises = np.moveaxis(_at(PUSH_TABLE, after), 2, 0) * thick
    risen = np.concatenate(
        [_rows(rises, one * ~held, off * ~held), _end(seen, spans, PUSH_SPEED_TABLE, PUSH_TABLE[-1])], axis=-2
    )
    rests = np.array(RESTS)[:, None] * back
    into = np.clip((before - rests[..., None]) / (back - rests)[..., None], 0.0, 1.0)
    dips = _at(DIP_TABLE, into) * (((back - rests) / spans) ** 2)[..., None, None] * thick
    rest = [(one**2 * held).sum(axis=1), (one * off * held).sum(axis=1), (off**2 * held).sum(axis=1), 0.0 * spans]
    slow = _left(_rows(dips, one * held, off * held))
    sunk = [np.concatenate([some, still[None]]) for some, still in zip(slow, rest, strict=True)]

    sinks = _at(FLOW_DIP_TABLE, before / back[:, None]) * ((back / spans) ** 2)[:, None, None]
    both = (_at(FLOW_TABLE, after) + sinks) * thick
    flow = np.concatenate([_rows(both, one, off), _end(seen, spans, FLOW_SPEED_TABLE, FLOW_TABLE[-1])], axis=-2)
    parts = [
        np.concatenate([(up[:, None] + down[None]).reshape(-1, len(spans)), through[None]])
        for up, down, through in zip(_left(risen), sunk, _left(flow), strict=True)
    ]
    bend, lean, least, log = parts  # the height of the bottom may be any: the end of the push holds it
    believed = np.append(np.repeat(BELIEVED, len(rests) + 1), np.log(FLOWS))
    likely = believed[:, None] - 0.5 * (least - lean**2 / bend + np.log(bend) + log)
    return likely, height + seen.distance * (lean / bend - 1.0)


def _at(table: Array, share: Array) -> Array:
    """Interpolate a table over GRID at these shares of it."""
    place = share * (len(GRID) - 1)
    low = np.minimum(place.astype(np.intp), len(GRID) - 2)
    part = (place - low).reshape(share.shape + (1,) * (table.ndim - 1))
    below: Array = table[low]
    return below + part * (table[low + 1] - below)


def _rows(values: Array, one: Array | float, off: Array) -> Array:
    """Return the rows of a least-squares problem. Columns: the parts, the height of the bottom, the observation."""
    shape = values.shape[:-1]
    last = np.stack([np.broadcast_to(one, shape), off - values[..., -1]], axis=-1)
    return np.concatenate([values[..., :-1], last], axis=-1)


def _end(seen: Seen, spans: Array, speeds: Array, heights: Array) -> Array:
    """Return the rows of height and speed at the end, (…, n, 2, k + 2); speeds, heights: (…, k + 1) of the parts."""
    high, fast = seen.distance / seen.loose[0], seen.distance / seen.loose[1] / spans
    up, along = high * heights[..., None, :] + 0.0 * spans[:, None], fast[:, None] * speeds[..., None, :]
    wanted = np.stack([np.full(len(spans), high), np.full(len(spans), seen.end[2] / seen.loose[1])], axis=-1)
    return _rows(np.stack([up, along], axis=-2), np.array([high, 0.0]), wanted)


def _left(rows: Array) -> tuple[Array, Array, Array, Array]:
    """Return what the sum of squares is over the height of the bottom, with the parts at their best for each height: a
    parabola (its bend, its lean, its value at 0), and the log of the determinant of the parts (from Cholesky's root).

    rows: (…, m, k + 2), see `_rows`. The parts have a normal prior of mean 0 and deviation 1.
    """
    parts = rows.shape[-1] - 2
    # One on the diagonal is the prior of the parts; under the two others it only keeps the root real, and goes again.
    root = np.linalg.cholesky(rows.swapaxes(-1, -2) @ rows + np.eye(parts + 2))
    bend, lean, least = root[..., parts, parts], root[..., parts + 1, parts], root[..., parts + 1, parts + 1]
    log = 2.0 * np.log(np.diagonal(root, axis1=-2, axis2=-1)[..., :parts]).sum(axis=-1)
    return bend**2 - 1.0, bend * lean, lean**2 + least**2 - 1.0, log
