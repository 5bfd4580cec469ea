"""Case: one rise and fall that stands out, and all that its witnesses may look at."""

from dataclasses import dataclass
from functools import cached_property

from ..arrays import Array
from ..contacts.bobs import against_a_bob
from ..contacts.bottom import NOISY
from ..contacts.flights import FlightStretch
from ..feet import Feet
from ..limits import Limits
from ..samples.poses import Poses
from ..samples.rests import Rest
from ..samples.turns import Turn
from ..track import Followed
from .blocking import Posed
from .course import Ascent, Course, ascent_to
from .flank import Flank
from .flank_samples import FlankSamples

NEARBY = 3.0
"""Seconds: a rest this close to a jump tells the height that its body stands at (ours)."""
LIFTED = 0.1
"""Share of a jump's height by which a body may stay over where it stands when it crouches or lands: swinging limbs
carry its hips (the lift of drawn hips: `python -m tests.bench drawn --kinds limbs`)."""
SWAY = 6.0
"""Standard deviations of noise within which a level that is held is the bottom itself: what dips lowest of some tens
of samples at rest lies two to three under their mean, and so does what is held (ours)."""

Stands = tuple[float | None, float | None]
"""Meters that a body holds under a top, on one side: beside the jump, and beyond the next one; None where none is seen.
"""


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
    course: Course
    back: Course
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

    @property
    def rising(self) -> Flank:
        """The way up, in order of time."""
        return self._flanks[0]

    @property
    def falling(self) -> Flank:
        """The way down, with time reversed."""
        return self._flanks[1]

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
        """Whether the body stands as high as its top: where it rests beside it, or was held before."""
        up, down = self._ways
        sides = [[rest.end for rest in way.rests if rest.last >= way.beside] for way in (up, down)]
        if self.course.rests and not up.rests and not down.rests and not self._stands_below:
            # A body that squats for long keeps the height that it was last seen to stand at.
            sides = [[min(self.course.rests, key=lambda rest: abs(rest.first - self.turn.top)).end]]
        least = self.least_top
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

    @cached_property
    def _flanks(self) -> tuple[Flank, Flank]:
        up, down = self._ways
        of_up, of_down = _stands(self, up), _stands(self, down)
        return _flank(self, up, of_up, of_down), _flank(self, down, of_down, of_up)

    @cached_property
    def _ways(self) -> tuple[Ascent, Ascent]:
        near, last = NEARBY * self.fps, len(self.back.turns) - 1
        return ascent_to(self.course, self.index, near), ascent_to(self.back, last - self.index, near)


def _flank(case: Case, here: Ascent, own_side: Stands, other_side: Stands) -> Flank:
    starts, side = here.turn.before, slice(here.turn.before, here.turn.top + 1)
    frames, heights = here.course.frames[side].tolist(), here.course.heights[side].tolist()
    samples, bottom, top = FlankSamples(frames, heights), heights[0], heights[-1]
    held = starts == 0 or any([_is_bottom(case, here, rest) for rest in here.rests])
    if len(frames) == 2 and not case.poses.held and frames[1] - frames[0] <= 1.0:
        return Flank(samples, None, (), True, held)
    (own, beyond), (across, far) = own_side, other_side
    lowest = bottom if starts == 0 else bottom - LIFTED * (top - bottom)
    # A level under the bottom is the bottom's: what hangs from the hips carries them over it.
    levels = (own, beyond, far if across is None else across)
    stand, *elsewhere = [None if one is None or one < lowest else max(one, bottom) for one in levels]
    near = tuple([level for level in elsewhere if level is not None and samples.is_near(level)])
    # A seat that is left, or a crouch that is held, is no stand where the body is fastest about another level.
    is_seat = near and stand is not None and not samples.is_near(stand)
    return Flank(samples, None if is_seat else stand, near, starts == 0, held)


def _stands(case: Case, way: Ascent) -> Stands:
    """Return what the body holds on a side, under the top.

    The highest of several, since a crouch is held too; what is held at the bottom is one. Without any, the track's own
    end, if it is near and slow.
    """
    f, bottom = way.course.frames, way.turn.before
    if not way.rests and bottom and f[0] >= f[bottom] - NEARBY * case.fps:
        end = float(way.course.heights[0])
        return None, end if end < case.least_top and way.begins_slowly else None
    least = case.least_top
    held = [one for one in way.rests if one.end < least and not _is_bottom(case, way, one)]
    beyond = [rest.end for rest in held if rest.last < way.beside]
    beside = [rest.end for rest in held if rest.last >= way.beside]
    return max(beside, default=None), max(beyond, default=None)


def _is_bottom(case: Case, way: Ascent, rest: Rest) -> bool:
    """Tell whether what is held is the bottom of a way itself, as far as noise lets it be told."""
    bottom, noise = way.turn.before, case.poses.noise
    if rest.first <= bottom <= rest.last:
        return True
    least = float(way.course.heights[bottom]) + SWAY * noise
    return noise > NOISY and rest.last >= way.beside and rest.end <= least
