"""Seeded tracks that no jumper makes: walks, steps, spikes, plateaus, broken jumps; gaps in frames, any size."""

from collections.abc import Callable

import numpy as np
from leapwright.analysis import Marks, Track
from leapwright.analysis.track import EVENTS, FARTHEST_POSITION

from tests.truth.motions import JUMPS, make

Rng = np.random.Generator
LEAPS = [make(kind, seed).track for kind in JUMPS for seed in (0, 1)]


def _spikes(rng: Rng, n: int) -> np.ndarray:
    return np.where(rng.random(n) < 0.05, rng.normal(0, 1, n), 0.0)


def _bounces(rng: Rng, n: int) -> np.ndarray:
    phase = np.arange(n) % int(rng.integers(6, 40))
    return phase * (phase.max() - phase) * 1.0


def _knots(rng: Rng, n: int) -> np.ndarray:
    at = np.unique(rng.integers(0, n, int(rng.integers(2, 12))))
    return np.interp(np.arange(n), at, rng.normal(0, 1, len(at)))


SHAPES: dict[str, Callable[[Rng, int], np.ndarray]] = {
    "random walk": lambda rng, n: np.cumsum(rng.normal(0, 1, n)),
    "steps": lambda rng, n: np.cumsum(rng.normal(0, 1, n) * (rng.random(n) < 0.1)),
    "spikes": _spikes,
    "plateaus": lambda rng, n: np.repeat(rng.normal(0, 1, n), int(rng.integers(1, 6)))[:n],
    "smooth walk": lambda rng, n: np.cumsum(np.cumsum(rng.normal(0, 1, n))),
    "bounces": _bounces,
    "straight lines": _knots,
    "noise": lambda rng, n: rng.normal(0, 1, n),
}


def invented(rng: Rng) -> Track:
    """Draw a shape of any size, 1 nm to 100 km, on any frames."""
    n = int(rng.integers(5, 150))
    z = SHAPES[str(rng.choice(list(SHAPES)))](rng, n)
    z = z / max(np.abs(z).max(), 1e-300) * 10.0 ** rng.uniform(-9, 5) + rng.choice(
        [0, 1, -500, 0.9 * FARTHEST_POSITION]
    )
    if rng.random() < 0.2:
        z = z.round(2)
    frames = [
        np.arange(n),
        np.cumsum(rng.choice([1, 1, 1, 2, 7], n)),
        np.cumsum(rng.uniform(0.01, 3, n)),
        np.arange(n) * 10.0 ** rng.uniform(-3, 3),
    ][rng.integers(4)] + float(rng.choice([0, 1, -500, 1001, 0.25]))
    rate = float(rng.choice([24, 25, 30, 60, 120, 24000 / 1001, 1e-2, 1e5]))
    x = np.linspace(0, rng.normal(0, 3), n)
    positions = np.stack((x, 0 * x, z.clip(-FARTHEST_POSITION, FARTHEST_POSITION)), axis=1)
    return Track("strange", rate, frames, positions, **_keys(rng, frames))


def broken(rng: Rng) -> Track:
    """Take a jump, cut it, drop some of its frames, and spoil its heights or frames."""
    whole = LEAPS[rng.integers(len(LEAPS))]
    n = len(whole.frames)
    first, last = (int(rng.integers(0, n // 2)), int(rng.integers(n // 2, n))) if rng.random() < 0.5 else (0, n)
    kept = np.arange(first, last)[rng.random(last - first) > rng.choice([0, 0, 0.15])]
    kept = kept if len(kept) >= 5 else np.arange(n)
    frames, positions = whole.frames[kept].copy(), whole.positions[kept].copy()
    some = int(rng.integers(len(kept)))
    match rng.integers(6):
        case 0:
            positions[some, 2] += rng.normal(0, 1)
        case 1:
            positions[:, 2] += rng.normal(0, 10.0 ** rng.uniform(-7, -1), len(kept))
        case 2:
            positions[some : some + int(rng.integers(2, 9)), 2] = positions[some, 2]
        case 3:
            positions[:, 2] *= 10.0 ** rng.uniform(-3, 3)
        case 4:
            frames += rng.uniform(-0.45, 0.45, len(frames)) * np.diff(frames).min()
        case 5:
            positions[:, 2] = positions[:, 2].round(int(rng.integers(1, 4)))
    known = {"interpolation": whole.interpolation, "key_frames": whole.key_frames}
    return Track("broken", whole.fps, frames, positions, **known, marks=_marks(rng, frames))


def _keys(rng: Rng, frames: np.ndarray) -> dict[str, object]:
    if rng.random() < 0.5:
        return {"marks": _marks(rng, frames)}
    some = np.unique(rng.choice(frames, int(rng.integers(0, len(frames)))))
    beyond = np.unique(rng.uniform(frames[0] - 20, frames[-1] + 20, 6))
    kind = str(rng.choice(["constant", "linear", "bezier"]))
    return {"interpolation": kind, "key_frames": some if rng.random() < 0.8 else beyond}


def _marks(rng: Rng, frames: np.ndarray) -> tuple[Marks, ...]:
    if rng.random() < 0.6:
        return ()
    at = np.sort(rng.uniform(frames[0] - 5, frames[-1] + 5, 5))
    pins = {name: float(frame) for name, frame in zip(EVENTS, at, strict=True) if rng.random() < 0.5}
    made = (Marks(**pins),) if pins else ()
    return (*made, Marks(no_jump=(float(frames[0]), float(frames[len(frames) // 2])))) if rng.random() < 0.3 else made
