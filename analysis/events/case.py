"""Case: one rise and fall that stands out, and all that its witnesses may look at."""

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
    course    the track as the way up sees it; back: as the way down does, with time reversed
    keys      (k,) keyed frames, where they are not one a frame; None: not known, or they tell nothing
    flight    the parabola that it follows around its top, None without one
    posed     its events as keyed, where few poses tell them; step: frames that its poses are rounded to
    feet      None without feet
    follows   what the point is to the body
    gravity   m/s² of the world; fps: frames per second
    """

    poses: Poses
    index: int
    course: "Course"
    back: "Course"
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
        return self.course.turns[self.index]

    @cached_property
    def rising(self) -> "Flank":
        """The way up, in order of time."""
        return _flank(self, *self._ways)

    @cached_property
    def falling(self) -> "Flank":
        """The way down, with time reversed."""
        return _flank(self, *self._ways[::-1])

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
        sides = [[rest.end for rest in way.rests if rest.last >= way.beside] for way in self._ways]
        if self.course.rests and not any(way.rests for way in self._ways):
            # A body that squats for long keeps the height that it was last seen to stand at.
            sides = [[min(self.course.rests, key=lambda rest: abs(rest.first - self.turn.top)).end]]
        return any(levels and min(levels) >= self.least_top for levels in sides)

    @cached_property
    def _ways(self) -> tuple["_Way", "_Way"]:
        near, last = NEARBY * self.fps, len(self.back.turns) - 1
        return _way(self.course, self.index, near), _way(self.back, last - self.index, near)


@dataclass(frozen=True, slots=True, eq=False)
class Course:
    """A track in one direction of time.

    frames, heights   (n,) of its poses, frames and meters
    turns             all of its turns: a top, and the lowest samples beside it (indices)
    rests             the levels that it holds (indices)
    """

    frames: Array
    heights: Array
    turns: tuple[Turn, ...]
    rests: tuple[Rest, ...]

    @property
    def backwards(self) -> "Course":
        """The same with time reversed."""
        last = len(self.frames) - 1
        turns = (Turn(last - one.after, last - one.top, last - one.before) for one in self.turns[::-1])
        rests = (Rest(last - one.last, last - one.first, one.end, one.start) for one in self.rests[::-1])
        return Course(-self.frames[::-1], self.heights[::-1], tuple(turns), tuple(rests))


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
    """One side of a top.

    course, turn   the track as this side sees it, and the top with the bottoms of this side and of the other
    beside         index of the next top on this side, 0 without one
    rests          the levels that it holds shortly before the bottom
    """

    course: Course
    turn: Turn
    beside: int
    rests: list[Rest]


def _way(course: Course, index: int, near: float) -> _Way:
    """Return the side that leads up to a top; near: frames before its bottom that a rest still counts in."""
    f, turn = course.frames, course.turns[index]
    since = f[turn.before] - near
    rests = [rest for rest in course.rests if rest.last < turn.top and f[min(rest.last, turn.before)] >= since]
    return _Way(course, turn, course.turns[index - 1].top if index else 0, rests)


def _flank(case: Case, here: _Way, other: _Way) -> Flank:
    (stand, beyond, held_low), (across, far, _) = _stands(case, here), _stands(case, other)
    side = slice(here.turn.before, here.turn.top + 1)
    frames, heights = here.course.frames[side], here.course.heights[side]

    def above(*levels: float | None) -> tuple[float, ...]:
        return tuple(level for level in levels if level is not None and level > heights[0])

    elsewhere = above(beyond, far if across is None else across) or above(held_low)
    return Flank(frames, heights, stand, elsewhere)


def _stands(case: Case, way: _Way) -> tuple[float | None, float | None, float | None]:
    """Return meters that the body holds under the top: beside the jump, beyond the next one, and at its bottom.

    The highest of several, since a crouch is held too. Without any, the track's own end, if it is near.
    """
    f, bottom = way.course.frames, way.turn.before
    held = [rest for rest in way.rests if rest.end < case.least_top]
    if not held and bottom and f[0] >= f[bottom] - NEARBY * case.fps:
        end = float(way.course.heights[0])
        return None, end if end < case.least_top else None, None
    low = [rest.end for rest in held if rest.first <= bottom <= rest.last]
    beyond = [rest.end for rest in held if rest.last < way.beside]
    beside = [rest.end for rest in held if rest.last >= way.beside and not rest.first <= bottom <= rest.last]
    return max(beside, default=None), max(beyond, default=None), max(low, default=None)
