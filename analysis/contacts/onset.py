"""How likely a push begins at each of some instants: forces that set in at once, evenly or smoothly, by evidence.

What a track shows of the beginning of a push is only that the body has moved, so its start depends on how the force set
in; that is not known, and the samples tell it only in part. Each hypothesis is a family of forces with a normal prior:
the net force over a push of one unit of time and of distance is an onset, times a constant that wanders (a Wiener
process, straight between KNOTS). Before the start lies a rest of some length, and before that a dip with a force of its
own; or the force goes on through the bottom. Heights are linear in all of these, so that what the samples say of a
start is a normal density in closed form (the evidence of a linear model: Bishop 2006, Pattern Recognition and Machine
Learning, section 3.5). What the hypotheses disagree on is in the error by itself: they are averaged, not chosen from.
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from ..arrays import Array

Ramp = Callable[[Array], Array]


def _even(share: Array) -> Array:
    return share


def _smooth(share: Array) -> Array:
    return share**2 * (3.0 - 2.0 * share)


def _jerk(share: Array) -> Array:
    """Neither speed nor pull at its ends, as a reach of least jerk (Flash and Hogan 1985, J. Neurosci. 5:1688)."""
    return share**3 * (10.0 - 15.0 * share + 6.0 * share**2)


ONSETS: tuple[tuple[float, Ramp, float, float], ...] = (
    (0.0, _even, 0.285, 1.0),
    (0.0, _even, 0.015, 0.15),
    (0.1, _even, 0.06, 1.0),
    (0.25, _even, 0.06, 1.0),
    (0.5, _even, 0.06, 1.0),
    (1.0, _even, 0.06, 1.0),
    (0.2, _smooth, 0.06, 1.0),
    (0.4, _smooth, 0.06, 1.0),
    (0.7, _smooth, 0.06, 1.0),
    (0.4, _jerk, 0.11, 1.0),
    (0.8, _jerk, 0.17, 1.0),
)
"""Share of the push over which a force sets in, how, how likely that is beforehand, and how freely the force then
wanders: three in ten set in at once, some as constant as textbooks draw them; the others evenly, without a bend, or
without a jerk (ours: so all kinds of `tests/truth/onsets.py` are held about as often)."""
RESTS = (0.0, 0.25, 0.5, 0.75)
"""Shares of what is seen before the start that the body may have rested; all of it is another."""
FLOWS = 0.5
"""How likely beforehand the force goes on through the bottom, as in a countermovement (ours)."""
KNOTS = np.array([0.0, 0.2, 0.4, 0.6, 0.8, 0.9, 1.0])
"""Shares of a push between which its force is straight: closer at its end, where it may fade."""
DIP_KNOTS = np.array([0.0, 0.33, 0.66, 1.0])
"""The same of the dip, from the bottom back."""
MEAN_FORCE, MEAN_FORCE_SPREAD, FORCE_WANDERS = 2.0, 0.7, 1.5
"""Net force of a push in units of distance over time squared: that of a constant one, its spread, and how far it
wanders over the push (forces of `tests/truth/forces.py`, roughly)."""
FADES = 4.0
"""How many times as far it wanders at the end of the push, where forces fade."""
BRAKES, DIPS, BENDS = 1.0, 2.0, 2.0
"""The same of a dip before a push: a slower one usually, but anything up to a stamp."""
LEVELS = 0.3
"""Share of the push distance by which the bottom may lie off what is taken for it."""
GRID = np.linspace(0.0, 1.0, 201)


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
    """Return the transposed root of the covariance of a force at its knots, which wanders apart on either side."""
    size = sum(len(knots) for knots, _ in wandering)
    covariance, first = np.full((size, size), spread**2), 0
    for knots, wanders in wandering:
        part = slice(first, first := first + len(knots))
        covariance[part, part] += wanders**2 * np.minimum(knots[:, None], knots[None, :])
    return np.linalg.cholesky(covariance + 1e-8 * np.eye(size)).T


def _tables() -> tuple[Array, ...]:
    """Return heights of forces over GRID, and the speeds they end with, of the parts each wanders by and of its mean.

    Of pushes (n, o, k + 1) and (o, k + 1), of dips (n, j + 1), and of a push and a dip by one force, (n, k + j + 1),
    (k + j + 1,) and (n, k + j + 1).
    """
    at_once = np.ones_like(GRID)
    ramps = np.array([ramp(np.clip(GRID / over, 0.0, 1.0)) if over else at_once for over, ramp, *_ in ONSETS])
    ramps /= MEAN_FORCE * _twice(ramps)[1][:, -1:]  # so that the mean force goes the whole way
    free = np.array([wanders for *_, wanders in ONSETS])[:, None, None]
    clock = KNOTS + FADES * KNOTS**6
    root, both = (
        _root(MEAN_FORCE_SPREAD, (clock, FORCE_WANDERS)),
        _root(MEAN_FORCE_SPREAD, (clock, FORCE_WANDERS), (DIP_KNOTS, BENDS)),
    )
    hats, dips = _hats(KNOTS), _twice(_hats(DIP_KNOTS))[1]

    def of(force: Array) -> tuple[Array, Array]:
        speeds, heights = _twice(force)
        parts = np.concatenate([free * (root @ heights), MEAN_FORCE * heights.sum(axis=1, keepdims=True)], axis=1)
        ends = np.concatenate(
            [free * (root @ speeds[..., -1:]), MEAN_FORCE * speeds[..., -1:].sum(axis=1, keepdims=True)], 1
        )
        return np.moveaxis(parts, -1, 0), ends[..., 0]

    push, ends = of(ramps[:, None] * hats)
    slowed = np.concatenate([_root(DIPS, (DIP_KNOTS, BENDS)) @ dips, BRAKES * dips.sum(axis=0, keepdims=True)])
    speeds, heights = _twice(hats)
    k = len(KNOTS)
    risen = np.concatenate([both[:, :k] @ heights, MEAN_FORCE * heights.sum(axis=0, keepdims=True)])
    sunk = np.concatenate([both[:, k:] @ dips, MEAN_FORCE * dips.sum(axis=0, keepdims=True)])
    last = np.append(both[:, :k] @ speeds[:, -1], MEAN_FORCE * speeds[:, -1].sum())
    return push, ends, slowed.T.copy(), risen.T.copy(), last, sunk.T.copy()


PUSH_TABLE, PUSH_SPEED_TABLE, DIP_TABLE, FLOW_TABLE, FLOW_SPEED_TABLE, FLOW_DIP_TABLE = _tables()
BELIEVED = np.log(np.array([likely for _, _, likely, _ in ONSETS]) * (1.0 - FLOWS) / (len(RESTS) + 1.0))


@dataclass(frozen=True, slots=True, eq=False)
class Seen:
    """What is known of a push: samples from before its start to its end, and how it ends.

    frames, heights   (m,) frames and meters
    spread            meters, standard deviation of a sample, with what no hypothesis has of a force
    end               its frame, height (meters) and speed (meters a frame)
    loose             meters and meters a frame by which height and speed at the end are unsure
    distance          meters from the bottom to the end, about
    """

    frames: Array
    heights: Array
    spread: float
    end: tuple[float, float, float]
    loose: tuple[float, float]
    distance: float


def evidence(seen: Seen, starts: Array) -> tuple[Array, Array]:
    """Return the log of how likely the samples are with each start, (h, n) by hypothesis, and the height of the bottom
    that goes with it, meters.

    starts: (n,) frames, before the end.
    """
    one, (end, height, _) = seen.distance / seen.spread, seen.end
    off = (seen.heights - height) / seen.spread + one
    held = seen.frames <= starts[:, None]
    spans, back = end - starts, np.maximum(starts - seen.frames[0], 1e-3)
    after = np.where(held, 0.0, (seen.frames - starts[:, None]) / spans[:, None])
    before = np.where(held, starts[:, None] - seen.frames, 0.0)

    rises = np.moveaxis(_at(PUSH_TABLE, after), 2, 0) * one
    risen = np.concatenate(
        [_rows(rises, one * ~held, off * ~held), _end(seen, spans, PUSH_SPEED_TABLE, PUSH_TABLE[-1])], axis=-2
    )
    rests = np.array(RESTS)[:, None] * back
    into = np.clip((before - rests[..., None]) / (back - rests)[..., None], 0.0, 1.0)
    dips = _at(DIP_TABLE, into) * (one * ((back - rests) / spans) ** 2)[..., None, None]
    rest = [one**2 * held.sum(axis=1), one * (off * held).sum(axis=1), (off**2 * held).sum(axis=1), 0.0 * spans]
    slow = _left(_rows(dips, one * held, off * held))
    sunk = [np.concatenate([some, still[None]]) for some, still in zip(slow, rest, strict=True)]

    both = (
        _at(FLOW_TABLE, after) * one
        + _at(FLOW_DIP_TABLE, before / back[:, None]) * (one * (back / spans) ** 2)[:, None, None]
    )
    flow = np.concatenate([_rows(both, one, off), _end(seen, spans, FLOW_SPEED_TABLE, FLOW_TABLE[-1])], axis=-2)
    parts = [
        np.concatenate([(up[:, None] + down[None]).reshape(-1, len(spans)), through[None]])
        for up, down, through in zip(_left(risen), sunk, _left(flow), strict=True)
    ]
    bend, lean, least, log = parts[0] + LEVELS**-2, *parts[1:]
    believed = np.append(np.repeat(BELIEVED, len(rests) + 1), np.log(FLOWS))
    likely = believed[:, None] - 0.5 * (least - lean**2 / bend + np.log(bend) + log)
    return likely, height + seen.distance * (lean / bend - 1.0)


def _at(table: Array, share: Array) -> Array:
    """Return what a table over GRID has at these shares of it."""
    place = share * (len(GRID) - 1)
    low = np.minimum(place.astype(np.intp), len(GRID) - 2)
    part = (place - low).reshape(share.shape + (1,) * (table.ndim - 1))
    below: Array = table[low]
    return below + part * (table[low + 1] - below)


def _rows(values: Array, one: Array | float, off: Array) -> Array:
    """Return rows of a least-squares problem: parts, the height of the bottom, and what is to be explained."""
    shape = values.shape[:-1]
    last = np.stack([np.broadcast_to(one, shape), off - values[..., -1]], axis=-1)
    return np.concatenate([values[..., :-1], last], axis=-1)


def _end(seen: Seen, spans: Array, speeds: Array, heights: Array) -> Array:
    """Return the rows that say how the push ends, (…, n, 2, k + 2); speeds, heights: (…, k + 1) of its parts."""
    high, fast = seen.distance / seen.loose[0], seen.distance / seen.loose[1] / spans
    up, along = high * heights[..., None, :] + 0.0 * spans[:, None], fast[:, None] * speeds[..., None, :]
    wanted = np.stack([np.full(len(spans), high), np.full(len(spans), seen.end[2] / seen.loose[1])], axis=-1)
    return _rows(np.stack([up, along], axis=-2), np.array([high, 0.0]), wanted)


def _left(rows: Array) -> tuple[Array, Array, Array, Array]:
    """Return what squares rows leave by the height of the bottom, and the log of a determinant.

    rows: (…, m, k + 2). The parts are normal, of mean 0 and deviation 1; they are eliminated (Gauss), and leave a
    parabola over the height: its bend, its lean, and what is left at 0.
    """
    parts, shape = rows.shape[-1] - 2, rows.shape[:-2]
    squares = (rows.swapaxes(-1, -2) @ rows).reshape(-1, (parts + 2) ** 2)
    left = np.ascontiguousarray(squares.T).reshape(parts + 2, parts + 2, -1)
    log = np.zeros(left.shape[-1])
    for i in range(parts):
        pivot = left[i, i] + 1.0
        log += np.log(pivot)
        left[i + 1 :, i + 1 :] -= left[i + 1 :, i, None] * (left[i, i + 1 :] / pivot)
    ends = left[parts, parts], left[parts, parts + 1], left[parts + 1, parts + 1], log
    bend, lean, least, log = (one.reshape(shape) for one in ends)
    return bend, lean, least, log
