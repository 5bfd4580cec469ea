"""Case: one rise and fall that stands out, with all that its witnesses may look at."""

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

NEARBY = 3.0
"""Longest time between a rest and a jump, in seconds, for the rest to tell the height that the body stands at
(ours)."""
LIFTED = 0.1
"""How far over the height that it stands at a body may stay when it crouches or lands, as a share of the jump's height:
swinging limbs carry its hips (the lift of drawn hips: `python -m tests.bench drawn --kinds limbs`)."""
SWAY = 6.0
"""How far over the bottom a held level may lie and still be the bottom itself, in standard deviations of the noise: the
lowest of some tens of samples at rest lies two to three under their mean (ours)."""

Stands = tuple[float | None, float | None]
"""Heights, in meters, that a body holds on one side of a top: beside the jump, and beyond the next jump; None where it
is not seen to hold any."""


@dataclass(frozen=True, eq=False)
class Case:
    """One rise and fall.

    poses     the samples of the track that count
    index     its place among the turns of the track
    course    the track in its own time, as the way up is seen; back: with time reversed, as the way down is seen
    keys      (k,) keyed frames, where not every frame is keyed; None: not known, or they tell nothing
    flight    the parabola that it follows around its top, None without one
    posed     its events as keyed, where few poses make the jump; step: the frames that its poses are rounded to
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
        """The top of the case, and the lowest samples beside it."""
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
        """Evidence for contacts at the ends of the flight and against a smooth bob, in nats; None where the two cannot
        be compared.
        """
        if self.flight is None:
            return None
        return against_a_bob(self.flight, self.poses.frames, self.poses.heights, noise=self.poses.noise)

    @property
    def least_top(self) -> float:
        """Half a smallest hop under the top, in meters: the case does not rise from any level above that."""
        return float(self.poses.heights[self.turn.top]) - 0.5 * self.limits.smallest_hop

    @cached_property
    def stays_under(self) -> bool:
        """Whether the body stands as high as its top: it rests there beside the case, or was held there before."""
        sides = [[rest.end for rest in way.rests if rest.last >= way.beside] for way in self._ways]
        if self.course.rests and not any(way.rests for way in self._ways) and not self._stands_below:
            # A body that squats for long still has the height at which it was last seen to stand.
            sides = [[min(self.course.rests, key=lambda rest: abs(rest.first - self.turn.top)).end]]
        least = self.least_top
        if any(levels and min(levels) >= least for levels in sides):
            return True
        if self.rising.stand is not None or self.falling.stand is not None:
            return False
        # Neither side shows where it stands. That may be its top, as after a squat, or when it gets up and sits down.
        z, top = self.poses.heights, self.turn.top
        rests = [rest for rest in self.course.rests if rest.first <= top]
        if self._stands_below:  # of two levels that it may stand at, its top is one if it is held there, and elsewhere
            if not any(rest.last >= top for rest in rests):
                return False
            rests = [rest for rest in rests if rest.last < top]
        stood = [level for rest in rests for level in (rest.start, rest.end)]
        stood += [float(z[end]) for end in (0, -1) if self.poses.held or (end == 0 and self._ways[0].begins_slowly)]
        return any(least <= level <= 2.0 * float(z[top]) - least for level in stood)

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
    side = slice(here.turn.before, here.turn.top + 1)
    frames, heights = here.course.frames[side], here.course.heights[side]
    is_step = len(frames) == 2 and not case.poses.held and frames[1] - frames[0] <= 1.0
    bottom = here.turn.before
    held = bottom == 0 or any(_is_bottom(case, here, rest) for rest in here.rests)
    flank = Flank(frames, heights, None, (), is_step or bottom == 0, held)
    if is_step:
        return flank
    (own, beyond), (across, far) = own_side, other_side
    lowest = flank.bottom - (0.0 if flank.is_open else LIFTED * (flank.top - flank.bottom))
    # A level under the bottom counts as the bottom: limbs that swing carry the hips over the level.
    levels = (own, beyond, far if across is None else across)
    stand, *elsewhere = (None if one is None or one < lowest else max(one, flank.bottom) for one in levels)
    near = tuple(level for level in elsewhere if level is not None and flank.is_near(level))
    # Where the body is fastest about another level, what it held here is a seat, or a crouch, and no stand.
    is_seat = near and stand is not None and not flank.is_near(stand)
    return Flank(frames, heights, None if is_seat else stand, near, flank.is_open, held)


def _stands(case: Case, way: Ascent) -> Stands:
    """Return the heights that the body holds on a side, under the top.

    Of several it is the highest, since a crouch may be held too; what is held at the bottom is such a crouch. Where
    none is held, it is the end of the track, if that is near and the body is slow there.
    """
    f, bottom = way.course.frames, way.turn.before
    if not way.rests and bottom and f[0] >= f[bottom] - NEARBY * case.fps:
        end = float(way.course.heights[0])
        return None, end if end < case.least_top and (case.poses.held or way.begins_slowly) else None
    least = case.least_top
    held = [one for one in way.rests if one.end < least and not _is_bottom(case, way, one)]
    beyond = [rest.end for rest in held if rest.last < way.beside]
    beside = [rest.end for rest in held if rest.last >= way.beside]
    return max(beside, default=None), max(beyond, default=None)


def _is_bottom(case: Case, way: Ascent, rest: Rest) -> bool:
    """Tell whether a rest is at the bottom of a way itself, as far as the noise allows to tell."""
    bottom, noise = way.turn.before, case.poses.noise
    if rest.first <= bottom <= rest.last:
        return True
    least = float(way.course.heights[bottom]) + SWAY * noise
    return noise > NOISY and rest.last >= way.beside and rest.end <= least
