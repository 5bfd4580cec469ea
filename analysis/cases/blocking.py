"""Jumps read off keyed poses: where few poses make a jump, the poses themselves are its events.

An animator who blocks keys the takeoff, and perhaps a breakdown, between the lowest pose and the highest. Then the keys
say better than any curve between them where the events lie.
"""

import math
from dataclasses import dataclass

import numpy as np

from ..arrays import Array
from ..beat import ROUNDING
from ..limits import Limits
from ..samples.turns import Turn, tops
from .flank import POPPED_SHARE

FEW_POSES = 2
"""Poses between crouch and apex up to which the poses are the events."""
OUTERMOST = 12.0
"""Nats that a pair of contacts gains where it takes up all of the time from bottom to bottom (ours)."""
SKEWED = 0.02
"""Weight of a rise and a fall that ask for unlike gravities, against 1 of two that agree: an arc may be drawn with its
apex early or late (ours)."""
BY_EYE = 0.03
"""Share of a jump's rise from bottom to top by which a pose set by eye is off, one standard deviation; poses that lie
within it count as one height, a moving hold (ours)."""
ABOVE = 0.25
"""Share of the jump's height by which an apex must lie above the poses at rest around it."""


@dataclass(frozen=True, slots=True)
class Posed:
    """A jump as few poses tell it: frames of keys.

    crouch               None where the body leaves the ground from where it stands
    takeoffs, landings   keys that may be the contact, each with how likely it is from the poses alone
    absorbed             None where the body meets the ground at its lowest
    height               meters from the likeliest takeoff to the apex
    """

    crouch: float | None
    takeoffs: tuple[tuple[float, float], ...]
    apex: float
    landings: tuple[tuple[float, float], ...]
    absorbed: float | None
    height: float


@dataclass(frozen=True, slots=True)
class _Side:
    """One side of a top in poses: the bottom, the poses strictly between bottom and top, and whether it is a stand."""

    bottom: int
    between: tuple[int, ...]
    is_stand: bool


def jumps_in_poses(frames: Array, heights: Array, limits: Limits) -> list[Posed]:
    """Find the jumps whose few poses are the events.

    frames, heights: (k,) keyed frames and the heights there, meters. Whether their pace can be a jump's is not asked.
    """
    found = []
    turns = tops(heights, limits.smallest_hop)
    bounds = [0, *(turn.top for turn in turns), len(frames) - 1]
    f, z = frames.tolist(), heights.tolist()
    for top, first, last in zip(turns, bounds[:-2], bounds[2:], strict=True):
        before, after = _sides(z, top, first, last)
        is_left = bool(before.between) or before.is_stand
        if not is_left or len(before.between) > FEW_POSES or len(after.between) > FEW_POSES + 1:
            continue
        pairs = _pairs(f, z, top.top, before, after)
        takeoff, _ = max(pairs, key=pairs.__getitem__)
        height, rests = z[top.top] - z[takeoff], _rests(heights, before.bottom, after.bottom, first, last)
        if height >= limits.smallest_hop and all(z[top.top] >= rest + ABOVE * height for rest in rests):
            found.append(_posed(f, top.top, before, after, pairs, height))
    return found


def _posed(
    f: list[float], top: int, before: _Side, after: _Side, pairs: dict[tuple[int, int], float], height: float
) -> Posed:
    total = sum(pairs.values())
    takeoffs: dict[int, float] = {}
    landings: dict[int, float] = {}
    for pair, weight in pairs.items():
        for index, shares in zip(pair, (takeoffs, landings), strict=True):
            shares[index] = shares.get(index, 0.0) + weight / total
    absorbed = None if landings.get(after.bottom, 0.0) > 0.5 else f[after.bottom]
    return Posed(
        None if takeoffs.get(before.bottom, 0.0) > 0.5 else f[before.bottom],
        tuple((f[i], share) for i, share in takeoffs.items()),
        f[top],
        tuple((f[i], share) for i, share in landings.items()),
        absorbed,
        height,
    )


def _sides(z: list[float], top: Turn, first: int, last: int) -> tuple[_Side, _Side]:
    """Return both sides of a top: the crouch is the last pose at the bottom of the way up, the absorb the first one.

    first, last: the tops beside it.
    """
    start = _foot(z[top.before : top.top + 1])
    end = _foot(z[top.top : top.after + 1][::-1])
    start, end = top.before + start, top.after - end
    level = BY_EYE * (z[top.top] - max(z[start], z[end]))
    rising = tuple(i for i in range(start + 1, top.top) if z[i] < z[top.top] - level)
    falling = tuple(i for i in range(top.top + 1, end) if z[i] < z[top.top] - level)
    is_left, is_met = (_stands(way, z[top.top]) for way in (z[first : start + 1], z[end : last + 1][::-1]))
    return _Side(start, rising, is_left), _Side(end, falling, is_met)


