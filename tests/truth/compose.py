"""Draw leaps, lay them one after another and sample them from a random sub-frame phase."""

import numpy as np
from leapwright.analysis import Track
from leapwright.analysis.world import STANDARD_GRAVITY

from .answer import Motion, Truth
from .leaps import Leap, path_of
from .pieces import Path

LEAST_PUSH = 4.0
"""Frames: a shorter push cannot be resolved from whole frames."""


def draw_leap(
    rng: np.random.Generator,
    fps: float,
    *,
    height: tuple[float, float] = (0.1, 1.5),
    ratio: tuple[float, float] = (0.5, 3.0),
    pace: tuple[float, float] = (0.4, 1.9),
    push: tuple[float, float] = (LEAST_PUSH, np.inf),
    air: tuple[float, float] = (6.0, np.inf),
    k: tuple[float, float] = (1.0, 1.0),
    uneven: float = 0.0,
    human: bool = False,
    spring: bool = False,
) -> Leap:
    """Draw one leap whose push and airtime, in frames, lie within `push` and `air`."""
    for _ in range(10_000):
        h = float(np.exp(rng.uniform(*np.log(height))))
        d = h / rng.uniform(*ratio)
        g = STANDARD_GRAVITY * rng.uniform(*pace) ** 2
        leap = Leap(
            height=h,
            distance=d,
            gravity=g,
            drop=h * (1 + rng.uniform(-uneven, uneven)),
            k=rng.uniform(*k),
            absorb=d * rng.uniform(0.4, 1.0),
            lift=rng.uniform(0.0, 0.35) * d,
            hold=rng.choice([0, 0, 1, 2, 4, 8, 12]) / fps,
            dip=rng.uniform(1.8, 4.0),
            rise=rng.uniform(2.5, 6.0),
            dip_shape=str(rng.choice(["cosine", "cubic", "jerk"])),
            human=human,
            spring=spring,
            lead=rng.uniform(0.020, 0.030) * np.sqrt(STANDARD_GRAVITY / g),
            front=rng.uniform(0.0, 0.75),
        )
        if (
            leap.possible
            and push[0] <= leap.push_seconds * fps <= push[1]
            and (air[0] <= leap.air_seconds * fps <= air[1])
        ):
            return leap
    raise ValueError("no leap fits these ranges")


def compose(
    kind: str,
    seed: int,
    rng: np.random.Generator,
    leaps: list[Leap],
    fps: float,
    *,
    pause: list[float] | None = None,
    travel: float | None = None,
    noise: float = 0.0,
) -> Motion:
    """Lay leaps one after another, sample them from a random sub-frame phase.

    pause: seconds of standing between leaps; 0: the absorb flows into the next push.
    travel: horizontal m/s in flight, None: a draw. noise: meters, one standard deviation, each axis.
    """
    lead_in, lead_out = rng.uniform(0.15, 1.0, 2)
    path, events = path_of(leaps, pause or [0.3] * (len(leaps) - 1), lead_in, lead_out)
    phase = rng.uniform()
    total = path.starts[-1] * fps
    frames = np.arange(int(np.floor(total + phase)) + 1, dtype=float)
    seconds = (frames - phase) / fps
    speed = rng.choice([0.0, rng.uniform(0.1, 3.0)]) if travel is None else travel
    heading = rng.uniform(0, 2 * np.pi)
    along = traveled(path, seconds, speed)
    ground = rng.uniform(-3.0, 3.0)
    positions = np.column_stack([along * np.cos(heading), along * np.sin(heading), ground + path.at(seconds)])
    if noise:
        positions = positions + rng.normal(0.0, noise, positions.shape)
    first = float(rng.choice([0, 1, 1, 101, 1001]))
    truth = tuple(
        Truth(
            *(first + phase + fps * np.array(times)),
            gravity=leap.gravity,
            push_distance=leap.distance,
            jump_height=leap.height,
            drop=leap.drop,
        )
        for leap, times in zip(leaps, events, strict=True)
    )
    track = Track(f"{kind} {seed}", fps, first + frames, positions)
    return Motion(kind, seed, track, truth, path=path, offset=first + phase)


def traveled(path: Path, seconds: np.ndarray, speed: float) -> np.ndarray:
    """Distance along the ground: constant speed in flight, linear ramps in pushes and absorbs."""
    along = np.zeros_like(seconds)
    for start, piece in zip(path.starts, path.pieces, strict=False):
        inside = np.clip(seconds - start, 0.0, piece.seconds)
        if piece.name == "flight":
            along += speed * inside
        elif piece.name == "push":
            along += speed * inside**2 / (2 * piece.seconds)
        elif piece.name == "absorb":
            along += speed * (inside - inside**2 / (2 * piece.seconds))
    return along
