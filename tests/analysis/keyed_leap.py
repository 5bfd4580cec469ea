"""Jumps as keys draw them, built by Tern Quay's own plan: between keys the path is the exact cubic."""

from collections.abc import Iterable

import numpy as np
from leapwright.analysis import Settings, Track, World
from leapwright.analysis.retiming.aim import Aim
from leapwright.analysis.retiming.forecast import Forecast
from leapwright.analysis.retiming.retime import forecasts, no_better
from leapwright.analysis.retiming.worth import worth

from tests.quay.motion import FPS, at, plan
from tests.quay.moves import Leap, Stand

GRAVITY = 9.81
REAL = Settings(World(gravity=GRAVITY))

FLOATY = Leap(push=6, rise=13, fall=13, absorb=8, distance=1.9, pace=0.62, push_real=10)
"""A slow flight whose push was left at real time: 6 frames where the flight asks for 10."""
LATE = Leap(push=8, rise=5, fall=5, absorb=4, distance=1.1, pace=1.6, push_real=4)
"""A snappy hop whose push is twice as long as its flight asks for."""
RUSHED = Leap(push=4, rise=8, fall=12, absorb=6, distance=1.9, push_real=8)
"""A leap down in real time whose push is half as long as its flight asks for."""
SOUND = Leap(push=6, rise=8, fall=8, absorb=6, distance=1.35)


def keyed(*leaps: Leap, extra: Iterable[float] = (), held: bool = False) -> Track:
    """Return a track of these leaps; extra frames carry keys too, and a held one shows its keys only."""
    motion = plan((Stand(7), *leaps), x=0.0, ground=0.0, gravity=GRAVITY)
    last = int(motion.last.frame)
    frames = np.arange(1.0, last + 1.0)
    keys = np.unique([*(key.frame for key in motion.keys), *extra])
    shown = keys[np.searchsorted(keys, frames, side="right") - 1] if held else frames
    path = np.array([at(motion.keys, frame) for frame in shown])
    return Track(
        "Brindle/root", FPS, frames, np.column_stack([path[:, 0], 0.0 * frames, path[:, 1]]),
        key_frames=keys, interpolation="constant" if held else "bezier", source="bone",
    )  # fmt: skip


def retimed(track: Track, number: int = 0, *, aim: Aim, settings: Settings = REAL) -> Forecast:
    """Return the forecast that is taken where no scene has to be played: the first; refused where that does harm."""
    forecast = next(forecasts(track, number, aim=aim, settings=settings))
    found = worth(forecast, aim)
    if found.harms:
        raise no_better(found, aim)
    return forecast
