"""Placing: from new lengths of push, rise, fall and absorb to a time map, one event held where it is. Frames."""

import itertools
import math

import numpy as np

from ..arrays import Array
from ..audit import Audit
from ..errors import RetimeError
from ..jump import Jump
from ..time_map import TimeMap
from ..track import Track
from .aim import Aim
from .timing import SNAP, Frames

LEAST_STRETCH_SHARE = 0.5
"""Least share of its frames that a stretch keeps when it takes up what a jump gains (ours)."""
GROWTH = 3.0
"""Most that such a stretch grows to, as a multiple of its frames, where another one lies further on (ours)."""
BEFORE, AFTER = "before", "after"
"""Names of what lies before and after the jump and stays: not events of it."""


def placed(
    track: Track, audit: Audit, number: int, *, old: Frames, lengths: Frames, aim: Aim
) -> tuple[TimeMap, tuple[str, ...]]:
    """Return the time map that gives a jump's stretches new lengths, and the name of each of its anchors.

    old: the jump's anchors; number: the jump's place in the audit, from 0. Raises RetimeError where what lies
    before, or what is to stay after, has no room.
    """
    names, frames = list(old), list(old.values())
    new = list(itertools.accumulate(lengths.values(), initial=0.0))
    held = names.index(aim.hold if aim.hold in old else "takeoff")
    new = [frames[held] - new[held] + frame for frame in new]
    if new[0] != frames[0]:
        pin = _pin_before(track, audit, number, start=frames[0], moved=new[0])
        names, frames, new = [BEFORE, *names], [pin, *frames], [pin, *new]
    if not aim.ripple and new[-1] != frames[-1]:
        pin = _pin_after(track, audit, number, end=frames[-1], moved=new[-1])
        names, frames, new = [*names, AFTER], [*frames, pin], [*new, pin]
    return TimeMap(tuple(frames), tuple(new), step=audit.jumps[number].step, whole=aim.whole), tuple(names)


def _pin_before(track: Track, audit: Audit, number: int, *, start: float, moved: float) -> float:
    """Return the last frame before the jump that can stay, the way into the crouch taking up the difference."""
    limit = _last(audit.jumps[number - 1]) if number else -math.inf
    pin = _pin(-_keys(track)[::-1], start=-start, moved=-moved, limit=-limit)
    if pin is None:
        what = "after the jump before it" if number else "before the crouch"
        raise RetimeError(f"there is no room {what}: hold the crouch, and let what follows move")
    return -pin


def _pin_after(track: Track, audit: Audit, number: int, *, end: float, moved: float) -> float:
    """Return the first frame after the jump that can stay, the settling before it taking up the difference."""
    later = audit.jumps[number + 1 :]
    pin = _pin(_keys(track), start=end, moved=moved, limit=_first(later[0]) if later else math.inf)
    if pin is None:
        room = "before the next jump " if later else ""
        raise RetimeError(f"there is no room {room}for what follows to stay: let it move along")
    return pin


def _pin(keys: Array, *, start: float, moved: float, limit: float) -> float | None:
    """Return the first key past start, up to a limit, whose stretch keeps its share though start moves; None: no such.

    Rather one that grows little, or that grows least: a drawn curve would stand still in it.
    """
    later = keys[(keys > start) & (keys <= limit + SNAP)]
    if not (keys > start).any():
        # Nothing of the track follows: whatever else is keyed stays a stretch further on.
        return float(math.ceil(start + abs(moved - start) / LEAST_STRETCH_SHARE))
    shares = (later - moved) / (later - start)
    roomy = np.flatnonzero(shares >= LEAST_STRETCH_SHARE)
    even = roomy[shares[roomy] <= GROWTH]
    return float(later[even[0] if len(even) else roomy[shares[roomy].argmin()]]) if len(roomy) else None


def _keys(track: Track) -> Array:
    return track.frames if track.key_frames is None else track.key_frames


def _first(jump: Jump) -> float:
    return (jump.crouch or jump.takeoff).frame


def _last(jump: Jump) -> float:
    return (jump.absorbed or jump.landing).frame
