"""Which samples of a track are poses of their own, and how much noise they carry.

A shot on twos repeats every pose; a stepped blocking holds each until the next. Only the frames where a
pose begins say where the point was put.
"""

from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from ..arrays import Array, median, thirds
from ..track import Track
from .flaws import BadFrame, Flaw, outliers, stumbles, through

SAME_POSE_METERS = 1e-7
"""Meters under which two positions are the same pose: single precision at ten meters."""
QUIET = 1e-6
"""Least noise that is assumed, in meters: single precision of a scene."""

FEWEST_NOISE_SAMPLES = 40
"""Number of samples under which the motion itself fills the differences, so that no noise can be told."""
HELD_FEWEST = 80
"""The same number for held poses, or keys joined by lines, which lie two or three times as far apart."""
MOST_STEP = 4
"""Most frames from pose to pose of a shot on twos, threes or fours; more is blocking (ours)."""
EVEN_GAPS_SHARE = 0.6
"""Share of the gaps between poses, or keys, that must be alike for them to come at a regular beat (ours)."""
FEWEST_FLIGHT_KEYS, MOST_KEYED_SHARE = 4, 0.8
"""Fewest keys that can show a flight, and their share of the frames from which the curve itself is as good (ours)."""
HAND_KEYED_ERROR_SHARE = 0.003
"""Share of a track's rise and fall that keys set by hand are off by, one standard deviation: some millimeters in a
person's jump (calibrated on drawn keys: the contacts of their parabola then lie within what it says)."""
MOST_DRAWN_NOISE = 5e-5
"""Noise, in meters, under which a curve counts as drawn, and not as measured."""


@dataclass(frozen=True, slots=True, eq=False)
class Poses:
    """The samples that count: frames (m,), heights (m,) in meters, and how they were made.

    step is the frames from one pose to the next where that is even, else 1; held says that each pose is
    kept until the next; even says that they come at a regular beat; noise is one standard deviation, m.
    """

    frames: Array
    heights: Array
    step: int
    held: bool
    even: bool
    noise: float
    bad: tuple[BadFrame, ...] = ()
    """Frames that are off, that only repeat the one before amid the motion, or before which one is missing."""
    by_hand: bool = False
    """Whether they are keys alone, and off as by a hand."""

    @property
    def beat(self) -> float:
        """Frames from one pose to the next, on average."""
        return float(self.frames[-1] - self.frames[0]) / max(len(self.frames) - 1, 1)


def poses_of(track: Track) -> Poses:
    """Pick the poses out of a track's samples."""
    moved = _moved(track)
    # Where half the gaps are of two frames and more, poses begin on two thirds of the frames at most.
    few = 3 <= len(moved) <= 0.7 * len(track.frames)
    if not few and track.interpolation != "constant":
        return _drawn(track)
    starts = np.concatenate(([0], moved))
    gaps = starts[1:] - starts[:-1]
    if track.interpolation != "constant" and median(gaps) < 2:
        return _drawn(track)
    step = int(median(gaps)) if len(gaps) else 1
    even = step <= MOST_STEP and len(gaps) >= 6 and is_even(gaps)
    if even and step > 1:
        since = np.arange(len(track.frames)) - _latest(starts, len(track.frames))
        return _made(track, since % step == 0, step, held=True, even=True)
    keys = keys_within(track)
    if keys is not None and track.interpolation == "constant":
        starts = np.unique(np.searchsorted(track.frames, keys))
    return _made(track, starts, 1, held=True, even=step == 1)


def is_even(gaps: Array, share: float = EVEN_GAPS_SHARE) -> bool:
    """Tell whether poses with these gaps between them, (n,) frames, n ≥ 1, come at a regular beat: a share is alike."""
    return np.count_nonzero(gaps == median(gaps)) >= share * len(gaps)


def thinned(poses: Poses, beat: float) -> Poses:
    """Keep every n-th pose, for about `beat` frames from one to the next; all where they lie wider."""
    each = int(beat / poses.beat)
    if each < 2:
        return poses
    heights = poses.heights[::each]
    return replace(poses, frames=poses.frames[::each], heights=heights, noise=_noise(heights))


@dataclass(frozen=True, slots=True, eq=False)
class Keyed:
    """The keys that a curve was drawn through, fewer than one a frame: as they are, and off as by a hand."""

    exact: Poses
    by_hand: Poses


def keyed(track: Track, poses: Poses) -> Keyed | None:
    """Pick the keys that a curve was drawn through, which knows no more than they do; None of any other."""
    if track.key_frames is None or poses.held or track.interpolation != "bezier":
        return None
    at = keyed_samples(poses.frames, track.key_frames)
    if not FEWEST_FLIGHT_KEYS <= len(at) <= MOST_KEYED_SHARE * len(poses.frames):
        return None
    frames, heights = poses.frames[at], poses.heights[at]
    noise = _noise(heights)
    levels = heights.tolist()
    off = max(noise, HAND_KEYED_ERROR_SHARE * (max(levels) - min(levels)))
    made = frames, heights, poses.step, poses.held, poses.even
    return Keyed(Poses(*made, noise, poses.bad, poses.by_hand), Poses(*made, off, poses.bad, True))