def _stands(z: list[float], top: float) -> bool:
    """Tell whether the last of these poses is held, and none of them higher: a body leaves the ground from there."""
    near = BY_EYE * (top - z[-1])
    return len(z) > 1 and abs(z[-1] - z[-2]) <= near and max(z) <= z[-1] + near


def _foot(z: list[float]) -> int:
    """Return the index at which the last rise up to the end of a way sets in: of several dips the nearest.

    What lies as high as its end, within what an eye can tell, is the top's own hold.
    """
    i, highest = len(z) - 2, z[-1] - BY_EYE * (z[-1] - min(z))
    while i > 0 and (z[i] >= highest or z[i - 1] < z[i]):
        i -= 1
    near = BY_EYE * (z[-1] - z[i])
    while i < len(z) - 2 and z[i + 1] <= z[i] + near:
        i += 1
    return i


def _pairs(f: list[float], z: list[float], top: int, before: _Side, after: _Side) -> dict[tuple[int, int], float]:
    """Tell how likely each takeoff and landing is from the poses: those whose rise and fall ask for one gravity.

    Every pose on the arc asks for its gravity, so that of pairs that agree the outermost is the ground's.
    """
    takeoffs, landings = _places(f, z, top, before), _places(f, z, top, after)
    first, last = ((side.between or (side.bottom,))[at] for side, at in ((before, 0), (after, -1)))
    eye = BY_EYE * (z[top] - min(z[before.bottom], z[after.bottom]))
    apex = _apex_error(f[before.bottom : after.bottom + 1], z[before.bottom : after.bottom + 1], f[top], 2 * eye)
    weights = {}
    for a, left in takeoffs.items():
        for b, met in landings.items():
            off = math.log(_gravity(f, z, a, top) / _gravity(f, z, b, top))
            up, down = 1 / (f[top] - f[a]), 1 / (f[b] - f[top])
            heights = [eye / max(z[top] - z[contact], eye) for contact in (a, b)]
            doubts = [2 * apex * (up + down), *heights]
            outer = (f[min(b, last)] - f[max(a, first)]) / (f[after.bottom] - f[before.bottom])
            agreed = SKEWED + math.exp(-0.5 * (off / math.hypot(*doubts)) ** 2)
            weights[a, b] = math.exp(left + met + OUTERMOST * outer) * agreed
    return weights


def _places(f: list[float], z: list[float], top: int, side: _Side) -> dict[int, float]:
    """Return the poses that may be the contact of a side, and nats for each: a stand, where the rest lie on its arc."""
    if not side.is_stand or not side.between:
        return dict.fromkeys(side.between or (side.bottom,), 0.0)
    rise, seconds = z[top] - z[side.bottom], f[top] - f[side.bottom]
    popped = math.log(POPPED_SHARE / (1.0 - POPPED_SHARE))
    for i in side.between:
        left = (f[top] - f[i]) / seconds
        error = rise * math.hypot(BY_EYE, 2.0 * left * (1.0 - left) / seconds * ROUNDING)
        off = (z[top] - z[i] - rise * left**2) / error
        # Any pose is as likely anywhere between bottom and top, if it is not of the arc.
        popped += math.log(rise / (error * math.sqrt(2.0 * math.pi))) - 0.5 * off**2
    return dict.fromkeys(side.between, 0.0) | {side.bottom: popped}


def _apex_error(f: list[float], z: list[float], top: float, within: float) -> float:
    """Return the frames that the top is unsure by: rounded, and each of the poses nearly as high (meters) may be it."""
    least = max(z) - within
    away = max(abs(frame - top) for frame, height in zip(f, z, strict=True) if height >= least)
    return math.hypot(ROUNDING, away / 3**0.5)


def _gravity(f: list[float], z: list[float], contact: int, top: int) -> float:
    return max(2 * (z[top] - z[contact]), 1e-6) / (f[top] - f[contact]) ** 2


def _rests(z: Array, crouch: int, absorbed: int, first: int, last: int) -> list[float]:
    """Return heights at rest next to the jump: the track's ends, and poses held, no further than the tops beside it."""
    same = np.abs(z[1:] - z[:-1]) <= 1e-4
    before, after = same[first : max(crouch - 1, first)].nonzero()[0], same[absorbed + 1 : last].nonzero()[0]
    rests = []
    if len(before) or 0 == first < crouch:
        rests.append(float(z[first + before[-1]] if len(before) else z[0]))
    if len(after) or absorbed < last == len(z) - 1:
        rests.append(float(z[absorbed + 1 + after[0]] if len(after) else z[-1]))
    return rests
