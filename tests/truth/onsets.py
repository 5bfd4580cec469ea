"""Seeded jumps whose push and landing forces set in as ONSETS say: `make(onset, fps, noise, seed)`.

A push out of a hold begins when its force does. A track with noise shows only when the body has moved, and how late
that is depends on how the force sets in. So we draw the same jump with forces that set in at once, evenly, smoothly,
and ever more slowly. No model of the product is used: the force is integrated by sums (`forces.by_force`), and the true
start is the instant at which the force begins.
"""

from collections.abc import Callable

import numpy as np
from leapwright.analysis import Track
from leapwright.analysis.world import STANDARD_GRAVITY

from .answer import Motion, Truth
from .forces import GRID, by_force
from .pieces import Path, Piece, backward, ease, flight, hold

Shape = Callable[[np.random.Generator], np.ndarray]
"""A draw of a net force over GRID; its size does not matter, since `by_force` scales it."""


def _tilted(rng: np.random.Generator) -> np.ndarray:
    """Return a force that changes evenly over the push: at its end it is between a half and one and a half of its
    start.
    """
    return 1.0 + rng.uniform(-0.5, 0.5) * GRID


def _sine(share: np.ndarray) -> np.ndarray:
    return np.sin(0.5 * np.pi * np.clip(share, 0.0, 1.0))


def _jerk(share: np.ndarray) -> np.ndarray:
    """Rise from 0 to 1, with no slope and no bend at the ends: minimum jerk (Flash and Hogan 1985, J. Neurosci.
    5:1688).
    """
    share = np.clip(share, 0.0, 1.0)
    return share**3 * (10.0 - 15.0 * share + 6.0 * share**2)


ONSETS: dict[str, Shape] = {
    "constant": lambda rng: np.ones_like(GRID),
    "at once": _tilted,
    "short ramp": lambda rng: np.clip(GRID / rng.uniform(0.05, 0.25), 0.0, 1.0) * _tilted(rng),
    "long ramp": lambda rng: np.clip(GRID / rng.uniform(0.25, 1.0), 0.0, 1.0) * _tilted(rng),
    "quarter sine": lambda rng: _sine(GRID / rng.uniform(0.3, 1.0)) * _tilted(rng),
    "half sine": lambda rng: np.sin(np.pi * GRID) + 1e-3,
    "minimum jerk": lambda rng: _jerk(GRID / rng.uniform(0.3, 1.0)) * _tilted(rng),
    "exponential": lambda rng: 1.0 - np.exp(-GRID / rng.uniform(0.05, 0.3)),
}
AT_ONCE = ("constant", "at once")
FADE = 0.06
"""Longest time over which the force fades before takeoff, in seconds, in half of the jumps; in the others it ends at
once.
"""


def make(onset: str, fps: float, noise: float, seed: int, *, hold_frames: float | None = None) -> Motion:
    """Return one jump of a person's size, out of a rest in the crouch and into a rest after the landing.

    hold_frames: length of both rests; None: drawn, from none to ten. noise: meters, one standard deviation.
    """
    rng = np.random.default_rng([list(ONSETS).index(onset), int(fps), round(noise * 1e6), seed])
    gravity = STANDARD_GRAVITY * rng.uniform(0.7, 1.4) ** 2
    height = float(np.exp(rng.uniform(*np.log([0.15, 1.2]))))
    distance = float(np.clip(height / rng.uniform(0.5, 2.5), 0.15, 0.7))
    stand, lift = rng.uniform(0.8, 1.1), rng.uniform(0.0, 0.35) * distance
    rests = rng.choice([0.0, 1.0, 3.0, 6.0, 10.0], 2) if hold_frames is None else np.full(2, hold_frames)
    speed = float(np.sqrt(2.0 * gravity * height))
    fades, air = rng.choice([0.0, FADE], 2) * rng.uniform(0.3, 1.0, 2), 2.0 * speed / gravity
    absorb = distance * rng.uniform(0.5, 1.0)
    drive, _ = by_force(
        ONSETS[onset](rng), distance=distance, speed=speed, gravity=gravity, fade=fades[0], straight=1.0
    )
    land, _ = by_force(
        ONSETS[onset](rng), distance=absorb, speed=speed, gravity=gravity, fade=0.5 * fades[1], straight=1.0
    )
    off = stand + lift
    low, deep = off - distance, off - absorb
    shapes, spans = rng.choice(["cosine", "cubic", "jerk"], 2), rng.uniform((1.8, 2.5), (4.0, 6.0))
    pieces = [
        hold("stand", stand, rng.uniform(0.4, 1.0)),
        ease("dip", stand, low, spans[0] * np.sqrt((stand - low) / gravity), shape=shapes[0]),
        hold("hold", low, rests[0] / fps),
        _raised(drive, low),
        flight(off, speed, gravity, air),
        _raised(backward("absorb", land), deep),
        hold("rest", deep, rests[1] / fps),
        ease("settle", deep, stand, spans[1] * np.sqrt(max(stand - deep, 0.02) / gravity), shape=shapes[1]),
        hold("stand", stand, rng.uniform(0.4, 1.0)),
    ]
    path, phase, first = Path(tuple(pieces)), rng.uniform(), float(rng.choice([0, 1, 101]))
    frames = first + np.arange(int(path.starts[-1] * fps))
    heights = path.at((frames - first + phase) / fps)
    positions = np.column_stack([0.0 * heights, 0.0 * heights, heights]) + rng.normal(0.0, noise, (len(frames), 3))
    seconds = path.starts[[3, 4, 5, 6]]
    crouch, takeoff, landing, absorbed = first - phase + fps * seconds
    apex = takeoff + fps * speed / gravity
    kind = f"{onset}, {fps:g} fps, {1000 * noise:g} mm"
    truth = Truth(*map(float, (crouch, takeoff, apex, landing, absorbed)), gravity, distance, height, height)
    track = Track(f"{kind} {seed}", fps, frames, positions)
    return Motion(kind, seed, track, (truth,), path=path, offset=first - phase)


def _raised(piece: Piece, by: float) -> Piece:
    return Piece(piece.name, piece.seconds, lambda x: by + piece.height(x), piece.speed)