def keys_within(track: Track) -> Array | None:
    """Return the frames that carry a key, (k,) from the first sample to the last; None when not known."""
    keys = track.key_frames
    if keys is None or not len(keys) or (keys[0] >= track.frames[0] and keys[-1] <= track.frames[-1]):
        return keys
    return keys[(keys >= track.frames[0]) & (keys <= track.frames[-1])]


def keyed_samples(frames: Array, keys: Array) -> Array:
    """Return indices of the samples that carry a key. frames, keys: (n,), (k,) rising frames."""
    return _keyed_samples(frames.tobytes(), keys.tobytes())


@lru_cache(maxsize=8)
def _keyed_samples(of_samples: bytes, of_keys: bytes) -> Array:
    """Return what `keyed_samples` does; witnesses ask for the same again, and keys stay while values are dragged."""
    frames, keys = np.frombuffer(of_samples), np.frombuffer(of_keys)
    at = frames.searchsorted(keys)
    found: Array = at[frames[np.minimum(at, len(frames) - 1)] == keys]
    return found


def _drawn(track: Track) -> Poses:
    """Return a curve through its samples; straight lines between keys are no curve, only the keys are poses."""
    keys = track.key_frames
    if track.interpolation == "linear" and keys is not None:
        at = keyed_samples(track.frames, keys)
        gaps = np.diff(track.frames[at])
        if len(gaps) >= 6 and median(gaps) > 1:
            even = is_even(gaps)
            return _made(track, at, int(median(gaps)) if even else 1, held=False, even=even)
    poses = _made(track, slice(None), 1, held=False, even=True)
    if (keys is not None and len(keys) < len(track.frames)) or len(track.frames) < FEWEST_NOISE_SAMPLES:
        return poses
    gaps = track.frames[1:] - track.frames[:-1]
    return poses if gaps.max() > gaps.min() else _mended(track, poses)


def _mended(track: Track, poses: Poses) -> Poses:
    """Return the curve with its bad frames drawn through, where that can be, and named."""
    f, off = track.frames, outliers(track.heights, poses.noise)
    same, missing = stumbles(track.positions, poses.noise)
    if not (len(off) or len(same) or len(missing)):
        return poses
    z = track.heights.copy()
    same, missing = (at[(at > 1) & (at < len(z) - 2)] for at in (same, missing))
    again = off[np.abs(track.positions[off] - track.positions[off - 1]).max(axis=1) <= SAME_POSE_METERS]
    same, off = np.union1d(same, again), off[~np.isin(off, np.union1d(same, again))]
    if not len(off) and not len(same) and not len(missing):
        return poses
    bad = [BadFrame(float(f[i]), Flaw.OFF, float(z[i] - through(z, off[[n]])[0])) for n, i in enumerate(off)]
    bad += [BadFrame(float(f[i]), Flaw.REPEATED) for i in same]
    # A long step next to a sample that repeats is where the motion catches up with it.
    missing = missing[~np.isin(missing, np.concatenate([same + 1, same - 1, off, off + 1]))]
    bad += [BadFrame(float(f[i]), Flaw.MISSING) for i in missing]
    drawn = np.concatenate([off, same])
    z[drawn] = through(z, drawn)
    return replace(poses, heights=z, noise=_noise(z), bad=tuple(sorted(bad, key=lambda one: one.frame)))


def _made(track: Track, which: slice | Array, step: int, *, held: bool, even: bool) -> Poses:
    heights = track.heights[which]
    apart = held or len(heights) < len(track.frames)
    noise = QUIET if apart and len(heights) < HELD_FEWEST else _noise(heights)
    return Poses(track.frames[which], heights, step, held, even, noise)


def _moved(track: Track) -> Array:
    """Return indices of the samples that are other poses than those before them."""
    x, y, z = (np.abs(track.positions[1:] - track.positions[:-1]) > SAME_POSE_METERS).T
    moved: Array = (x | y | z).nonzero()[0] + 1
    return moved


def _latest(starts: Array, n: int) -> Array:
    marks = np.zeros(n, dtype=np.intp)
    marks[starts] = starts
    return np.maximum.accumulate(marks)


def _noise(heights: Array) -> float:
    """Return white noise from third and fourth differences, which a push and a flight leave all but empty.

    Differences add white noise up by √20 and √70 (binomial coefficients). Every contact fills a few of
    them, so that the lower quartile (0.3186 standard deviations of a normal variable) tells whether there
    is noise at all; if so, the root mean square of what lies within 2.5 medians tells how much (0.9546 of
    a standard deviation, truncated normal).
    """
    if len(heights) < FEWEST_NOISE_SAMPLES:
        return QUIET
    third = thirds(heights)
    by_third = np.abs(third) / 20**0.5
    if (least := _lower_quartile(by_third) / 0.3186) <= QUIET:
        return QUIET
    by_fourth = np.abs(third[1:] - third[:-1]) / 70**0.5
    if (least := min(least, _lower_quartile(by_fourth) / 0.3186)) < MOST_DRAWN_NOISE:
        return max(QUIET, least)
    spreads = []
    for values in (by_third, by_fourth):
        inner = values[values <= 2.5 / 0.6745 * median(values)]
        spreads.append(float(np.sqrt(np.mean(inner**2))) / 0.9546)
    return min(*spreads, 1.6 * least)


def _lower_quartile(values: Array) -> float:
    ordered, quarter = values.copy(), len(values) // 4
    ordered.partition(quarter)
    return float(ordered[quarter])
