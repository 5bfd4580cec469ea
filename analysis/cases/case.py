"""Case: one rise and fall that stands out, and all that its witnesses may look at."""

from dataclasses import dataclass
from functools import cached_property

from ..arrays import Array
from ..contacts.bobs import against_a_bob
from ..contacts.flights import FlightStretch
from ..feet import Feet
from ..limits import Limits
from ..samples.poses import Poses
from ..samples.turns import Turn
from ..track import Followed
from .blocking import Posed
from .course import Ascent, Course
from .flank import Flank
from .sides import least_top


@dataclass(frozen=True, eq=False)
class Case:
    """One rise and fall.

    poses     the samples of the track that count
    index     which of the track's turns it is
    course    the track as the way up sees it
    ways      the way up, in order of time, and the way down, with time reversed
    rising    the side that it rises on, in order of time; falling: the other, with time reversed
    keys      (k,) keyed frames, where they are not one a frame; None: not known, or they tell nothing
    flight    the parabola that it follows around its top, None without one
    posed     its events as keyed, where few poses tell them; step: frames that its poses are rounded to
    feet      None without feet
    follows   what the point is to the body
    gravity   m/s² of the world; fps: frames per second
    """

    poses: Poses
    index: int
    course: Course
    ways: tuple[Ascent, Ascent]
    rising: Flank
    falling: Flank
    keys: Array | None
    flight: FlightStretch | None
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
    def against_a_bob(self) -> float | None:
        """Nats for the flight's contacts against a smooth bob; None where they cannot be compared."""
        if self.flight is None:
            return None
        return against_a_bob(self.flight, self.poses.frames, self.poses.heights, noise=self.poses.noise)

    @property
    def stays_under(self) -> bool:
        """Whether the body stands as high as its top: where it rests beside it, or was held before."""
        up, down = self.ways
        sides = [[rest.end for rest in way.rests if rest.last >= way.beside] for way in (up, down)]
        if self.course.rests and not up.rests and not down.rests and not self._stands_below:
            # A body that squats for long keeps the height that it was last seen to stand at.
            sides = [[min(self.course.rests, key=lambda rest: abs(rest.first - self.turn.top)).end]]
        least = least_top(self.poses, self.turn, self.limits)
        if any([levels and min(levels) >= least for levels in sides]):
            return True
        if self.rising.stand is not None or self.falling.stand is not None:
            return False
        # Neither side shows where it stands. That may be its top, as after a squat, or when it gets up and sits down.
        top = self.turn.top
        highest = 2.0 * float(self.poses.heights[top]) - least
        rests = [rest for rest in self.course.rests if rest.first <= top]
        since = 0
        if self.posed is not None and self._stands_below:
            # The poses of a jump: a held top may be its apex, and after a higher top it may stand elsewhere.
            rests = [rest for rest in rests if rest.last < top]
            since = self._last_over(highest)
        stood = [level for rest in rests if rest.first >= since for level in (rest.start, rest.end)]
        if up.begins_slowly and not since:
            stood.append(float(self.poses.heights[0]))
        if self.poses.held:
            stood.append(float(self.poses.heights[-1]))
        return any(least <= level <= highest for level in stood)

    def _last_over(self, height: float) -> int:
        """Return the sample of the last top before this one that lies over a height, 0 without one."""
        tops = [turn.top for turn in self.course.turns[: self.index]]
        return max((top for top in tops if self.poses.heights[top] > height), default=0)

    @property
    def _stands_below(self) -> bool:
        """Whether a height that its body stands at is seen on either side."""
        return bool(self.rising.levels or self.falling.levels)
