"""Jumps read off keyed poses: where few poses make a jump, the poses themselves are its events.

An animator who blocks keys the takeoff, and perhaps a breakdown, between the lowest pose and the highest. Then the keys
say better than any curve between them where the events lie.
"""

from dataclasses import dataclass

import numpy as np

from ..arrays import Array
from ..limits import Limits
from ..samples.turns import Turn, tops

ROUNDING = 1 / 12**0.5
"""Standard deviation, in steps, of a time rounded to whole steps: uniform over one of them."""
FEW = 2
"""Poses between crouch and apex up to which the poses are the events."""
SAME = 0.03
"""Share of the swing within which two poses count as one height: a moving hold."""
OUTERMOST = 12.0
"""Nats that a pair of contacts gains where it takes up all of the time from bottom to bottom (ours)."""
ABOVE = 0.25
"""Share of the jump's height by which an apex must lie above the poses at rest around it."""


@dataclass(frozen=True, slots=True)
class Posed:
    """A jump as few poses tell it: frames of keys.

    takeoffs, landings   keys that may be the contact, each with how likely it is from the poses alone
    absorbed             None where the body meets the ground at its lowest
    height               meters from the likeliest takeoff to the apex
    """

    crouch: float
    takeoffs: tuple[tuple[float, float], ...]
    apex: float
    landings: tuple[tuple[float, float], ...]
    absorbed: float | None
    height: float


@dataclass(frozen=True, slots=True)
class _Side:
    """One side of a top in poses: the bottom, and the poses strictly between bottom and top."""

    bottom: int
    between: tuple[int, ...]


def jumps_in_poses(frames: Array, heights: Array, fps: float, gravity: float, limits: Limits) -> list[Posed]:
    """Find the jumps whose few poses are the events.

    frames, heights: (k,) keyed frames and the heights there, meters; gravity: m/s².
    """
    found = []
    for top in tops(heights, limits.smallest_hop):
        before, after = _sides(heights, top)
        if not 1 <= len(before.between) <= FEW or len(after.between) > FEW + 1:
            continue
        pairs = _pairs(frames, heights, top.top, before, after)
        takeoff, landing = max(pairs, key=pairs.__getitem__)
        if _is_jump(frames, heights, top, (before.bottom, takeoff, landing, after.bottom), fps, gravity, limits):
            height = float(heights[top.top] - heights[takeoff])
            found.append(_posed(frames, top.top, before, after, pairs, height))
    return found


def _posed(
    f: Array, top: int, before: _Side, after: _Side, pairs: dict[tuple[int, int], float], height: float
) -> Posed:
    total = sum(pairs.values())
    takeoffs: dict[int, float] = {}
    landings: dict[int, float] = {}
    for pair, weight in pairs.items():
        for index, shares in zip(pair, (takeoffs, landings), strict=True):
            shares[index] = shares.get(index, 0.0) + weight / total
    absorbed = None if after.bottom in landings else float(f[after.bottom])
    return Posed(
        float(f[before.bottom]),
        tuple((float(f[i]), share) for i, share in takeoffs.items()),
        float(f[top]),
        tuple((float(f[i]), share) for i, share in landings.items()),
        absorbed,
        height,
    )


def _sides(z: Array, top: Turn) -> tuple[_Side, _Side]:
    """Return both sides of a top: the crouch is the last pose at the bottom, the absorb the first one."""
    near = SAME * (z[top.top] - z[top.before])
    start = top.top - 1
    lowest = z[top.before : top.top].min()
    while start > top.before and z[start] > lowest + near:
        start -= 1
    near = SAME * (z[top.top] - z[top.after])
    end = top.top + 1
    lowest = z[top.top + 1 : top.after + 1].min()
    while end < top.after and z[end] > lowest + near:
        end += 1
    level = SAME * (z[top.top] - max(z[start], z[end]))
    rising = tuple(i for i in range(start + 1, top.top) if z[i] < z[top.top] - level)
    falling = tuple(i for i in range(top.top + 1, end) if z[i] < z[top.top] - level)
    return _Side(start, rising), _Side(end, falling)


def _pairs(f: Array, z: Array, top: int, before: _Side, after: _Side) -> dict[tuple[int, int], float]:
    """Tell how likely each takeoff and landing is from the poses: those whose rise and fall ask for one gravity.

    Every pose on the arc asks for its gravity, so that of pairs that agree the outermost is the ground's.
    """
    landings = after.between or (after.bottom,)
    weights = {}
    for a in before.between:
        for b in landings:
            off = abs(np.log(_gravity(f, z, a, top) / _gravity(f, z, b, top)))
            doubt = 2 * ROUNDING * np.hypot(1 / (f[top] - f[a]), 1 / (f[b] - f[top]))
            outer = (f[b] - f[a]) / (f[after.bottom] - f[before.bottom])
            weights[a, b] = float(np.exp(OUTERMOST * outer - 0.5 * (off / doubt) ** 2))
    return weights if any(weights.values()) else dict.fromkeys(weights, 1.0)


def _gravity(f: Array, z: Array, contact: int, top: int) -> float:
    return max(2 * (z[top] - z[contact]), 1e-6) / (f[top] - f[contact]) ** 2


def _is_jump(
    f: Array, z: Array, top: Turn, at: tuple[int, int, int, int], fps: float, gravity: float, limits: Limits
) -> bool:
    crouch, takeoff, landing, absorbed = at
    apex = float(z[top.top])
    height = apex - float(z[takeoff])
    if height < limits.smallest_hop:
        return False
    airtime = f[landing] - f[takeoff]
    drop = apex - float(z[landing])
    real = (np.sqrt(2 * height / gravity) + np.sqrt(2 * max(drop, 0.0) / gravity)) * fps
    if not limits.slowest_pace <= real / max(airtime - 1, 0.5) or real / (airtime + 1) > limits.fastest_pace:
        return False
    return all(apex >= rest + ABOVE * height for rest in _rests(z, top, crouch, absorbed))


def _rests(z: Array, top: Turn, first: int, last: int) -> list[float]:
    """Return heights at rest next to the jump: the track's ends and poses held for another."""
    rests = []
    same = np.abs(np.diff(z)) <= 1e-4
    before, after = same[: max(first - 1, 0)], same[last + 1 :]
    if top.before <= first and first > 0:
        held = np.flatnonzero(before)
        rests.append(float(z[held[-1]] if len(held) else z[0]))
    if last < len(z) - 1:
        held = np.flatnonzero(after)
        rests.append(float(z[last + 1 + held[0]] if len(held) else z[-1]))
    return rests
