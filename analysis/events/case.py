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
        return _flank(self, self._after, self._before, forward=False)

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
        before = self.turns[self.index - 1].top if self.index else 0
        after = self.turns[self.index + 1].top if self.index + 1 < len(self.turns) else len(self.poses.frames) - 1
        sides = [
            [rest.end for rest in self.rests_before if rest.last >= before],
            [rest.start for rest in self.rests_after if rest.first <= after],
        ]
        if self.rests and not self.rests_before and not self.rests_after:
            # A body that squats for long keeps the height that it was last seen to stand at.
            sides = [[min(self.rests, key=lambda rest: abs(rest.first - self.turn.top)).end]]
        return any(levels and min(levels) >= self.least_top for levels in sides)

    @cached_property
    def rests_before(self) -> list[Rest]:
        """The levels held shortly before it."""
        f, turn, near = self.poses.frames, self.turn, NEARBY * self.fps
        mine = [rest for rest in self.rests if rest.last < turn.top]
        return [rest for rest in mine if f[turn.before] - f[min(rest.last, turn.before)] <= near]

    @cached_property
    def rests_after(self) -> list[Rest]:
        """The levels held shortly after it."""
        f, turn, near = self.poses.frames, self.turn, NEARBY * self.fps
        mine = [rest for rest in self.rests if rest.first > turn.top]
        return [rest for rest in mine if f[max(rest.first, turn.after)] - f[turn.after] <= near]

    @cached_property
    def _before(self) -> "Stands":
        return _stands(self, forward=True)

    @cached_property
    def _after(self) -> "Stands":
        return _stands(self, forward=False)


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


def _flank(case: Case, here: "Stands", other: "Stands", *, forward: bool = True) -> Flank:
    f, z, turn = case.poses.frames, case.poses.heights, case.turn
    if forward:
        frames, heights = f[turn.before : turn.top + 1], z[turn.before : turn.top + 1]
    else:
        frames, heights = -f[turn.top : turn.after + 1][::-1], z[turn.top : turn.after + 1][::-1]
    levels = (here.beyond, other.beside, other.beyond if other.beside is None else None)
    elsewhere = [level for level in levels if level is not None and level > heights[0]]
    if not elsewhere and here.lowest is not None and here.lowest > heights[0]:
        elsewhere = [here.lowest]
    return Flank(frames, heights, here.beside, tuple(elsewhere))


class Stands(NamedTuple):
    """Heights in meters that a body holds on one side of a top: beside it, beyond the next top, and at its bottom."""

    beside: float | None
    beyond: float | None
    lowest: float | None


def _stands(case: Case, *, forward: bool) -> Stands:
    """Return the heights that the body holds under the top: of several the highest, since a crouch is held too.

    Without any, the track's own end, if it is near.
    """
    f, z, turn = case.poses.frames, case.poses.heights, case.turn
    if forward:
        limit = case.turns[case.index - 1].top if case.index else 0
        held = [(rest.end, rest.last < limit, rest.first <= turn.before <= rest.last) for rest in case.rests_before]
        end, edge = 0, turn.before
    else:
        limit = case.turns[case.index + 1].top if case.index + 1 < len(case.turns) else len(f) - 1
        held = [(rest.start, rest.first > limit, rest.first <= turn.after <= rest.last) for rest in case.rests_after]
        end, edge = len(f) - 1, turn.after
    held = [one for one in held if one[0] < case.least_top]
    if not held and end != edge and abs(float(f[edge] - f[end])) <= NEARBY * case.fps and z[end] < case.least_top:
        return Stands(None, float(z[end]), None)
    beside, beyond, lowest = (
        max((level for level, *where in held if where == there), default=None)
        for there in ([False, False], [True, False], [False, True])
    )
    return Stands(beside, beyond, lowest)
