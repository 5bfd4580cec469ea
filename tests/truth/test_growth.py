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


def seconds(*tracks: Track) -> list[float]:
    """Return the best of five for each, measured in turn, so that both meet the same machine."""
    spans = []
    for _ in range(5):
        for track in tracks:
            start = time.process_time()
            audit_track(track)
            spans.append(time.process_time() - start)
    return [min(spans[at :: len(tracks)]) for at in range(len(tracks))]


def test_eighty_jumps_cost_eight_times_ten() -> None:
    many, few = seconds(repeated(MANY, feet=False), repeated(FEW, feet=False))
    assert many <= MOST * few


def test_eighty_jumps_with_feet_cost_eight_times_ten() -> None:
    many, few = seconds(repeated(MANY, feet=True), repeated(FEW, feet=True))
    assert many <= MOST * few
