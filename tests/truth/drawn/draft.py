"""What an animator starts from: bodies of many sizes that jump, their frames, and the drawn sheet made from them."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from leapwright.analysis import Track
from leapwright.analysis.world import STANDARD_GRAVITY

from ..answer import Motion, Truth
from ..compose import traveled
from ..forces import Body, Jumped, leap

RATES = (24.0, 24.0, 25.0, 30.0, 60.0)
FIRST = (0.0, 1.0, 1.0, 101.0, 1001.0)
Range = tuple[float, float]


@dataclass(frozen=True)
class Draft:
    """The body that is drawn from, at its frame rate. times: (m, 5) frames of its events, not whole."""

    fps: float
    start: float
    jumped: Jumped
    speed: float
    heading: float

    @property
    def times(self) -> np.ndarray:
        return self.start + self.fps * self.jumped.events

    @property
    def end(self) -> float:
        return self.start + self.fps * self.jumped.path.starts[-1]

    def at(self, frames: np.ndarray) -> np.ndarray:
        """(n, 3) positions of the body at these frames."""
        seconds = (np.asarray(frames, dtype=float) - self.start) / self.fps
        along = traveled(self.jumped.path, seconds, self.speed)
        heights = self.jumped.path.at(seconds)
        return np.column_stack([along * np.cos(self.heading), along * np.sin(self.heading), heights])


@dataclass(frozen=True)
class Sheet:
    """What was drawn: a track's parts, and its truth."""

    fps: float
    frames: np.ndarray
    positions: np.ndarray
    truth: tuple[Truth, ...]
    keys: np.ndarray | None = None
    joined: str | None = None

    def motion(self, family: str, seed: int) -> Motion:
        """Return the sheet as a track that knows its answer."""
        track = Track(
            f"{family} {seed}", self.fps, self.frames, self.positions, key_frames=self.keys, interpolation=self.joined
        )
        return Motion(family, seed, track, self.truth)


def draw_body(
    rng: np.random.Generator,
    *,
    stand: Range = (0.2, 2.0),
    height: Range = (0.06, 2.0),
    ratio: Range = (0.4, 4.0),
    pace: Range = (0.8, 1.25),
    uneven: float = 0.3,
    deeper: Range | None = None,
) -> Body:
    """Return a body of any size, and a jump of any height for which its legs are long enough.

    uneven: share of the height by which half of them land higher or lower; deeper: all, by a share within it.
    """
    tall = _log(rng, stand)
    high = min(_log(rng, height), 5.0 * tall)
    lift = tall * rng.uniform(0.02, 0.10)
    push = float(np.clip(high / _log(rng, ratio), 0.08 * tall + lift, 0.6 * tall + lift))
    other = rng.choice([0.0, rng.uniform(-uneven, uneven)]) if deeper is None else rng.uniform(*deeper)
    drop = high * (1.0 + other)
    absorb = float(np.clip(push * rng.uniform(0.5, 1.0), 1.6 * lift, 0.7 * tall))
    gravity = STANDARD_GRAVITY * _log(rng, pace) ** 2
    size = np.sqrt(tall * STANDARD_GRAVITY / gravity)
    hold = float(rng.choice([0.0, rng.uniform(0.05, 0.4)]))
    fade, onset = size * rng.uniform(0.0, 0.08), size * rng.uniform(0.0, 0.05)
    return Body(tall, push, high, drop, absorb, lift, hold, fade, onset, gravity)


def draft(
    rng: np.random.Generator,
    *,
    fps: Sequence[float] = RATES,
    count: tuple[int, ...] = (1, 1, 1, 2, 3),
    air: float = 5.0,
    pushed: float = 1.5,
    flowing: float = 0.3,
    ends: Range = (0.25, 1.0),
    **ranges,
) -> Draft:
    """Return one to three jumps of one body. air, pushed: fewest frames of each flight and push."""
    for _ in range(1000):
        rate = float(rng.choice(fps))
        bodies = [draw_body(rng, **ranges)]
        for _ in range(int(rng.choice(count)) - 1):
            bodies.append(_next(rng, bodies[-1], bodies[0].stand, ranges))
        pauses = [0.0 if rng.uniform() < flowing else rng.uniform(0.3, 0.8) for _ in bodies[1:]]
        jumped = leap(rng, bodies, pauses=pauses, ends=tuple(rng.uniform(*ends, 2)))
        crouch, takeoff, _, landing, absorbed = rate * jumped.events.T
        if min(landing - takeoff) >= air and min(takeoff - crouch) >= pushed and min(absorbed - landing) >= 1.0:
            start = float(rng.choice(FIRST)) + rng.uniform()
            speed = rng.choice([0.0, rng.uniform(0.1, 2.0) * np.sqrt(bodies[0].stand)])
            return Draft(rate, start, jumped, float(speed), float(rng.uniform(0, 2 * np.pi)))
    raise ValueError("no body fits these ranges")


def _next(rng: np.random.Generator, before: Body, tall: float, ranges: dict) -> Body:
    """Return the next jump of the same body, so tall: its lift stays, and it starts from where it landed."""
    other = draw_body(rng, **{**ranges, "stand": (tall, tall)})
    return replace(
        other,
        stand=before.after,
        distance=other.distance - other.lift + before.lift,
        absorb=max(other.absorb, 1.6 * before.lift),
        lift=before.lift,
        gravity=before.gravity,
    )


def _log(rng: np.random.Generator, span: Range) -> float:
    return float(np.exp(rng.uniform(*np.log(span))))


def truths(events: np.ndarray, heights: np.ndarray, *, open_by: float = 0.0) -> tuple[Truth, ...]:
    """Truth of each row of (m, 5) event frames and heights; a crouch or absorb at its contact is none."""
    return tuple(
        _truth([float(frame) for frame in at], high, open_by) for at, high in zip(events, heights, strict=True)
    )


def _truth(at: list[float], high: np.ndarray, open_by: float) -> Truth:
    crouch, takeoff, apex, landing, absorbed = at
    return Truth(
        None if crouch == takeoff else crouch,
        takeoff,
        apex,
        landing,
        None if absorbed == landing else absorbed,
        None,
        None if crouch == takeoff else float(high[1] - high[0]),
        float(high[2] - high[1]),
        float(high[2] - high[3]),
        open_by,
    )
