"""Step: the frames from one pose of the shot to the next."""

from dataclasses import replace
from functools import reduce
from math import gcd

from ..phases import Phases
from ..track import Track

FEWEST_KEYS = 6
"""Fewest keys whose spacing tells the step: fewer are even by chance too often."""


def stepped(track: Track, phases: Phases, *, least: int) -> Phases:
    """Return phases with the step of their track, frames: at least the one that was asked for."""
    step = max(_step_of(track, phases), least)
    return phases if step == phases.step else replace(phases, step=step)


def _step_of(track: Track, phases: Phases) -> int:
    """Tell the frames from pose to pose: 2 or 3 where every keyed pose of the track lies on twos or threes."""
    keys = track.key_frames
    if phases.method != "keys" or phases.step > 1 or keys is None or len(keys) < FEWEST_KEYS:
        return phases.step
    gaps = [round(gap) for gap in (keys[1:] - keys[:-1]).tolist()]
    common = reduce(gcd, gaps)
    return next((step for step in (2, 3) if common and common % step == 0), 1)
