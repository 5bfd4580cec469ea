"""Case: one rise and fall that stands out, and all that its witnesses may look at."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

from ..arrays import Array
from ..contacts.bobs import against_a_bob
from ..contacts.flights import Flight
from ..feet import Feet
from ..limits import Limits
from ..samples.poses import Poses
from ..samples.rests import Rest
from ..samples.turns import Turn
from ..track import Followed
from .blocking import Posed

NEARBY = 3.0
"""Seconds: a rest this close to a jump tells the height that its body stands at (ours)."""


@dataclass(frozen=True, eq=False)
class Case:
    """One rise and fall.

    poses     the samples of the track that count
    index     which of the track's turns it is
    turns     all of them: a top, and the lowest samples beside it (indices of poses)
    rests     the levels that the track holds, indices of poses
    keys      (k,) keyed frames, where they are not one a frame; None: not known, or they tell nothing
    flight    the parabola that it follows around its top, None without one
    posed     its events as keyed, where few poses tell them; step: frames that its poses are rounded to
    feet      None without feet
    follows   what the point is to the body
    gravity   m/s² of the world; fps: frames per second
    """

    poses: Poses
    index: int
    turns: tuple[Turn, ...]
    rests: tuple[Rest, ...]
    keys: Array | None
    flight: Flight | None
    posed: Posed | None
    step: int
    feet: Feet | None
    follows: Followed
    gravity: float
    fps: float
    limits: Limits

    @property
    def turn(self) -> Turn:
        """Its top, and the lowest samples beside it."""
        return self.turns[self.index]

    @cached_property
    def rising(self) -> "Flank":
        """The way up, in order of time."""
        return _flank(self, self._before, self._after)

    @cached_property
    def falling(self) -> "Flank":
        """The way down, with time reversed."""
        return _flank(self, self._after, self._before)

    @cached_property
    def against_a_bob(self) -> float | None:
        """Nats for the flight's contacts against a smooth bob; None where they cannot be compared."""
        if self.flight is None:
            return None
        return against_a_bob(self.flight, self.poses.frames, self.poses.heights, noise=self.poses.noise)

    @property
    def least_top(self) -> float:
        """Meters: what lies higher than half a smallest hop under the top is no level that the case rises from."""
        return float(self.poses.heights[self.turn.top]) - 0.5 * self.limits.smallest_hop

    @cached_property
    def stays_under(self) -> bool:
        """Whether on a side the body rests nowhere under the top, but next to it where the top is, or higher."""
        ways = self._before, self._after
        sides = [[rest.end for rest in way.rests if rest.last >= way.beside] for way in ways]
        if self.rests and not any(way.rests for way in ways):
            # A body that squats for long keeps the height that it was last seen to stand at.
            sides = [[min(self.rests, key=lambda rest: abs(rest.first - self.turn.top)).end]]
        return any(levels and min(levels) >= self.least_top for levels in sides)

    @cached_property
    def _before(self) -> "_Way":
        beside = self.turns[self.index - 1].top if self.index else 0
        return _way(self, self.poses.frames, self.poses.heights, self.turn, beside, self.rests)

    @cached_property
    def _after(self) -> "_Way":
        last, turn, following = len(self.poses.frames) - 1, self.turn, self.turns[self.index + 1 :]
        turn = Turn(last - turn.after, last - turn.top, last - turn.before)
        beside = last - following[0].top if following else 0
        rests = [Rest(last - rest.last, last - rest.first, rest.end, rest.start) for rest in self.rests]
        return _way(self, -self.poses.frames[::-1], self.poses.heights[::-1], turn, beside, rests)


@dataclass(frozen=True, eq=False)
class Flank:
    """One side of a top, ground first.

    frames, heights   (n,) from the bottom to the top, both in; of a landing with time reversed
    stand             meters that the body stands at on this side, None where that is not seen
    elsewhere         where it is not: the levels that it stands at beyond its next jump, and on the other side
    """

    frames: Array
    heights: Array
    stand: float | None
    elsewhere: tuple[float, ...]

    @cached_property
    def assumed(self) -> float | None:
        """Meters that the body most likely stands at on this side, None where that is seen nowhere."""
        return next(iter(self.levels), None)

    @cached_property
    def levels(self) -> tuple[float, ...]:
        """All levels that it may stand at on this side, the likeliest first."""
        return self.elsewhere if self.stand is None else (self.stand,)

    @property
    def bottom(self) -> float:
        """Height of the bottom, meters."""
        return float(self.heights[0])

    @property
    def top(self) -> float:
        """Height of the top, meters."""
        return float(self.heights[-1])

    def crossing(self, height: float) -> tuple[float, float] | None:
        """Tell where the way up last passes a height: frame, and meters a frame there; None where it does not."""
        under = (self.heights < height).nonzero()[0]
        if not len(under) or under[-1] == len(self.heights) - 1:
            return None
        i = int(under[-1])
        f, z = self.frames, self.heights
        speed = float((z[i + 1] - z[i]) / (f[i + 1] - f[i]))
        return float(f[i]) + (height - float(z[i])) / speed, speed


class _Way(NamedTuple):
    """A track as a side of a top sees it: up to the takeoff as it is, back to the landing with time reversed.

    frames, heights   (n,) of all samples
    turn              the top, and the bottoms of this side and of the other
    beside            index of the next top on this side, 0 without one
    rests             the levels that it holds shortly before the bottom
    """

    frames: Array
    heights: Array
    turn: Turn
    beside: int
    rests: list[Rest]


def _way(case: Case, f: Array, z: Array, turn: Turn, beside: int, rests: Sequence[Rest]) -> _Way:
    near = f[turn.before] - NEARBY * case.fps
    held = [rest for rest in rests if rest.last < turn.top and f[min(rest.last, turn.before)] >= near]
    return _Way(f, z, turn, beside, held)


def _flank(case: Case, here: _Way, other: _Way) -> Flank:
    (stand, beyond, held_low), (across, far, _) = _stands(case, here), _stands(case, other)
    side = slice(here.turn.before, here.turn.top + 1)

    def above(*levels: float | None) -> tuple[float, ...]:
        return tuple(level for level in levels if level is not None and level > here.heights[side.start])

    elsewhere = above(beyond, far if across is None else across) or above(held_low)
    return Flank(here.frames[side], here.heights[side], stand, elsewhere)


def _stands(case: Case, way: _Way) -> tuple[float | None, float | None, float | None]:
    """Return meters that the body holds under the top: beside the jump, beyond the next one, and at its bottom.

    The highest of several, since a crouch is held too. Without any, the track's own end, if it is near.
    """
    bottom = way.turn.before
    held = [rest for rest in way.rests if rest.end < case.least_top]
    if not held and way.frames[0] >= way.frames[bottom] - NEARBY * case.fps and bottom:
        return None, float(way.heights[0]) if way.heights[0] < case.least_top else None, None
    low = [rest.end for rest in held if rest.first <= bottom <= rest.last]
    beyond = [rest.end for rest in held if rest.last < way.beside]
    beside = [rest.end for rest in held if rest.last >= way.beside and not rest.first <= bottom <= rest.last]
    return max(beside, default=None), max(beyond, default=None), max(low, default=None)
