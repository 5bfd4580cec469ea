"""Where a parabola meets the ground: the sub-frame instant at which another force joins in.

On the air's side of the contact the point follows the parabola; on the ground's side it leaves it by
b₁τ + b₂τ² + b₃τ³, τ the time from the contact: b₂ alone is a constant push, b₃ lets the force change, b₁
is a jump of the speed (a stiff landing). The contact time is the one with the least residual; which
powers to use is settled by the Bayesian information criterion (Schwarz 1978, Ann. Statist. 6:461).
"""

from dataclasses import dataclass

import numpy as np

from ..arrays import Array

POWERS = ((2,), (2, 3), (1, 2))
"""Powers of τ on the ground's side that are tried: those of a constant force, a changing one, and a stiff landing."""
COARSE_KNOTS, FINE_KNOTS = 33, 7
"""Number of contact times tried over all of the time asked for, and then around the best; more do not move the result.
"""


@dataclass(frozen=True, slots=True)
class Knot:
    """A contact: its frame, one standard error of it (frames), and the height and speed there.

    height in meters, speed in meters a frame on the air's side; ground is the speed on the ground's side.
    """

    frame: float
    error: float
    height: float
    speed: float
    ground: float


def knot(frames: Array, heights: Array, *, low: float, high: float, noise: float, air: int) -> Knot | None:
    """Find the contact between `low` and `high` (frames), the ground before it and the air after.

    frames, heights: (m,) rising frames and meters, ground samples first; air: index of the first sample
    that is surely in the air; noise: meters. None when too few samples lie on either side. For a landing
    pass time reversed.
    """
    if air < 2 or len(frames) - air < 3:
        return None
    origin, scale = float(frames[air]), float(frames[-1] - frames[0])
    s = (frames - origin) / scale
    best = None
    for powers in POWERS:
        if len(powers) + 1 > air:
            continue
        fit = _search(s, heights, powers, (low - origin) / scale, (high - origin) / scale)
        parameters = 4 + len(powers)
        m = len(s)
        criterion = fit.rss / noise**2 + parameters * np.log(m)
        if best is None or criterion < best[0] - 1e-9:
            best = (criterion, fit, powers)
    if best is None:
        return None
    _, fit, powers = best
    spread = np.sqrt(max(fit.rss / max(len(s) - 4 - len(powers), 1), noise**2))
    error = spread / np.sqrt(max(fit.curvature, 1e-12)) * scale
    c = fit.coefficients
    t = fit.at
    speed = (c[1] + 2 * c[2] * t) / scale
    ground = speed - (c[3] / scale if powers[0] == 1 else 0.0)
    return Knot(origin + t * scale, float(error), float(c[0] + c[1] * t + c[2] * t * t), float(speed), float(ground))


@dataclass(frozen=True, slots=True)
class _Fit:
    at: float
    rss: float
    curvature: float
    coefficients: Array


def _search(s: Array, z: Array, powers: tuple[int, ...], low: float, high: float) -> _Fit:
    for count in (COARSE_KNOTS, FINE_KNOTS):
        at = np.linspace(low, high, count)
        rss, coefficients = _residuals(s, z, powers, at)
        i, step = int(np.argmin(rss)), at[1] - at[0]
        low, high = at[i] - step, at[i] + step
    i = min(max(i, 1), len(at) - 2)
    bend = (rss[i - 1] - 2 * rss[i] + rss[i + 1]) / step**2
    shift = 0.0 if bend <= 0 else (rss[i - 1] - rss[i + 1]) / (2 * bend * step)
    final = at[i] + float(np.clip(shift, -step, step))
    rss, coefficients = _residuals(s, z, powers, np.array([final]))
    return _Fit(float(final), float(rss[0]), float(bend / 2), coefficients[0])


def _residuals(s: Array, z: Array, powers: tuple[int, ...], at: Array) -> tuple[Array, Array]:
    """Return the residual sum of squares and coefficients of the model for each contact time in `at`."""
    tau = np.maximum(at[:, None] - s[None, :], 0.0)
    columns = [np.broadcast_to(s**k, tau.shape) for k in range(3)] + [tau**p for p in powers]
    design = np.stack(columns, axis=2)
    size = np.sqrt(np.einsum("gmk,gmk->gk", design, design)) + 1e-300
    design = design / size[:, None, :]
    normal = np.einsum("gmk,gml->gkl", design, design)
    normal[:, np.arange(normal.shape[1]), np.arange(normal.shape[1])] += 1e-13
    right = np.einsum("gmk,m->gk", design, z)
    coefficients = np.linalg.solve(normal, right[..., None])[..., 0]
    residual = z - np.einsum("gmk,gk->gm", design, coefficients)
    return np.einsum("gm,gm->g", residual, residual), coefficients / size
