"""How well contacts and bottoms are read on seeded jumps, held by the score of their stated 95 % intervals.

The interval score adds the width of a stated interval to 40 times what the truth lies outside of it, in frames: it is
least where errors are small and the ± is meant, and grows where either is twice as large or half of it (Gneiting and
Raftery 2007, J. Am. Stat. Assoc. 102:359, equation 43, at α = 0.05). The forces are random and integrated, the pushes
worked out in closed form: neither comes from the families that are fitted.
"""

from collections.abc import Iterable, Iterator, Sequence
from functools import cache

import numpy as np
import pytest
from leapwright.analysis.contacts.flights import flights_at
from leapwright.analysis.contacts.side import Contact
from leapwright.analysis.samples.poses import poses_of
from leapwright.analysis.samples.turns import tops
from leapwright.analysis.track import Track

from tests.truth import onsets
from tests.truth.answer import Motion
from tests.truth.integrated import make
from tests.truth.worked import PUSHES, Worked

SEEDS = 10
G = 9.80665
FAR = 15.0
"""Frames: the score of what is not found, and the most of what is."""
EVENTS = ("crouch", "takeoff", "landing", "absorbed")
MOST = {
    "textbook pushes": (0.40, 0.63, 0.05, 0.19),
    "textbook pushes, few samples": (0.56, 0.40, 0.21, 0.57),
    "constant force, few samples": (0.46, 0.26, 0.16, 0.49),
    "drawn": (0.58, 1.38, 0.87, 1.07),
    "drawn, 60 fps": (0.75, 4.23, 2.25, 0.18),
    "recorded": (0.78, 2.14, 1.30, 0.31),
    "any": (1.03, 1.31, 1.48, 0.34),
    "drawn, 1.5 mm": (1.64, 1.68, 1.17, 0.49),
    "recorded, 60 fps, 1.5 mm": (1.63, 3.41, 3.94, 0.78),
    "any, 60 fps, 6 mm": (3.01, 5.38, 4.73, 1.52),
    "constant force, 1.5 mm": (1.60, 3.04, 2.07, 2.09),
    "least jerk, 1.5 mm": (3.58, 3.39, 1.27, 3.20),
}
"""Frames, by kind and event: what the calibrated numbers reach on these seeds, and three hundredths of room."""


def worked(*rates: float, shapes: Sequence[str] = tuple(PUSHES)) -> Iterator[tuple[Track, dict[str, float]]]:
    """Yield jumps of textbook pushes, sampled at these rates from some instants on."""
    for shape in shapes:
        for fps in rates:
            for phase in (0.0, 0.3, 0.7):
                yield Worked(height=0.45, push=0.4, gravity=G, shape=shape).track(fps=fps, phase=phase)


def integrated(way: str, fps: float, noise: float) -> Iterator[tuple[Track, dict[str, float]]]:
    """Yield jumps by random forces under this noise, meters."""
    return truths(make(way, fps, noise, seed) for seed in range(SEEDS))


def set_in(onset: str, fps: float, noise: float) -> Iterator[tuple[Track, dict[str, float]]]:
    """Yield jumps by forces that set in so, under this noise, meters."""
    return truths(onsets.make(onset, fps, noise, seed) for seed in range(SEEDS))


def truths(motions: Iterable[Motion]) -> Iterator[tuple[Track, dict[str, float]]]:
    """Yield each track with its events."""
    for motion in motions:
        (truth,) = motion.truth
        yield motion.track, {name: getattr(truth, name) for name in EVENTS}


KINDS = {
    "textbook pushes": lambda: worked(12.0, 24.0, 30.0),
    "textbook pushes, few samples": lambda: worked(9.0, 10.0, 11.0),
    "constant force, few samples": lambda: worked(8.0, 10.0, 12.0, 15.0, shapes=("constant force",)),
    "drawn": lambda: integrated("drawn", 24.0, 0.0),
    "drawn, 60 fps": lambda: integrated("drawn", 60.0, 0.0),
    "recorded": lambda: integrated("recorded", 30.0, 0.0),
    "any": lambda: integrated("any", 24.0, 0.0),
    "drawn, 1.5 mm": lambda: integrated("drawn", 24.0, 0.0015),
    "recorded, 60 fps, 1.5 mm": lambda: integrated("recorded", 60.0, 0.0015),
    "any, 60 fps, 6 mm": lambda: integrated("any", 60.0, 0.006),
    "constant force, 1.5 mm": lambda: set_in("constant", 30.0, 0.0015),
    "least jerk, 1.5 mm": lambda: set_in("minimum jerk", 30.0, 0.0015),
}


@cache
def scores(kind: str) -> dict[str, float]:
    """Return the mean interval score of each event, in frames."""
    every: dict[str, list[float]] = {name: [] for name in EVENTS}
    for track, truth in KINDS[kind]():
        poses = poses_of(track)
        turns = tops(poses.heights, 0.05)
        middle = 0.5 * (truth["takeoff"] + truth["landing"])
        found = [one for one in flights_at(poses, turns, G, track.fps) if one is not None]
        near = min(found, key=lambda one: abs(one.stretch.parabola.vertex - middle), default=None)
        for ends, sign in ((("takeoff", "crouch"), 1.0), (("landing", "absorbed"), -1.0)):
            contact: Contact | None = None if near is None else getattr(near, ends[0])
            low = None if contact is None else contact.bottom
            for name, read in zip(ends, (contact, low), strict=True):
                every[name].append(FAR if read is None else score(sign * read.frame - truth[name], read.error))
    return {name: float(np.mean(values)) for name, values in every.items()}


def score(miss: float, error: float) -> float:
    """Return the interval score of a miss against its standard error, frames: 2 / α is 40; FAR at most, so that no
    single jump decides.
    """
    return min(2.0 * 1.96 * error + 40.0 * max(abs(miss) - 1.96 * error, 0.0), FAR)


@pytest.mark.parametrize("event", EVENTS)
@pytest.mark.parametrize("kind", KINDS)
def test_events_are_read_as_closely_as_is_said(kind: str, event: str) -> None:
    assert scores(kind)[event] <= MOST[kind][EVENTS.index(event)]
