"""Case: one rise and fall that stands out, and all that its witnesses may look at."""

from dataclasses import dataclass
from functools import cached_property

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
        return _flank(self, *self._stands)

    @cached_property
    def falling(self) -> "Flank":
        """The way down, with time reversed."""
        return _flank(self, *self._stands[::-1], forward=False)

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
    def _stands(self) -> tuple[float | None, float | None]:
        return _stand(self, forward=True), _stand(self, forward=False)


@dataclass(frozen=True, eq=False)
class Flank:
    """One side of a top, ground first.

    frames, heights   (n,) from the bottom to the top, both in; of a landing with time reversed
    stand             meters that the body stands at on this side, None where that is not seen
    assumed           the other side's stand, where this side shows none
    """

    frames: Array
    heights: Array
    stand: float | None
    assumed: float | None

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


def _flank(case: Case, stand: float | None, other: float | None, *, forward: bool = True) -> Flank:
    f, z, turn = case.poses.frames, case.poses.heights, case.turn
    if forward:
        frames, heights = f[turn.before : turn.top + 1], z[turn.before : turn.top + 1]
    else:
        frames, heights = -f[turn.top : turn.after + 1][::-1], z[turn.top : turn.after + 1][::-1]
    stand = None if stand is not None and stand <= heights[0] else stand
    other = None if other is not None and other <= heights[0] else other
    return Flank(frames, heights, stand, other if stand is None else stand)


def _stand(case: Case, *, forward: bool) -> float | None:
    """Return the height that the body stands at: of the levels held nearby, and under the top, the highest.

    A crouch is held too, so the nearest level need not be the one. Without any, the track's own end, if it is near.
    """
    f, z, turn = case.poses.frames, case.poses.heights, case.turn
    levels = [rest.end for rest in case.rests_before] if forward else [rest.start for rest in case.rests_after]
    under = [level for level in levels if level < case.least_top]
    if under:
        return max(under)
    end, edge = (0, turn.before) if forward else (len(f) - 1, turn.after)
    if end != edge and abs(float(f[edge] - f[end])) <= NEARBY * case.fps and z[end] < case.least_top:
        return float(z[end])
    return None
