"""Seeded jumps with known events, gravity and push: `make(kind, seed)`; kinds in JUMPS."""

import zlib
from collections.abc import Callable
from dataclasses import dataclass, field

import numpy as np

from leapwright.analysis import Track
from leapwright.analysis.world import STANDARD_GRAVITY

from .leaps import Leap, path_of
from .pieces import Path

FPS = (24.0, 25.0, 30.0, 48.0, 60.0, 24000 / 1001)
LEAST_PUSH = 4.0
"""Frames: a shorter push cannot be resolved from whole frames."""


@dataclass(frozen=True)
class Truth:
    """What one jump really is: events in frames, lengths in metres, gravity in m/s².

    crouch is the end of the hold (bottom, when there is none); None: not on the track. gravity None:
    the drawn curve holds no parabola.
    """

    crouch: float | None
    takeoff: float
    apex: float
    landing: float
    absorbed: float | None
    gravity: float | None
    push_distance: float | None
    jump_height: float
    drop: float

    @property
    def push_ratio(self) -> float | None:
        """h / d."""
        return None if self.push_distance is None else self.jump_height / self.push_distance


@dataclass(frozen=True)
class Motion:
    """A track and its answer. partial: a jump on it is cut off, so what is reported must say so."""

    kind: str
    seed: int
    track: Track
    truth: tuple[Truth, ...]
    partial: bool = False
    path: Path | None = field(default=None, repr=False)
    offset: float = 0.0
    """Frame at which the path starts."""


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
    travel: horizontal m/s in flight, None: a draw. noise: metres, one standard deviation, each axis.
    """
    lead_in, lead_out = rng.uniform(0.15, 1.0, 2)
    path, events = path_of(leaps, pause or [0.3] * (len(leaps) - 1), lead_in, lead_out)
    phase = rng.uniform()
    total = path.starts[-1] * fps
    frames = np.arange(int(np.floor(total + phase)) + 1, dtype=float)
    seconds = (frames - phase) / fps
    speed = rng.choice([0.0, rng.uniform(0.1, 3.0)]) if travel is None else travel
    heading = rng.uniform(0, 2 * np.pi)
    along = _travel(path, seconds, speed)
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


def _travel(path: Path, seconds: np.ndarray, speed: float) -> np.ndarray:
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


Maker = Callable[[str, int, np.random.Generator], Motion]


def _single(*, fps: tuple[float, ...] = (24.0,), noise: tuple[float, float] | None = None, **ranges) -> Maker:
    def build(kind: str, seed: int, rng: np.random.Generator) -> Motion:
        rate = float(rng.choice(fps))
        amount = rng.uniform(*noise) if noise else 0.0
        return compose(kind, seed, rng, [draw_leap(rng, rate, **ranges)], rate, noise=amount)

    return build


def _several(*, fps: tuple[float, ...] = (24.0,), paused: bool = False, **ranges) -> Maker:
    def build(kind: str, seed: int, rng: np.random.Generator) -> Motion:
        rate, count = float(rng.choice(fps)), int(rng.integers(2, 6))
        pace = rng.uniform(0.4, 1.9)
        style = {"pace": (pace, pace), **ranges}
        leaps = [draw_leap(rng, rate, **style) for _ in range(count)]
        pause = [float(rng.uniform(0.05, 0.6)) if paused else 0.0 for _ in range(count - 1)]
        return compose(kind, seed, rng, leaps, rate, pause=pause)

    return build


HUMAN = {"human": True, "height": (0.15, 0.6), "ratio": (0.6, 1.6), "pace": (0.8, 1.25)}
BELIEVABLE = {"height": (0.2, 1.5), "ratio": (0.5, 2.0), "pace": (0.6, 1.6)}

JUMPS: dict[str, Maker] = {
    "clean": _single(),
    "clean, any fps": _single(fps=(*FPS, 120.0)),
    "clean, brief air": _single(air=(3.0, 6.0)),
    "short push": _single(push=(1.0, LEAST_PUSH)),
    "uneven": _single(uneven=0.6),
    "several, rebound": _several(),
    "several, paused": _several(paused=True),
    "several, uneven": _several(paused=True, uneven=0.6),
    "push shape k": _single(k=(0.5, 1.6), fps=FPS),
    "human push": _single(**HUMAN),
    "human push, any fps": _single(**HUMAN, fps=(*FPS, 120.0)),
    "human, rebound": _several(**{**HUMAN, "pace": (1.0, 1.0)}),
    "noisy, 60 fps": _single(fps=(60.0,), noise=(0.002, 0.006), **BELIEVABLE),
    "noisy, 24-48 fps": _single(fps=FPS[:4], noise=(0.0005, 0.006), **BELIEVABLE),
    "noisy, human": _single(fps=FPS, noise=(0.0005, 0.004), **HUMAN),
}


def make(kind: str, seed: int) -> Motion:
    """The motion of this kind and seed, the same on every machine."""
    rng = np.random.default_rng([zlib.crc32(kind.encode()), seed])
    return JUMPS[kind](kind, seed, rng)
