"""A drive: the rise from a bottom that ends on a given parabola, with the parabola's height and speed.

From rest at the start, x = d sᵖ over T frames ends at the speed p d / T. The parabola gives both d and
that speed at every instant, so two unknowns are left: the frame the drive starts and the frame it ends.
p = 2 is a constant force, p = 1 a constant speed, p = 3 a cubic ease-in.
"""

from dataclasses import dataclass

import numpy as np

LEAST_POWER, MOST_POWER = 0.7, 6.0
ROUNDS = 5


@dataclass(frozen=True, slots=True)
class Parabola:
    """height = c0 + c1 s + c2 s², s frames from origin."""

    origin: float
    c0: float
    c1: float
    c2: float

    def at(self, frames: np.ndarray | float) -> np.ndarray | float:
        """Metres."""
        s = frames - self.origin
        return self.c0 + (self.c1 + self.c2 * s) * s

    def speed(self, frames: np.ndarray | float) -> np.ndarray | float:
        """Metres a frame, up."""
        return self.c1 + 2 * self.c2 * (frames - self.origin)


@dataclass(frozen=True, slots=True)
class Drive:
    """Start and end (frames) with their standard errors, the power, and the residual (rms, metres)."""

    start: float
    end: float
    start_error: float
    end_error: float
    power: float
    rms: float


def drive(
    frames: np.ndarray,
    heights: np.ndarray,
    parabola: Parabola,
    *,
    level: float,
    starts: tuple[float, float],
    ends: tuple[float, float],
    noise: float,
) -> Drive | None:
    """Fit start and end of a drive from `level` (metres) onto `parabola`.

    frames, heights: samples from the bottom to the first ones in the air; starts, ends: (least, most)
    frame of each; noise: metres. None where no drive fits between them.
    """
    a = np.linspace(*starts, 15)
    b = np.linspace(*ends, 21)
    at = np.stack(np.meshgrid(a, b, indexing="ij"), axis=-1).reshape(-1, 2)
    at = at[at[:, 1] - at[:, 0] > 0.05]
    if not len(at):
        return None
    model, power = _model(frames, parabola, level, at)
    cost = ((model - heights) ** 2).sum(axis=1) + np.where((power < LEAST_POWER) | (power > MOST_POWER), 1e6, 0.0)
    best = at[int(np.argmin(cost))].copy()
    lowest = float(cost.min())
    if lowest >= 1e6:
        return None
    jacobian = np.zeros((len(frames), 2))
    tiny = 1e-5
    trial = best.copy()
    for _ in range(ROUNDS):
        probes = np.stack((trial, trial + (tiny, 0), trial + (0, tiny)))
        values, powers = _model(frames, parabola, level, probes)
        residual = heights - values[0]
        rss = float(residual @ residual)
        if rss <= lowest and LEAST_POWER <= powers[0] <= MOST_POWER:
            lowest, best = rss, trial.copy()
            jacobian = (values[1:] - values[0]).T / tiny
        elif rss > lowest:
            trial = (trial + best) / 2
            continue
        normal = jacobian.T @ jacobian + np.eye(2) * 1e-15
        step = np.linalg.solve(normal, jacobian.T @ residual)
        if np.abs(step).max() < 1e-5:
            break
        trial = best + np.clip(step, -0.5, 0.5)
        if trial[1] - trial[0] < 0.05:
            break
    return _finished(frames, parabola, level, best, lowest, jacobian, noise)


def _finished(
    frames: np.ndarray, parabola: Parabola, level: float, best: np.ndarray, rss: float, jacobian: np.ndarray, noise: float
) -> Drive:
    _, power = _model(frames, parabola, level, best[None, :])
    spread = np.sqrt(max(rss / max(len(frames) - 2, 1), noise**2))
    covariance = np.linalg.inv(jacobian.T @ jacobian + np.eye(2) * 1e-9) * spread**2
    errors = np.sqrt(np.diag(covariance))
    return Drive(
        float(best[0]), float(best[1]), float(errors[0]), float(errors[1]), float(power[0]),
        float(np.sqrt(rss / len(frames))),
    )


def _model(frames: np.ndarray, parabola: Parabola, level: float, at: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Heights (g, m) and powers (g,) of the drives with (start, end) rows `at`."""
    start, end = at[:, :1], at[:, 1:]
    d = np.maximum(parabola.at(end) - level, 1e-9)
    span = end - start
    power = np.maximum(parabola.speed(end) * span / d, 1e-3)
    s = np.clip((frames[None, :] - start) / span, 1e-12, 1.0)
    ground = level + d * np.exp(np.clip(power, None, 50.0) * np.log(s))
    return np.where(frames[None, :] > end, parabola.at(frames)[None, :], ground), power[:, 0]
