"""Seeded jumps with known events, gravity and push: `make(kind, seed)`; kinds in JUMPS."""

import zlib
from collections.abc import Callable
from functools import partial

import numpy as np

from .answer import Motion, Truth
from .compose import LEAST_PUSH, compose, draw_leap
from .keyed import as_baked, as_held, as_linear, as_stepped, cut
from .soles import shod

__all__ = ["JUMPS", "Motion", "Truth", "make"]

FPS = (24.0, 25.0, 30.0, 48.0, 60.0, 24000 / 1001)

Maker = Callable[[str, int, np.random.Generator], Motion]


def _single(*, fps: tuple[float, ...] = (24.0,), noise: tuple[float, float] | None = None, **ranges) -> Maker:
    def build(kind: str, seed: int, rng: np.random.Generator) -> Motion:
        rate = float(rng.choice(fps))
        amount = rng.uniform(*noise) if noise else 0.0
        return compose(kind, seed, rng, [draw_leap(rng, rate, **ranges)], rate, noise=amount)

    return build


def _several(
    *, fps: tuple[float, ...] = (24.0,), paused: bool = False, noise: tuple[float, float] | None = None, **ranges
) -> Maker:
    def build(kind: str, seed: int, rng: np.random.Generator) -> Motion:
        rate, count = float(rng.choice(fps)), int(rng.integers(2, 6))
        pace = rng.uniform(0.4, 1.9)
        style = {"pace": (pace, pace), **ranges}
        leaps = [draw_leap(rng, rate, **style) for _ in range(count)]
        pause = [float(rng.uniform(0.05, 0.6)) if paused else 0.0 for _ in range(count - 1)]
        amount = rng.uniform(*noise) if noise else 0.0
        return compose(kind, seed, rng, leaps, rate, pause=pause, noise=amount)

    return build


Change = Callable[[Motion, np.random.Generator], Motion]


def _changed(change: Change, *, of: Callable[..., Maker] = _single, **ranges) -> Maker:
    def build(kind: str, seed: int, rng: np.random.Generator) -> Motion:
        return change(of(**ranges)(kind, seed, rng), rng)

    return build


HUMAN = {"human": True, "height": (0.15, 0.6), "ratio": (0.6, 1.6), "pace": (0.8, 1.25)}
RUN = {
    "spring": True,
    "height": (0.055, 0.12),
    "ratio": (0.5, 1.5),
    "pace": (1.0, 1.0),
    "push": (2.0, np.inf),
}
RUN["air"] = (5.0, np.inf)
NOISE_OF_RUNS = (0.001, 0.004)
ON_TWOS = {"push": (4.0, np.inf), "air": (8.0, np.inf)}
ON_THREES = {"push": (6.0, np.inf), "air": (12.0, np.inf)}
POSES = {"push": (2.0, np.inf), "air": (6.0, np.inf)}
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
    "run, high flights": _several(**RUN, fps=FPS),
    "run, feet known": _changed(shod, of=_several, **RUN, fps=FPS),
    "run, noisy": _several(**RUN, fps=FPS, noise=NOISE_OF_RUNS),
    "run, noisy, feet known": _changed(shod, of=_several, **RUN, fps=FPS, noise=NOISE_OF_RUNS),
    "noisy, 60 fps": _single(fps=(60.0,), noise=(0.002, 0.006), **BELIEVABLE),
    "noisy, 24-48 fps": _single(fps=FPS[:4], noise=(0.0005, 0.006), **BELIEVABLE),
    "noisy, human": _single(fps=FPS, noise=(0.0005, 0.004), **HUMAN),
    "baked keys": _changed(as_baked, fps=FPS),
    "on twos": _changed(partial(as_held, step=2), **ON_TWOS),
    "on twos, keys known": _changed(partial(as_held, step=2, known=True), **ON_TWOS),
    "on threes": _changed(partial(as_held, step=3), **ON_THREES),
    "on threes, keys known": _changed(partial(as_held, step=3, known=True), **ON_THREES),
    "twos joined by lines, keys known": _changed(partial(as_linear, step=2), **ON_TWOS),
    "stepped poses": _changed(as_stepped, **POSES),
    "stepped poses, uneven": _changed(as_stepped, **POSES, uneven=0.6),
    "stepped poses on twos": _changed(partial(as_stepped, step=2), **POSES),
    "stepped poses, keys unknown": _changed(partial(as_stepped, known=False), **POSES),
    "ends absorbed": _changed(partial(cut, where="absorbed")),
    "ends at landing": _changed(partial(cut, where="landing")),
    "starts in the push": _changed(partial(cut, where="push")),
    "starts in the air": _changed(partial(cut, where="rise")),
    "ends in the air": _changed(partial(cut, where="fall")),
}


def make(kind: str, seed: int) -> Motion:
    """Return the motion of this kind and seed, the same on every machine."""
    rng = np.random.default_rng([zlib.crc32(kind.encode()), seed])
    return JUMPS[kind](kind, seed, rng)
