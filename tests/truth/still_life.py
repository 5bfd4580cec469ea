"""Seeded motion that holds no jump: `make(kind, seed)`; kinds in STILL, and FALLS for flights unpushed."""

import zlib
from collections.abc import Callable

import numpy as np
from leapwright.analysis import Track
from leapwright.analysis.world import STANDARD_GRAVITY

from . import gaits, rides, standing
from .answer import Motion, Truth
from .pieces import Path, Profile, backward, ease, flight, hold, power_push

RATES = (24.0, 25.0, 30.0, 48.0, 60.0)
SHAPES: dict[str, Callable[[np.random.Generator], Profile]] = {
    "walk, sine": gaits.sine_walk,
    "walk, vaulting": gaits.vaulting_walk,
    "run, low flights": gaits.low_run,
    "stairs": gaits.stairs,
    "crawl": gaits.crawl,
    "slide": gaits.slide,
    "squat": standing.squat,
    "calf raise": standing.calf_raise,
    "reach": standing.reach,
    "sit and stand": standing.sit,
    "breath": standing.breath,
    "random smooth": standing.wander,
    "lift": rides.lift,
    "rope swing": rides.rope_swing,
    "ship": rides.ship,
    "big wheel": rides.wheel,
    "car on bumps": rides.car,
}
ANIMATED = ("walk, sine", "walk, vaulting", "stairs", "squat", "calf raise", "sit and stand")
"""Also keyed. Not random curves: any four poses low, middle, high, low are a blocked jump."""
STILL = (
    *SHAPES,
    *(f"{kind}, noisy" for kind in SHAPES),
    "noise alone",
    "random smooth, on twos",
    *(f"{kind}, {way}" for kind in ANIMATED for way in ("on twos", "eased keys", "stepped keys")),
)
FALLS = ("fall", "fall, noisy")
UNPUSHED = (*FALLS, "slide", "slide, noisy")
"""Down with a constant acceleration and no push: by its height a slide is a slow fall."""


def make(kind: str, seed: int) -> Motion:
    """Return the motion of this kind and seed, 2 to 10 s long, the same on every machine; its truth is empty."""
    rng = np.random.default_rng([zlib.crc32(kind.encode()), seed])
    fps = float(rng.choice(RATES))
    frames = np.arange(int(rng.uniform(2.0, 10.0) * fps), dtype=float)
    if kind in FALLS:
        return _fall(kind, seed, rng, fps)
    if kind == "noise alone":
        return _moved(kind, seed, rng, fps, frames, np.zeros_like(frames), noise=(0.0005, 0.006))
    name, _, way = kind.rpartition(", ")
    shape = SHAPES[kind] if kind in SHAPES else SHAPES[name]
    heights = shape(rng)((frames + rng.uniform()) / fps)
    if kind in SHAPES:
        return _moved(kind, seed, rng, fps, frames, heights)
    if way == "noisy":
        return _moved(kind, seed, rng, fps, frames, heights, noise=(0.0005, 0.006))
    if way == "on twos":
        return _moved(kind, seed, rng, fps, frames, heights[np.arange(len(frames)) // 2 * 2])
    keys, joined = _by_keys(frames, heights, stepped=way == "stepped keys")
    join = "constant" if way == "stepped keys" else "bezier"
    return _moved(kind, seed, rng, fps, frames, joined, key_frames=keys, interpolation=join)


def _by_keys(frames: np.ndarray, heights: np.ndarray, *, stepped: bool) -> tuple[np.ndarray, np.ndarray]:
    """Return keys at the ends, the extremes and where rests begin and end; held, or eased with flat handles."""
    way = np.sign(np.where(np.abs(np.diff(heights)) < 1e-6, 0.0, np.diff(heights)))
    index = np.unique(np.concatenate([[0], np.flatnonzero(np.diff(way)) + 1, [len(frames) - 1]]))
    keys, poses = frames[index], heights[index]
    at = np.clip(np.searchsorted(keys, frames, side="right") - 1, 0, len(keys) - 2)
    if stepped:
        last = np.searchsorted(keys, frames, side="right") - 1
        return keys, poses[last]
    s = (frames - keys[at]) / (keys[at + 1] - keys[at])
    return keys, poses[at] + (poses[at + 1] - poses[at]) * s**2 * (3 - 2 * s)


def _moved(
    kind: str,
    seed: int,
    rng: np.random.Generator,
    fps: float,
    frames: np.ndarray,
    heights: np.ndarray,
    *,
    noise: tuple[float, float] | None = None,
    truth: tuple[Truth, ...] = (),
    **keys,
) -> Motion:
    along = rng.choice([0.0, rng.uniform(0.2, 4.0)]) * frames / fps
    positions = np.column_stack([along, np.zeros_like(along), rng.uniform(-2, 2) + heights])
    if noise:
        positions = positions + rng.normal(0.0, rng.uniform(*noise), positions.shape)
    return Motion(kind, seed, Track(f"{kind} {seed}", fps, frames, positions, **keys), truth)


def _fall(kind: str, seed: int, rng: np.random.Generator, fps: float) -> Motion:
    """Stand, step off a ledge of 0.2 to 3 m without a push, give way, stand up."""
    drop, g = rng.uniform(0.2, 3.0), STANDARD_GRAVITY
    fast, down = np.sqrt(2 * g * drop), rng.uniform(0.15, 0.6)
    absorb = backward("absorb", power_push(-drop - down, down, fast, 1.0))
    pieces = (
        hold("stand", 0.0, rng.uniform(0.3, 1.0)),
        flight(0.0, 0.0, g, fast / g),
        absorb,
        ease("settle", -drop - down, -drop, rng.uniform(0.4, 1.2)),
        hold("stand", -drop, rng.uniform(0.2, 1.0)),
    )
    path, phase = Path(pieces), rng.uniform()
    off, land, low = phase + fps * path.starts[1:4]
    frames = np.arange(int(path.starts[-1] * fps))
    heights = path.at((frames - phase) / fps)
    truth = Truth(None, off, off, land, low, g, None, 0.0, drop)
    noise = (0.0005, 0.006) if kind == "fall, noisy" else None
    return _moved(kind, seed, rng, fps, frames.astype(float), heights, noise=noise, truth=(truth,))
