"""The cases of a track: every rise and fall that stands out, with what its witnesses may look at."""

from functools import lru_cache

import numpy as np

from ..arrays import Array, median
from ..contacts.flights import FlightStretch, flights_at
from ..feet import Feet
from ..limits import Limits
from ..samples.poses import Poses, is_even, keyed, keyed_samples, keys_within
from ..samples.rests import held_between, rests_of
from ..samples.turns import tops
from ..track import Track
from ..world import World
from .blocking import Posed, jumps_in_poses
from .case import Case
from .course import Course, ascent_to
from .ground import is_over_ground
from .sides import NEARBY, least_top, sides_of, sparse_keys

REGULAR = 8
"""Number of keys from which a regular beat does not come by chance: the keys are samples then, not the poses of a jump
(ours)."""
REGULAR_KEYS_SHARE = 0.8
"""Share of the gaps between keys that must be alike for the keys to be regular. In a blocked shot whose poses are set
on a beat, some 60 % of the gaps may be alike (ours)."""
HELD_LEVEL_HOPS = 0.4
"""Most that a held level may vary, in smallest hops: with the usual hop of 5 cm this is 2 cm (ours: a body at rest
sways by less)."""


def cases_of(track: Track, poses: Poses, feet: Feet | None, world: World, limits: Limits) -> list[Case]:
    """Return every rise and fall that stands out, with what its witnesses may look at."""
    turns = tops(poses.heights, max(limits.smallest_hop, 6 * poses.noise))
    if not turns:
        return []
    flights: list[FlightStretch | None] = [None] * len(turns)
    if poses.even:
        flights = flights_at(poses, turns, world.gravity, track.fps, keyed=keyed(track, poses))
    within = HELD_LEVEL_HOPS * limits.smallest_hop + 4 * poses.noise
    keys = keys_within(track)
    uneven = keys is not None and len(keys) > 1 and _uneven(keys.tobytes())
    f = poses.frames
    spans = [(float(f[turn.before]), float(f[turn.after])) for turn in turns]
    regular = [False] * len(turns)
    if keys is not None and not uneven and len(keys) >= REGULAR:
        beat = median(keys[1:] - keys[:-1])
        regular = [not _off_beat(keys, beat, *span) for span in spans]
    posed, step = _blocked(track, poses, world, limits, regular=all(regular))
    rests = rests_of(poses.frames, poses.heights, fps=track.fps, within=within)
    if keys is not None and uneven:
        rests += held_between(keys, poses.frames, poses.heights, fps=track.fps, within=within)
    cases = []
    course = Course(f, poses.heights, tuple(turns), tuple(rests), poses.held)
    back, near, over = course.backward, NEARBY * track.fps, is_over_ground(track)
    seen_at = enumerate(zip(turns, flights, spans, regular, strict=True))
    for index, (turn, flight, (first, last), on_beat) in seen_at:
        telling = keys if keys is not None and (uneven or len(keys) >= REGULAR) and not on_beat else None
        few = poses.held or not on_beat
        mine = next((one for one in posed if few and first < one.apex < last), None)
        up, down = ascent_to(course, index, near), ascent_to(back, len(turns) - 1 - index, near)
        sparse = None if telling is not None else sparse_keys(flight, poses, turn, gravity=world.gravity, fps=track.fps)
        least = least_top(poses, turn, limits)
        rising, falling = sides_of(up, down, poses, keys=sparse, over_ground=over, least=least, fps=track.fps)
        sides, seen, told = (course, (up, down), rising, falling), (telling, flight, mine), (step, feet, track.follows)
        cases.append(Case(poses, index, *sides, *seen, *told, world.gravity, track.fps, limits))
    return cases


@lru_cache(maxsize=8)
def _uneven(numbers: bytes) -> bool:
    """Tell whether the keys lie at uneven times, and so tell something. Kept, since times stay while values are
    dragged.
    """
    keys = np.frombuffer(numbers)
    return not is_even(keys[1:] - keys[:-1], REGULAR_KEYS_SHARE)


def _off_beat(keys: Array, beat: float, first: float, last: float) -> bool:
    """Tell whether keys on a regular beat leave that beat between two frames, as those of a jump amid a walk do."""
    here = keys[keys.searchsorted(first) : keys.searchsorted(last, side="right")]
    gaps = here[1:] - here[:-1]
    return bool(np.count_nonzero(gaps == beat) < REGULAR_KEYS_SHARE * len(gaps))


def _blocked(track: Track, poses: Poses, world: World, limits: Limits, *, regular: bool) -> tuple[list[Posed], int]:
    """Return the jumps that few poses make, and the step in frames that these poses are rounded to.

    regular: all keys keep one beat.
    """
    step = max(world.step, 1)
    keys = keys_within(track)
    if poses.held:
        frames, heights = poses.frames, poses.heights
        step = poses.step if poses.even else step
        if keys is not None and len(keys) < len(frames):
            # On a beat, a pose that is held for longer is sampled more than once; it still counts as one pose.
            at = keyed_samples(track.frames, keys)
            frames, heights = track.frames[at], track.heights[at]
    else:
        if keys is None or regular or len(keys) >= len(track.frames):
            return [], step
        at = keyed_samples(track.frames, keys)
        on_samples = len(at) == len(keys)
        frames, heights = keys, track.heights[at] if on_samples else np.interp(keys, track.frames, track.heights)
    return jumps_in_poses(frames, heights, limits), step
