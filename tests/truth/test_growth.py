"""Time grows with the track, not with its square: many jumps cost as much each as a few."""

import math
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


def times_as_long(many: Track, few: Track) -> float:
    """Return how many times the processor time of one track that of the other is: the least of up to four rounds.

    In a round each counts by its best of five, measured in turn, so that both meet the same machine; what else runs
    there takes away caches, which only adds, and more so to the longer one.
    """
    least = math.inf
    for _ in range(4):
        spans = []
        for track in (many, few) * 5:
            start = time.process_time()
            audit_track(track)
            spans.append(time.process_time() - start)
        least = min(least, min(spans[::2]) / min(spans[1::2]))
        if least <= MOST:
            break
    return least


def test_eighty_jumps_cost_eight_times_ten() -> None:
    assert times_as_long(repeated(MANY, feet=False), repeated(FEW, feet=False)) <= MOST


def test_eighty_jumps_with_feet_cost_eight_times_ten() -> None:
    assert times_as_long(repeated(MANY, feet=True), repeated(FEW, feet=True)) <= MOST
