"""A drive: the rise from a bottom that ends on a given parabola, with the parabola's height and speed.

The parabola gives the height and the speed that the drive must end with, so that a family of shapes with
two parameters is left with two unknowns: when the drive ends, and one more. Three families:

- power: x = d sᵖ from rest; p = 2 is a constant force, 1 a constant speed, 3 a cubic ease-in. The other
  unknown is the start.
- fading: as force plates record it, the force changes evenly through the push and then fades out, so that
  the point is fastest `LEAD` seconds before the feet leave. The other unknown is the acceleration before
  the fade.
- springing: the leg as a spring at rest length when it leaves the ground (spring-mass model, Blickhan
  1989, J. Biomech. 22:1217): a force of a quarter cosine, which leaves the end as the only unknown.
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

LEAD = 0.025
"""Seconds by which the speed peaks before takeoff: 22 to 27 ms in five plate records, BMC laboratory."""
LANDING_LEAD = 0.012
"""The same from touchdown: half of it, since the force of a landing rises two to three times as high in
the same records (5.5 to 6.8 against 2.0 to 2.7 body weights)."""
LEAD_SPREAD = 0.4
"""Standard deviation of a lead, as a share of it: what the samples may correct (ours)."""
LEAST_POWER, MOST_POWER = 0.7, 6.0
USUAL_POWER, POWER_SPREAD = 2.0, 0.35
"""A constant force, and how far a push strays from it (standard deviation of the logarithm; ours)."""
DRAWN = 5e-4
"""Share of the rise at which that belief weighs against the samples: enough to settle a push that only
one or two of them lie in, nothing where more do."""
ROUNDS = 6
TINY = 1e-5
FLOOR = 2e-5
"""Metres: what a smooth curve departs from the model at best."""
IMPOSSIBLE = 1e6
"""Cost of a shape that cannot be, metres squared: above any residual."""

Model = Callable[[np.ndarray], tuple[np.ndarray, np.ndarray, np.ndarray]]
"""From rows of (first, end, level, lead): heights (g, m), starts (g,), and the pull of what is likely
before any sample is seen, as a residual (g,) in metres."""


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
    """Start and end (frames) with their standard errors, the bottom's height (metres), and the residual
    (sum of squares, metres²)."""

    start: float
    end: float
    start_error: float
    end_error: float
    level: float
    rss: float
    count: int

    @property
    def rms(self) -> float:
        """Metres."""
        return (self.rss / self.count) ** 0.5


@dataclass(frozen=True, slots=True, eq=False)
class Ground:
    """What a drive is fitted to: samples from its bottom to the first ones in the air.

    frames, heights: (m,) frames and metres; level: height of the bottom, metres; starts, ends: (least,
    most) frame of start and end; noise: metres; free: the level is to be fitted too, where the bottom was
    turned through and not held.
    """

    frames: np.ndarray
    heights: np.ndarray
    parabola: Parabola
    level: float
    starts: tuple[float, float]
    ends: tuple[float, float]
    noise: float
    free: bool


def power_drive(ground: Ground) -> Drive | None:
    """Fit a power-law drive; None where none fits between the bounds."""
    rise = float(ground.parabola.at(ground.ends[1])) - ground.level

    def model(at: np.ndarray) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
        start, end, level = at[:, :1], at[:, 1:2], at[:, 2:3]
        d = np.maximum(ground.parabola.at(end) - level, 1e-9)
        span = np.maximum(end - start, 1e-3)
        power = ground.parabola.speed(end) * span / d
        s = np.clip((ground.frames - start) / span, 1e-12, 1.0)
        heights = level + d * np.exp(np.clip(power, 1e-3, 50.0) * np.log(s))
        impossible = (power < LEAST_POWER) | (power > MOST_POWER) | (end - start < 0.05)
        pull = DRAWN * rise / POWER_SPREAD * np.log(np.clip(power, 1e-3, 50.0) / USUAL_POWER)
        return _joined(ground, end, heights, impossible), start[:, 0], pull[:, 0]

    free = (0, 1, 2) if ground.free else (0, 1)
    return _fitted(ground, model, np.linspace(*ground.starts, 13), 1.0, free)


def fading_drive(ground: Ground, lead: float) -> Drive | None:
    """Fit a drive whose force fades out, the speed peaking `lead` frames before its end."""
    gravity = -2 * ground.parabola.c2
    origin = ground.frames[0]

    def model(at: np.ndarray) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
        late, end, level = at[:, :1] * gravity, at[:, 1:2], at[:, 2:3]
        fade = np.maximum(at[:, 3:], 1e-3) * (1 + at[:, :1])
        z0, v0 = ground.parabola.at(end), ground.parabola.speed(end)
        tau = end - ground.frames
        faded = np.minimum(tau, fade)
        rate = (late + gravity) / fade
        v1 = v0 + gravity * fade - rate * fade**2 / 2
        z1 = z0 - v0 * fade - gravity * fade**2 / 2 + rate * fade**3 / 6
        discriminant = 16 * v1**2 - 24 * late * (z1 - level)
        span = (4 * v1 - np.sqrt(np.maximum(discriminant, 0.0))) / (2 * late)
        early = 2 * v1 / np.maximum(span, 1e-6) - late
        x = np.clip(ground.frames - (end - fade - span), 0.0, span)
        rising = level + early * x**2 / 2 - (early - late) * x**3 / (6 * np.maximum(span, 1e-6))
        fading = z0 - v0 * faded - gravity * faded**2 / 2 + rate * faded**3 / 6
        impossible = (discriminant < 0) | (span <= 0.2) | (v1 <= 0) | (end - fade - span < origin - 2)
        heights = np.where(tau > fade, rising, fading)
        pull = max(ground.noise, FLOOR) / (LEAD_SPREAD * lead) * (at[:, 3] - lead)
        return _joined(ground, end, heights, impossible), (end - fade - span)[:, 0], pull

    free = (0, 1, 3, 2) if ground.free else (0, 1, 3)
    return _fitted(ground, model, np.geomspace(0.15, 4.0, 13), lead, free)


def springing_drive(ground: Ground) -> Drive | None:
    """Fit a drive whose force is a quarter cosine; None where none fits between the bounds."""
    gravity = -2 * ground.parabola.c2
    turn = 2 / np.pi

    def model(at: np.ndarray) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
        end, level = at[:, 1:2], at[:, 2:3]
        v, d = ground.parabola.speed(end), ground.parabola.at(end) - level
        bend = gravity * (turn - 0.5)
        span = (np.sqrt(np.maximum((v * turn) ** 2 + 4 * bend * d, 0.0)) - v * turn) / (2 * bend)
        force = (v + gravity * span) / (turn * np.maximum(span, 1e-6))
        x = np.clip(ground.frames - (end - span), 0.0, span)
        lift = (turn * span) ** 2 * (1 - np.cos(x / np.maximum(turn * span, 1e-6)))
        impossible = (d <= 0) | (v <= 0) | (span <= 0.2)
        heights = level + force * lift - gravity * x**2 / 2
        return _joined(ground, end, heights, impossible), (end - span)[:, 0], np.zeros(len(at))

    free = (1, 2) if ground.free else (1,)
    return _fitted(ground, model, np.ones(1), 1.0, free)


def _joined(ground: Ground, end: np.ndarray, heights: np.ndarray, impossible: np.ndarray) -> np.ndarray:
    """Ground before `end`, parabola after it; out of reach where the shape cannot be."""
    joined = np.where(ground.frames > end, ground.parabola.at(ground.frames), heights)
    return np.where(impossible, IMPOSSIBLE, joined)


def _fitted(
    ground: Ground, model: Model, first: np.ndarray, lead: float, free: tuple[int, ...]
) -> Drive | None:
    """Grid over (first parameter, end), then Gauss–Newton on the `free` ones of first, end, level, lead."""
    ends = np.linspace(*ground.ends, 17)
    grid = np.empty((len(first) * len(ends), 4))
    grid[:, 0], grid[:, 1] = np.repeat(first, len(ends)), np.tile(ends, len(first))
    grid[:, 2], grid[:, 3] = ground.level, lead
    values, _, pull = model(grid)
    cost = np.square(values - ground.heights).sum(axis=1) + pull**2
    best = grid[int(np.argmin(cost))]
    lowest = float(cost.min())
    if lowest >= IMPOSSIBLE:
        return None
    columns = list(free)
    probes = np.zeros((len(free) + 1, 4))
    probes[np.arange(1, len(free) + 1), columns] = TINY
    trial, jacobian, rss = best, None, np.inf
    for _ in range(ROUNDS):
        values, _, pull = model(trial + probes)
        residual = np.append(ground.heights - values[0], -pull[0])
        cost = float(residual @ residual)
        if jacobian is not None and not cost <= lowest * (1 + 1e-9) + 1e-14:
            trial = (trial + best) / 2
            continue
        lowest, best, rss = cost, trial, cost - float(pull[0]) ** 2
        jacobian = np.vstack(((values[1:] - values[0]).T, pull[1:] - pull[0])) / TINY
        step = np.linalg.lstsq(jacobian, residual, rcond=1e-9)[0]
        if np.abs(step).max() < 1e-5:
            break
        trial = best.copy()
        trial[columns] += np.clip(step, -0.5, 0.5)
    return _with_errors(ground, model, best, rss, jacobian, probes, columns.index(1))


def _with_errors(
    ground: Ground, model: Model, best: np.ndarray, rss: float, jacobian: np.ndarray, probes: np.ndarray, end: int
) -> Drive:
    count, unknowns = len(ground.frames), jacobian.shape[1]
    variance = max(rss / max(count - unknowns, 1), ground.noise**2)
    starts = model(best + probes)[1]
    covariance = np.linalg.pinv(jacobian.T @ jacobian, rcond=1e-12) * variance
    slope = (starts[1:] - starts[0]) / TINY
    start_error = float(np.sqrt(max(slope @ covariance @ slope, 0.0)))
    end_error = float(np.sqrt(covariance[end, end]))
    return Drive(float(starts[0]), float(best[1]), start_error, end_error, float(best[2]), rss, count)
