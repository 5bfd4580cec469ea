"""Time grows with the track, not with its square: many jumps cost as much each as a few."""

import time

import numpy as np
from leapwright.analysis import Track, audit_track

from .integrated import make
from .soles import shod

MANY, FEW = 80, 10
MOST = 9.0
"""Times the cost of ten jumps that eighty may take: eight, and an eighth for the clock."""


def repeated(jumps: int, *, feet: bool) -> Track:
    """Return the same jump over and over."""
    motion = make("drawn", 24.0, 0.0, 0)
    if feet:
        motion = shod(motion, np.random.default_rng(0))
    track = motion.track
    count = len(track.frames)
    places = np.tile(track.positions - track.positions[0] * [1, 1, 0], (jumps, 1))
    parts = {"feet": np.tile(track.feet, (jumps, 1, 1)), "ground": 0.0} if feet else {}
    return Track("over and over", track.fps, np.arange(jumps * count), places, **parts)


def seconds(track: Track) -> float:
    """Return the best of three."""
    spans = []
    for _ in range(3):
        start = time.process_time()
        audit_track(track)
        spans.append(time.process_time() - start)
    return min(spans)


def test_eighty_jumps_cost_eight_times_ten() -> None:
    assert seconds(repeated(MANY, feet=False)) <= MOST * seconds(repeated(FEW, feet=False))


def test_eighty_jumps_with_feet_cost_eight_times_ten() -> None:
    assert seconds(repeated(MANY, feet=True)) <= MOST * seconds(repeated(FEW, feet=True))
