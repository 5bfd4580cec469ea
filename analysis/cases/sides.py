"""Sides: both sides of a top, and the heights that its body may stand at there."""

from dataclasses import replace

import numpy as np

from ..arrays import Array
from ..contacts.bottom import NOISY
from ..contacts.flights import WORTH, FlightStretch
from ..limits import Limits
from ..samples.poses import Poses
from ..samples.rests import Rest
from ..samples.turns import Turn
from .course import Ascent
from .flank import Flank
from .flank_samples import FlankSamples

NEARBY = 3.0
"""Seconds: a rest this close to a jump tells the height that its body stands at (ours)."""
LIFTED = 0.1
"""Share of a jump's height by which a body may stay over where it stands when it crouches or lands: swinging limbs
carry its hips (the lift of drawn hips: `python -m tests.bench drawn --kinds limbs`)."""
SAG_ERRORS = 4.0
"""How far an arc sags from a straight line between two keys on a beat, in standard errors of their heights, from which
the keys tell more than the curve through them (ours: as far as they do on `python -m tests.bench drawn --kinds key`).
"""
SWAY = 6.0
"""Standard deviations of noise within which a level that is held is the bottom itself: what dips lowest of some tens
of samples at rest lies two to three under their mean, and so does what is held (ours)."""

Stands = tuple[float | None, float | None]
"""Meters that a body holds under a top, on one side: beside the jump, and beyond the next one; None where none is seen.
"""


def least_top(poses: Poses, turn: Turn, limits: Limits) -> float:
    """Return meters: what lies higher than half a smallest hop under the top is no level that a body rises from."""
    return float(poses.heights[turn.top]) - 0.5 * limits.smallest_hop


def sparse_keys(flight: FlightStretch | None, poses: Poses, turn: Turn, *, gravity: float, fps: float) -> Array | None:
    """Return frames and heights of the keys around a top, (2, k), where they tell more than the curve through them.

    Keys on a wide beat do: the curve leaves the arc between two of them by more than a hand is off. None elsewhere.
    gravity: m/s²; fps: frames per second.
    """
    if flight is None or not flight.poses.by_hand or flight.reach < WORTH:
        return None
    keys = flight.poses
    if gravity * (keys.beat / fps) ** 2 / 8.0 < SAG_ERRORS * keys.noise:
        return None
    first, last = poses.frames[[turn.before, turn.after]]
    there = slice(int(keys.frames.searchsorted(first)), int(keys.frames.searchsorted(last, side="right")))
    return np.stack((keys.frames[there], keys.heights[there]))


def sides_of(
    up: Ascent, down: Ascent, poses: Poses, *, keys: Array | None, over_ground: bool, least: float, fps: float
) -> tuple[Flank, Flank]:
    """Return the sides of a top: the one that it rises on, and with time reversed the one that it falls on.

    keys: as `sparse_keys` gives them; over_ground: as `is_over_ground` tells; least: as `least_top` gives it, meters;
    fps: frames per second.
    """
    own_up, own_down = _own_rests(up, poses.noise), _own_rests(down, poses.noise)
    of_up, of_down = _stands(up, own_up, least, fps), _stands(down, own_down, least, fps)
    back = None if keys is None else np.stack((-keys[0], keys[1]))[:, ::-1]
    rising = _flank(up, poses, of_up, of_down, keys, own=own_up, least=least)
    falling = _flank(down, poses, of_down, of_up, back, own=own_down, least=least)
    if over_ground:
        return rising, falling
    return replace(rising, over_ground=False), replace(falling, over_ground=False)


def _flank(
    here: Ascent,
    poses: Poses,
    own_side: Stands,
    other_side: Stands,
    keys: Array | None,
    *,
    own: list[Rest],
    least: float,
) -> Flank:
    starts, side = here.turn.before, slice(here.turn.before, here.turn.top + 1)
    frames, heights = here.course.frames[side].tolist(), here.course.heights[side].tolist()
    rested = max([rest.last - starts for rest in own if rest.first > starts and rest.end < least], default=0)
    samples, bottom, top = FlankSamples(frames, heights, keys, rested), heights[0], heights[-1]
    held = starts == 0 or len(own) < len(here.rests)
    if len(frames) == 2 and not poses.held and frames[1] - frames[0] <= 1.0:
        return Flank(samples, None, (), True, held)
    (beside, beyond), (across, far) = own_side, other_side
    lowest = bottom if starts == 0 else bottom - LIFTED * (top - bottom)
    # A level under the bottom is the bottom's: what hangs from the hips carries them over it.
    levels = (beside, beyond, far if across is None else across)
    stand, *elsewhere = [None if one is None or one < lowest else max(one, bottom) for one in levels]
    near = tuple([level for level in elsewhere if level is not None and samples.is_near(level)])
    # A seat that is left, or a crouch that is held, is no stand where the body is fastest about another level.
    is_seat = near and stand is not None and not samples.is_near(stand)
    return Flank(samples, None if is_seat else stand, near, starts == 0, held)


def _stands(way: Ascent, rests: list[Rest], least: float, fps: float) -> Stands:
    """Return what the body holds on a side, under the top; rests: those that are not its bottom.

    The highest of several, since a crouch is held too. Without any, the track's own end, if it is near and slow.
    """
    f, bottom = way.course.frames, way.turn.before
    if not way.rests and bottom and f[0] >= f[bottom] - NEARBY * fps:
        end = float(way.course.heights[0])
        return None, end if end < least and way.begins_slowly else None
    beside, beyond = None, None
    for level, last in [(rest.end, rest.last) for rest in rests if rest.end < least]:
        if last >= way.beside:
            beside = level if beside is None else max(beside, level)
        else:
            beyond = level if beyond is None else max(beyond, level)
    return beside, beyond


def _own_rests(way: Ascent, noise: float) -> list[Rest]:
    """Return what is held on a way that is not the bottom of it, as far as noise lets that be told."""
    bottom = way.turn.before
    rests = [rest for rest in way.rests if not rest.first <= bottom <= rest.last]
    if noise <= NOISY:
        return rests
    least = float(way.course.heights[bottom]) + SWAY * noise
    return [rest for rest in rests if rest.last < way.beside or rest.end > least]
