"""The same jumps as an animator or a file holds them: baked, on twos, stepped poses, cut off."""

from dataclasses import replace

import numpy as np
from leapwright.analysis import Track

from .answer import Motion, Truth


def as_baked(motion: Motion, rng: np.random.Generator) -> Motion:
    """Return every frame a key, joined by lines, as an import makes it."""
    return _tracked(motion, key_frames=motion.track.frames, interpolation="linear")


def as_held(motion: Motion, rng: np.random.Generator, *, step: int, known: bool = False) -> Motion:
    """Hold each pose for `step` frames; known: with its keys."""
    track = motion.track
    index = np.arange(len(track.frames)) // step * step
    keys = track.frames[::step] if known else None
    return _tracked(
        motion,
        positions=track.positions[index],
        key_frames=keys,
        interpolation="constant" if known else None,
    )


def as_linear(motion: Motion, rng: np.random.Generator, *, step: int) -> Motion:
    """Return a key every `step` frames, joined by lines, up to the last key."""
    track = motion.track
    end = (len(track.frames) - 1) // step * step + 1
    frames, keys = track.frames[:end], track.frames[:end:step]
    positions = np.column_stack([np.interp(frames, keys, axis[:end:step]) for axis in track.positions.T])
    return _tracked(motion, frames=frames, positions=positions, key_frames=keys, interpolation="linear")


def pose_keys(motion: Motion, rng: np.random.Generator, *, step: int = 1) -> tuple[np.ndarray, np.ndarray]:
    """Return whole frames and world positions of the poses stand, crouch, takeoff, apex, landing, absorbed, stand.

    Frames are multiples of `step` from the track's first, heights are those of the true events.
    """
    track, path = motion.track, motion.path
    first = track.frames[0]
    (true,) = motion.truth
    times = np.array([true.crouch, true.takeoff, true.apex, true.landing, true.absorbed])
    heights = path.at((times - motion.offset) / track.fps)
    keys = first + step * np.round((times - first) / step)
    keys[0] = max(keys[0], first + step)
    for i in range(1, len(keys)):
        keys[i] = max(keys[i], keys[i - 1] + step)
    frames = np.concatenate([[first], keys, [keys[-1] + step * rng.integers(2, 6)]])
    ground = track.positions[0, 2] - path.at(np.zeros(1))[0]
    poses = ground + np.concatenate([path.at(np.zeros(1)), heights, path.at(path.starts[-1:])])
    along = [np.interp(frames, track.frames, axis) for axis in track.positions.T[:2]]
    return frames, np.column_stack([*along, poses])


def by_keys(motion: Motion, keys: np.ndarray, positions: np.ndarray, **parts) -> Motion:
    """Return the motion as drawn through these poses; its events are their keys, its gravity is not given."""
    (true,) = motion.truth
    answer = Truth(*keys[1:6], None, true.push_distance, true.jump_height, true.drop)
    return replace(_tracked(motion, positions=positions, **parts), truth=(answer,), path=None)


def as_stepped(motion: Motion, rng: np.random.Generator, *, step: int = 1, known: bool = True) -> Motion:
    """Return only the poses stand, crouch, takeoff, apex, landing, absorbed, stand, each held to the next.

    The events are the keys: on whole frames (multiples of `step` from the first), heights exact.
    """
    keys, poses = pose_keys(motion, rng, step=step)
    frames = np.arange(keys[0], max(motion.track.frames[-1], keys[-1] + 3) + 1)
    held = poses[np.searchsorted(keys, frames, side="right") - 1]
    known_keys = {"key_frames": keys, "interpolation": "constant"} if known else {}
    return by_keys(motion, keys, held, frames=frames, **known_keys)


def cut(motion: Motion, rng: np.random.Generator, *, where: str) -> Motion:
    """Leave out what comes before or after a place in the jump.

    where: "absorbed", "landing" (track ends there), "push" (track starts in it), "rise", "fall" (track
    starts or ends in the air: no whole jump is left).
    """
    (true,) = motion.truth
    frames = motion.track.frames
    start, end = 0, len(frames)
    if where == "absorbed":
        end = int(np.searchsorted(frames, true.absorbed)) + 1
    elif where == "landing":
        end = int(
            np.searchsorted(frames, true.landing + rng.uniform(0.2, 0.7) * (true.absorbed - true.landing))
        )
        end = max(end, int(np.searchsorted(frames, true.landing)) + 1)
        true = replace(true, absorbed=None)
    elif where == "push":
        start = int(
            np.searchsorted(frames, true.crouch + rng.uniform(0.2, 0.7) * (true.takeoff - true.crouch))
        )
        true = replace(true, crouch=None, push_distance=None)
    elif where == "rise":
        start = int(
            np.ceil(
                np.searchsorted(frames, true.takeoff + rng.uniform(0.1, 0.9) * (true.apex - true.takeoff))
            )
        )
    elif where == "fall":
        end = int(np.searchsorted(frames, true.landing - rng.uniform(0.1, 0.6) * (true.landing - true.apex)))
    keep = slice(start, max(end, start + 5))
    partial = where in ("push", "rise", "fall")
    track = motion.track
    return replace(
        _tracked(motion, frames=track.frames[keep], positions=track.positions[keep]),
        truth=() if where in ("rise", "fall") else (true,),
        partial=partial,
    )


def _tracked(motion: Motion, **changes) -> Motion:
    old = motion.track
    parts = {"frames": old.frames, "positions": old.positions, **changes}
    return replace(motion, track=Track(old.name, old.fps, **parts))
