"""Jumps read off keyed poses: where few poses make a jump, the poses themselves are its events.

An animator who blocks a jump keys its takeoff, and perhaps a breakdown, between the lowest pose and the highest. Then
the keys tell the events better than any curve between them.
"""

import math
from dataclasses import dataclass
from itertools import pairwise

from ..arrays import Array
from ..beat import ROUNDING
from ..limits import Limits
from ..samples.turns import Turn, tops
from .ground import is_ground, popped_share

FEW_POSES = 2
"""Most poses between crouch and apex with which we take the poses for the events."""
OUTERMOST = 12.0
"""Nats that a pair of contacts gains where the time between them is all of the time from bottom to bottom (ours)."""
SKEWED = 0.02
"""Weight of a rise and a fall that ask for different gravities, where that of two that agree is 1: an arc may be drawn
with its apex early or late (ours)."""
BY_EYE = 0.03
"""Standard deviation of the height of a pose that is set by eye, as a share of the jump's rise from bottom to top.
Poses that differ by less count as one height, a moving hold (ours)."""
EASED = 0.5
"""Share of stands left whose breakdowns lie on a curve that eases out of them, rather than on the arc (ours)."""
ABOVE = 0.25
"""Least height of an apex over the poses at rest around it, as a share of the jump's height."""


@dataclass(frozen=True, slots=True)
class Posed:
    """A jump that few poses make; its events are frames of keys.

    crouch               the last pose at the bottom of the way up; a takeoff too, where the body may stand there
    takeoffs, landings   (frame, probability) of the keys that may be the contact, by the poses alone
    absorbed             the first pose at the bottom of the way down; the landing itself, where the body is lowest then
    height               meters from the likeliest takeoff to the apex
    """

    crouch: float
    takeoffs: tuple[tuple[float, float], ...]
    apex: float
    landings: tuple[tuple[float, float], ...]
    absorbed: float
    height: float

    @property
    def is_popped(self) -> bool:
        """Whether the body most likely leaves the ground from where it stands, without a crouch."""
        return dict(self.takeoffs).get(self.crouch, 0.0) > 0.5


@dataclass(frozen=True, slots=True)
class _Side:
    """One side of a top in poses: the bottom, the poses strictly between it and the top, and whether it is a stand."""

    bottom: int
    between: tuple[int, ...]
    is_stand: bool


def jumps_in_poses(frames: Array, heights: Array, limits: Limits) -> list[Posed]:
    """Find the jumps whose few poses are the events.

    frames, heights: (k,) keyed frames and the heights there, meters. This does not ask whether a jump can have that
    pace.
    """
    found = []
    turns = tops(heights, limits.smallest_hop)
    bounds = [0, *[turn.top for turn in turns], len(frames) - 1]
    f, z = frames.tolist(), heights.tolist()
    for top, first, last in zip(turns, bounds[:-2], bounds[2:], strict=True):
        before, after = _sides(z, top, first, last)
        is_left = bool(before.between) or (before.is_stand and _may_pop(z[before.bottom], z[top.top]))
        if not is_left or len(before.between) > FEW_POSES or len(after.between) > FEW_POSES + 1:
            continue
        pairs = _pairs(f, z, top.top, before, after)
        takeoff, _ = max(pairs, key=pairs.__getitem__)
        height, rests = z[top.top] - z[takeoff], _rests(z, before.bottom, after.bottom, first, last)
        if height >= limits.smallest_hop and all([z[top.top] >= rest + ABOVE * height for rest in rests]):
            found.append(_posed(f, top.top, before, after, pairs, height))
    return found


