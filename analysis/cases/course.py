"""Course: a track in one direction of time, and the ways up to its tops."""

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from ..arrays import Array
from ..samples.rests import Rest
from ..samples.turns import Turn

SLOW_END_SHARE = 0.25
"""Most speed at the end of the track, as a share of the top speed on the way up, at which the point is slow there, and
so may stand there (ours)."""


@dataclass(frozen=True, slots=True, eq=False)
class Course:
    """A track in one direction of time.

    frames, heights   (n,) of its poses, frames and meters
    turns             its turns, each a top and the lowest samples beside it (indices)
    rests             the levels that it holds (indices of samples)
    held              whether each sample is a pose that is held up to the next
    """

    frames: Array
    heights: Array
    turns: tuple[Turn, ...]
    rests: tuple[Rest, ...]
    held: bool

    @property
    def backward(self) -> "Course":
        """The same course with time reversed."""
        last = len(self.frames) - 1
        turns = [Turn(last - one.after, last - one.top, last - one.before) for one in self.turns[::-1]]
        rests = [Rest(last - one.last, last - one.first, one.end, one.start) for one in self.rests[::-1]]
        return Course(-self.frames[::-1], self.heights[::-1], tuple(turns), tuple(rests), self.held)


class Ascent(NamedTuple):
    """The way up to a top; the way down is one with time reversed.

    course, turn   the track as it is seen from this side, and the top with the bottoms of this side and of the other
    beside         index of the next top on this side, 0 without one
    rests          the levels that it holds shortly before the bottom
    """

    course: Course
    turn: Turn
    beside: int
    rests: list[Rest]

    @property
    def begins_slowly(self) -> bool:
        """Whether the point is slow where the track begins, beside the way up to the top; a pose that is held is."""
        if self.course.held:
            return True
        f, z, side = self.course.frames, self.course.heights, slice(self.turn.before, self.turn.top + 1)
        fastest = (np.diff(z[side]) / np.diff(f[side])).max()
        return bool(abs((z[1] - z[0]) / (f[1] - f[0])) <= SLOW_END_SHARE * fastest)


def ascent_to(course: Course, index: int, near: float) -> Ascent:
    """Return the way up to a top; near: within so many frames before the bottom a rest still counts."""
    f, turn = course.frames, course.turns[index]
    since = f[turn.before] - near
    rests = [rest for rest in course.rests if rest.last < turn.top and f[min(rest.last, turn.before)] >= since]
    return Ascent(course, turn, course.turns[index - 1].top if index else 0, rests)
