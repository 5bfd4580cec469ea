"""One bad frame in a clean jump: `make(flaw, seed, place)`; flaws in FLAWS.

outlier   one sample is 5 to 60 mm too high or too low
repeated  one sample repeats the one before it, as a frame dropped and filled; time goes on
doubled   one sample comes twice and all later ones are a frame late (pulldown)
dropped   one sample is missing and all later ones are a frame early
lost      three frames in the air carry no sample; the frames say so

Doubled and dropped frames shift the events that come after them, and the truth with them.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import cache

import numpy as np
from leapwright.analysis import Track

from . import integrated
from .answer import Motion, Truth

SIZES = (0.005, 0.06)
SEEN = 0.015
"""Meters that a body must move in a frame for a doubled or a dropped frame to show."""
LOST = 3


@dataclass(frozen=True)
class Flawed:
    """A motion with one bad frame. asked: whether the heights show the flaw, so that a note should name it."""

    motion: Motion
    frame: float
    asked: bool


Change = Callable[[Motion, int, np.random.Generator], Motion]


def outlier(motion: Motion, at: int, rng: np.random.Generator) -> Motion:
    """Lift or lower one sample."""
    positions = motion.track.positions.copy()
    positions[at, 2] += rng.choice([-1.0, 1.0]) * np.exp(rng.uniform(*np.log(SIZES)))
    return _with(motion, positions=positions)


def repeated(motion: Motion, at: int, rng: np.random.Generator) -> Motion:
    """Show one sample for two frames, the second's own being lost."""
    positions = motion.track.positions.copy()
    positions[at] = positions[at - 1]
    return _with(motion, positions=positions)


def doubled(motion: Motion, at: int, rng: np.random.Generator) -> Motion:
    """Show one sample for two frames, all later ones a frame after their own."""
    track = motion.track
    index = np.arange(len(track.frames) + 1)
    positions = track.positions[np.where(index < at, index, index - 1)]
    frames = np.append(track.frames, track.frames[-1] + 1)
    # A frame lasts from its instant to the next one: what happens within the doubled frame takes two frames.
    known = np.concatenate([[-np.inf], track.frames[[at - 1, at]], [np.inf]])
    return _with(motion, positions=positions, frames=frames, events=lambda t: _shifted(t, known[1], known[2], 1.0))


def dropped(motion: Motion, at: int, rng: np.random.Generator) -> Motion:
    """Leave one sample out, all later ones a frame before their own."""
    track = motion.track
    positions = np.delete(track.positions, at, axis=0)
    before, after = track.frames[[at - 1, at + 1]]
    return _with(
        motion, positions=positions, frames=track.frames[:-1], events=lambda t: _shifted(t, before, after, -1.0)
    )


def lost(motion: Motion, at: int, rng: np.random.Generator) -> Motion:
    """Lose the marker for three frames."""
    kept = np.ones(len(motion.track.frames), dtype=bool)
    kept[at : at + LOST] = False
    return _with(motion, positions=motion.track.positions[kept], frames=motion.track.frames[kept])


FLAWS: dict[str, Change] = {
    "outlier": outlier, "repeated": repeated, "doubled": doubled, "dropped": dropped, "lost": lost
}  # fmt: skip


@cache
def clean(seed: int) -> Motion:
    """Return the jump that is spoiled: forces, no noise, 24, 30 or 60 frames a second."""
    return integrated.make("drawn", integrated.RATES[seed % 3], 0.0, seed)


def places(flaw: str, motion: Motion) -> np.ndarray:
    """Return indices of the samples at which this flaw can sit: near the jump, or in its air for lost ones."""
    (truth,), frames = motion.truth, motion.track.frames
    if flaw == "lost":
        return np.flatnonzero((frames > truth.takeoff + 1) & (frames + LOST < truth.landing - 1))
    near = (frames > truth.crouch - 6) & (frames < truth.absorbed + 6)
    return np.flatnonzero(near)[2:-2]


def make(flaw: str, seed: int, at: int) -> Flawed:
    """Return the clean jump of this seed with the flaw at this sample."""
    motion = clean(seed)
    rng = np.random.default_rng([seed, at])
    frame = float(motion.track.frames[at])
    spoiled = replace(FLAWS[flaw](motion, at, rng), kind=flaw)
    return Flawed(spoiled, frame, _shows(flaw, motion, at))


def _shows(flaw: str, motion: Motion, at: int) -> bool:
    """Tell whether the heights show that this is a flaw and not a force: in free flight, and where the body moves."""
    (truth,), track = motion.truth, motion.track
    frame, heights = track.frames[at], track.heights
    if not truth.takeoff + 2 < frame < truth.landing - 2 or flaw == "lost":
        return False
    return flaw == "outlier" or min(abs(heights[at] - heights[at - 1]), abs(heights[at + 1] - heights[at])) > SEEN


def _shifted(frame: float, first: float, last: float, by: float) -> float:
    """Return a frame after a stretch of time that lasts `by` frames longer."""
    share = np.clip((frame - first) / (last - first), 0.0, 1.0)
    return float(frame + by * share)


def _with(
    motion: Motion,
    *,
    positions: np.ndarray,
    frames: np.ndarray | None = None,
    events: Callable[[float], float] = float,
) -> Motion:
    old = motion.track
    track = Track(old.name, old.fps, old.frames if frames is None else frames, positions)
    return replace(motion, track=track, truth=tuple(_moved(truth, events) for truth in motion.truth))


def _moved(truth: Truth, events: Callable[[float], float]) -> Truth:
    names = ("crouch", "takeoff", "apex", "landing", "absorbed")
    return replace(truth, **{name: events(getattr(truth, name)) for name in names})
