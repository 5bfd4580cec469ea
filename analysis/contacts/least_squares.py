"""Least squares of many small problems at once: a grid, then Levenberg–Marquardt, all rows in step.

scipy's solvers take one problem at a time and cost more to call than a contact costs to fit.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np

from ..arrays import Array

FIT_ROUNDS = 8
TINY = 1e-5
"""Step of the forward differences, in the unknowns' own units (frames, meters): half or twice of it finds the same,
since rounding (1e-16 over the step) and the bend of a curve over it are both far under a slope."""
MOST_MOVE = 0.6
"""Most that an unknown may move in one round, in its own unit."""

UNIT_MATRICES = tuple(np.eye(k) for k in range(6))
"""Unit matrices, by size: as large as any number of unknowns here."""

Model = Callable[[Array], tuple[Array, Array, Array, Array]]
"""From unknowns (b, g, k): values (b, g, m), a figure derived from them (b, g), what is believed before any
sample as a residual (b, g), and whether the unknowns are possible (b, g)."""


@dataclass(frozen=True, slots=True, eq=False)
class Fit:
    """Best unknowns (b, k), their standard errors (b, k), the derived figure and its error (b,), the covariance of
    the two (b, k), and the residual sum of squares (b,), infinite where no unknowns were possible, over `count` (b,)
    samples."""

    unknowns: Array
    errors: Array
    derived: Array
    derived_error: Array
    together: Array
    rss: Array
    count: Array


def fit(
    model: Model, grid: Array, values: Array, weights: Array, *, free: Array, noise: float
) -> Fit:
    """Fit each row from the best point of its grid.

    grid: (b, g, k) starting points; values, weights: (b, m); free: (b, k) which unknowns may move; noise:
    the least standard deviation of a value.
    """
    columns = free.any(axis=0).nonzero()[0]
    fixed, moves = ~free[:, columns], UNIT_MATRICES[free.shape[1]][columns]
    held = fixed if fixed.any() else None
    cost = _cost(model(grid), values, weights)
    trial = grid[np.arange(len(grid)), cost.argmin(axis=1)]
    probes = np.concatenate((np.zeros((1, free.shape[1])), TINY * moves))
    target = np.concatenate((values * weights, np.zeros((len(values), 1))), axis=1)
    weights, unit = weights[:, None, :], UNIT_MATRICES[len(columns)]
    floor, damping, lowest = fixed + 1e-14, np.full(len(grid), 1e-6), np.full(len(grid), np.inf)
    for turn in range(FIT_ROUNDS):
        result = model(trial[:, None, :] + probes)
        slopes, residual, cost, own = _linearized(result, target, weights, held)
        normal_there, gradient_there = slopes.swapaxes(1, 2) @ slopes, np.einsum("bmk,bm->bk", slopes, residual)
        better = cost <= lowest
        if turn == 0 or better.all():
            best, lowest, rss, derived = trial, cost, own, result[1]
            normal, gradient = normal_there, gradient_there
            damping = damping * 0.1 if turn else damping
        else:
            best = np.where(better[:, None], trial, best)
            rss = np.where(better, own, rss)
            derived = np.where(better[:, None], result[1], derived)
            normal = np.where(better[:, None, None], normal_there, normal)
            gradient = np.where(better[:, None], gradient_there, gradient)
            damping = np.where(better, damping * 0.1, np.maximum(damping * 30, 1e-3))
            lowest = np.where(better, cost, lowest)
        diagonal = np.einsum("bkk->bk", normal)
        damped = normal + (diagonal * damping[:, None] + floor)[..., None] * unit
        step = np.linalg.solve(damped, gradient[..., None])[..., 0]
        step = np.minimum(np.maximum(step, -MOST_MOVE), MOST_MOVE)
        if np.abs(step).max() < 1e-6:
            break
        trial = best + step @ moves
    found = _finished(best, derived, normal, rss, weights[:, 0], columns, fixed, noise)
    return found if np.isfinite(lowest).all() else replace(found, rss=np.where(np.isfinite(lowest), found.rss, np.inf))


def inverse_of(matrices: Array) -> Array:
    """Return the inverses of (…, k, k) matrices, a column at a time.

    numpy's own hands all columns to the linear algebra library at once, which starts a thread for them: for matrices as
    small as these that takes ten times as long, and keeps a second processor busy.
    """
    unit = UNIT_MATRICES[matrices.shape[-1]].reshape((1,) * (matrices.ndim - 2) + (-1, matrices.shape[-1], 1))
    return np.linalg.solve(matrices[..., None, :, :], unit)[..., 0].swapaxes(-1, -2)


def _cost(
    result: tuple[Array, Array, Array, Array], values: Array, weights: Array
) -> Array:
    heights, _, belief, possible = result
    residual = (heights - values[:, None, :]) * weights[:, None, :]
    return np.where(possible, np.einsum("bgm,bgm->bg", residual, residual) + belief**2, np.inf)


def _linearized(
    result: tuple[Array, Array, Array, Array],
    target: Array,
    weights: Array,
    fixed: Array | None,
) -> tuple[Array, Array, Array, Array]:
    """Return slopes (b, m + 1, k), residual (b, m + 1), cost and residual sum of squares (b,) at the first point.

    target: (b, m + 1) weighed values, and what is believed; weights: (b, 1, m); fixed: (b, k), None where none is.
    """
    heights, _, belief, possible = result
    stacked = np.concatenate((heights * weights, belief[..., None]), axis=2)
    slopes = (stacked[:, 1:] - stacked[:, :1]).swapaxes(1, 2) / TINY
    if fixed is not None:
        slopes = np.where(fixed[:, None, :], 0.0, slopes)
    residual = target - stacked[:, 0]
    cost = np.einsum("bm,bm->b", residual, residual)
    return slopes, residual, np.where(possible[:, 0], cost, np.inf), cost - belief[:, 0] ** 2


def _finished(
    best: Array,
    derived: Array,
    normal: Array,
    rss: Array,
    weights: Array,
    columns: Array,
    fixed: Array,
    noise: float,
) -> Fit:
    count = weights.sum(axis=1)
    variance = np.maximum(rss / np.maximum(count - (~fixed).sum(axis=1), 1), noise**2)
    ridge = np.einsum("bkk->bk", normal) * 1e-10 + fixed + 1e-14
    covariance = inverse_of(normal + ridge[..., None] * UNIT_MATRICES[len(columns)]) * variance[:, None, None]
    if fixed.any():
        covariance = np.where(fixed[:, :, None] | fixed[:, None, :], 0.0, covariance)
    errors, together = np.zeros_like(best), np.zeros_like(best)
    errors[:, columns] = np.sqrt(np.maximum(np.einsum("bkk->bk", covariance), 0.0))
    slope = (derived[:, 1:] - derived[:, :1]) / TINY
    slope[~np.isfinite(slope)] = 0.0
    shared = np.einsum("bkl,bl->bk", covariance, slope)
    together[:, columns] = shared
    derived_error = np.sqrt(np.maximum(np.einsum("bk,bk->b", slope, shared), 0.0))
    return Fit(best, errors, derived[:, 0], derived_error, together, rss, count)
