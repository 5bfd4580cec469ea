"""The cases of a track: every rise and fall that stands out, with what its witnesses may look at."""

from functools import lru_cache

import numpy as np

from ..arrays import Array, median
from ..contacts.flights import Flight, flights_at
from ..feet import Feet
from ..limits import Limits
from ..samples.poses import Poses, keyed
from ..samples.rests import held_between, rests_of
from ..samples.turns import tops
from ..track import Track
from ..world import World
from .blocking import FEW, Posed, jumps_in_poses
from .case import Case

REGULAR = 8
"""Number of keys from which a regular beat is no accident: then the keys are samples, not the poses of a jump (ours).
"""
ALIKE = 0.8
"""Share of the gaps between keys that must be alike for the keys to be regular (ours)."""
STILL = 0.4
"""Most that a held level may vary, in smallest hops: 2 cm of the usual 5 (ours: a body at rest sways by less)."""


def cases_of(track: Track, poses: Poses, feet: Feet | None, world: World, limits: Limits) -> list[Case]:
    """Return every rise and fall that stands out, with what its witnesses may look at."""
    turns = tops(poses.heights, max(limits.smallest_hop, 6 * poses.noise))
    if not turns:
        return []
    flights: list[Flight | None] = [None] * len(turns)
    if poses.even:
        flights = flights_at(poses, turns, world.gravity, track.fps, keyed=keyed(track, poses))
    within = STILL * limits.smallest_hop + 4 * poses.noise
    keys = _telling(track)
    posed, step = _blocked(track, poses, world, limits, regular=keys is None)
    rests = rests_of(poses.frames, poses.heights, fps=track.fps, within=within)
    if keys is not None:
        rests += held_between(keys, poses.frames, poses.heights, fps=track.fps, within=within)
    f = poses.frames
    every, held, cases = tuple(turns), tuple(rests), []
    for index, (turn, flight) in enumerate(zip(turns, flights, strict=True)):
        mine = next((one for one in posed if f[turn.before] < one.apex < f[turn.after]), None)
        seen = (flight, mine, step, feet, track.follows)
        cases.append(Case(poses, index, every, held, keys, *seen, world.gravity, track.fps, limits))
    return cases


def _telling(track: Track) -> Array | None:
    """Keyed frames where they lie at uneven times, and so tell something."""
    keys = track.key_frames
    if keys is None or len(keys) < 4:
        return None
    return _uneven(keys.tobytes(), float(track.frames[0]), float(track.frames[-1]))


@lru_cache(maxsize=8)
def _uneven(numbers: bytes, first: float, last: float) -> Array | None:
    """Return the keys from the first frame to the last where they are uneven; they stay while values are dragged."""
    keys = np.frombuffer(numbers)
    keys = keys[(keys >= first) & (keys <= last)]
    gaps = keys[1:] - keys[:-1]
    even = len(gaps) == 0 or np.count_nonzero(gaps == median(gaps)) / len(gaps) >= ALIKE
    return None if even else keys


def _blocked(
    track: Track, poses: Poses, world: World, limits: Limits, *, regular: bool
) -> tuple[list[Posed], int]:
    """Return the jumps that few poses tell, and the frames that those are rounded to. regular: keys tell nothing."""
    step = max(world.step, 1)
    if poses.held:
        frames, heights = poses.frames, poses.heights
        step = poses.step if poses.even else step
    elif track.key_frames is not None:
        inside = (track.key_frames >= track.frames[0]) & (track.key_frames <= track.frames[-1])
        frames = track.key_frames[inside]
        if len(frames) >= REGULAR and regular:
            return [], step
        heights = np.interp(frames, track.frames, track.heights)
    else:
        return [], step
    if len(frames) < FEW + 1:
        return [], step
    return jumps_in_poses(frames, heights, limits), step