def _posed(
    f: list[float], top: int, before: _Side, after: _Side, pairs: dict[tuple[int, int], float], height: float
) -> Posed:
    total = sum(pairs.values())
    takeoffs: dict[int, float] = {}
    landings: dict[int, float] = {}
    for (left, met), weight in pairs.items():
        takeoffs[left] = takeoffs.get(left, 0.0) + weight / total
        landings[met] = landings.get(met, 0.0) + weight / total
    return Posed(
        f[before.bottom],
        tuple([(f[i], share) for i, share in takeoffs.items()]),
        f[top],
        tuple([(f[i], share) for i, share in landings.items()]),
        f[after.bottom],
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
    under = z[top.top] - level
    rising = tuple([i for i in range(start + 1, top.top) if z[i] < under])
    falling = tuple([i for i in range(top.top + 1, end) if z[i] < under])
    is_left, is_met = _stands(z[first : start + 1], z[top.top]), _stands(z[end : last + 1][::-1], z[top.top])
    return _Side(start, rising, is_left), _Side(end, falling, is_met)


def _stands(z: list[float], top: float) -> bool:
    """Tell whether a body may leave the ground from the last of these poses: it is held and none of them is higher, or
    it is the ground and none that is held is higher.
    """
    near = BY_EYE * (top - z[-1])
    if is_ground(z[-1], top):
        return all(abs(b - a) > near or b <= z[-1] + near for a, b in pairwise(z))
    return len(z) > 1 and abs(z[-1] - z[-2]) <= near and max(z) <= z[-1] + near


def _may_pop(bottom: float, top: float) -> bool:
    """Tell whether a body rather leaves the ground from a bottom than crouches there and leaves it half way up, where
    no pose tells.
    """
    return popped_share(bottom, 0.5 * (bottom + top)) >= 0.5


def _foot(z: list[float]) -> int:
    """Return the index at which the last rise to the end of a way begins: where it dips several times, from the last
    dip.

    Poses as high as the end, as far as an eye can tell, belong to the hold of the top.
    """
    i, highest = len(z) - 2, z[-1] - BY_EYE * (z[-1] - min(z))
    while i > 0 and (z[i] >= highest or z[i - 1] < z[i]):
        i -= 1
    near = BY_EYE * (z[-1] - z[i])
    while i < len(z) - 2 and z[i + 1] <= z[i] + near:
        i += 1
    return i


def _pairs(f: list[float], z: list[float], top: int, before: _Side, after: _Side) -> dict[tuple[int, int], float]:
    """Return the weight of each pair of takeoff and landing by the poses: the more, the better the gravities that its
    rise and its fall ask for agree.

    Every pose on the arc asks for the same gravity, so of the pairs that agree the outermost one lies on the ground.
    """
    takeoffs, landings = _places(f, z, top, before), _places(f, z, top, after)
    first, last = (before.between or (before.bottom,))[0], (after.between or (after.bottom,))[-1]
    eye = BY_EYE * (z[top] - min(z[before.bottom], z[after.bottom]))
    apex = _apex_error(f[before.bottom : after.bottom + 1], z[before.bottom : after.bottom + 1], f[top], 2 * eye)
    weights = {}
    for a, left in takeoffs.items():
        for b, met in landings.items():
            off = math.log(_gravity(f, z, a, top) / _gravity(f, z, b, top))
            up, down = 1 / (f[top] - f[a]), 1 / (f[b] - f[top])
            doubts = 2 * apex * (up + down), eye / max(z[top] - z[a], eye), eye / max(z[top] - z[b], eye)
            outer = (f[min(b, last)] - f[max(a, first)]) / (f[after.bottom] - f[before.bottom])
            agreed = SKEWED + math.exp(-0.5 * (off / math.hypot(*doubts)) ** 2)
            weights[a, b] = math.exp(left + met + OUTERMOST * outer) * agreed
    return weights


def _places(f: list[float], z: list[float], top: int, side: _Side) -> dict[int, float]:
    """Return the poses that may be the contact of a side, with nats for each; a stand may, where the others lie on its
    arc.
    """
    if not side.is_stand or not side.between:
        return dict.fromkeys(side.between or (side.bottom,), 0.0)
    rise, seconds, on_arc = z[top] - z[side.bottom], f[top] - f[side.bottom], 1.0
    for i in side.between:
        left = (f[top] - f[i]) / seconds
        error = rise * math.hypot(BY_EYE, 2.0 * left * (1.0 - left) / seconds * ROUNDING)
        off = (z[top] - z[i] - rise * left**2) / error
        # A pose that is not on the arc may lie anywhere between bottom and top, each place as likely.
        on_arc *= rise / (error * math.sqrt(2.0 * math.pi)) * math.exp(-0.5 * off**2)
    share = popped_share(z[side.bottom], z[side.between[0]])
    popped = math.log(share / (1.0 - share) * (EASED + (1.0 - EASED) * on_arc))
    return dict.fromkeys(side.between, 0.0) | {side.bottom: popped}


def _apex_error(f: list[float], z: list[float], top: float, within: float) -> float:
    """Return the standard error of the top, frames: it is rounded, and any pose that is lower by less than `within`
    meters may be the top.
    """
    least = max(z) - within
    away = max([abs(frame - top) for frame, height in zip(f, z, strict=True) if height >= least])
    return math.hypot(ROUNDING, away / 3**0.5)


def _gravity(f: list[float], z: list[float], contact: int, top: int) -> float:
    return max(2 * (z[top] - z[contact]), 1e-6) / (f[top] - f[contact]) ** 2


def _rests(z: list[float], crouch: int, absorbed: int, first: int, last: int) -> list[float]:
    """Return the heights at rest next to the jump: held poses and the ends of the track, up to the tops beside the
    jump.
    """
    before = [z[i] for i in range(first, crouch - 1) if abs(z[i + 1] - z[i]) <= 1e-4]
    after = [z[i] for i in range(absorbed + 1, last) if abs(z[i + 1] - z[i]) <= 1e-4]
    rests = before[-1:] or ([z[0]] if 0 == first < crouch else [])
    return rests + (after[:1] or ([z[-1]] if absorbed < last == len(z) - 1 else []))
