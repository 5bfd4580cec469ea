"""Feet: when a track's feet are on the ground, read once and handed on; and every gap with no foot down.

Frames and meters, z up. Feet alone find no jump: there must be a rise and fall of the body, too.
"""

from dataclasses import dataclass

import numpy as np

from ..arrays import Array
from ..track import Track
from .contacts import Gap, leaves, runs, touches
from .ground import Point, points_of

LEAST_LEG_BEND_SHARE = 0.3
"""Least bending and stretching of the legs, as a share of the body's rise and fall (ours): a push from flat feet is
more."""


@dataclass(frozen=True, eq=False)
class Feet:
    """What a track's feet do, read once; over those of its frames for which they are known.

    frames   (n,) frames for which they are known, fps of them a second
    rows     (n,) their rows in the track
    points   one for each point that touches the ground: its heights, when it is down, where it stands, its noise
    stances  for each point (s, 2): first and last sample of each stretch that it is down, in order
    air      (k, 2) the same of each stretch with no point down
    step     frames from one pose to the next
    held     the poses are stepped: a contact lies on one
    """

    frames: Array
    fps: float
    rows: Array
    points: tuple[Point, ...]
    stances: tuple[Array, ...]
    air: Array
    step: int = 1
    held: bool = False

    @property
    def down(self) -> Array:
        """(n, m) booleans: which points are on the ground."""
        return np.stack([point.down for point in self.points], axis=1)

    @property
    def noise(self) -> float:
        """Meters of noise of the point that has most."""
        return max(point.noise for point in self.points)

    def knows(self, first: float, last: float) -> bool:
        """Say whether the feet are known throughout, from one frame to another."""
        start = int(np.searchsorted(self.frames, first, side="right")) - 1
        stop = int(np.searchsorted(self.frames, last))
        return 0 <= start <= stop < len(self.frames) and bool(self.rows[stop] - self.rows[start] == stop - start)

    def last_down(self, at: int) -> list[tuple[int, int]]:
        """Return (number, sample) of each point that has been on the ground by a sample: when it was there last."""
        found = []
        for number, stances in enumerate(self.stances):
            row = int(np.searchsorted(stances[:, 0], at, side="right")) - 1
            if row >= 0:
                found.append((number, int(min(stances[row, 1], at))))
        return found

    def gap_over(self, first: float, last: float, *, step: int | None = None, held: bool | None = None) -> Gap | None:
        """Return the gap that shares most frames with a stretch; None where none does.

        step, held: how the poses of that stretch are drawn, where not as the feet were read.
        """
        near = self.gaps(first, last, step=step, held=held)
        best = max(near, key=lambda gap: gap.shared(first, last), default=None)
        return best if best is not None and best.shared(first, last) > 0.0 else None

    def gaps(
        self, first: float = -np.inf, last: float = np.inf, *, step: int | None = None, held: bool | None = None
    ) -> list[Gap]:
        """List each stretch with no foot on the ground that comes near these frames, in order; open at a track's end.

        step, held: as in `gap_over`.
        """
        step, held = self.step if step is None else step, self.held if held is None else held
        reach = step if held else 1
        ends = self.frames[self.air]
        start = int(np.searchsorted(ends[:, 1], first - reach))
        stop = int(np.searchsorted(ends[:, 0], last + reach, side="right"))
        return [self._gap(row, step=step, held=held) for row in range(start, stop)]

    def _gap(self, row: int, *, step: int, held: bool) -> Gap:
        first, last = (int(at) for at in self.air[row])
        off: tuple[float | None, float | None] = (None, None)
        on: tuple[float | None, float | None] = (None, None)
        if first > 0 and self.rows[first] - self.rows[first - 1] == 1:
            off = leaves(self.frames, self.points, first - 1, fps=self.fps, step=step, held=held)
        if last + 1 < len(self.frames) and self.rows[last + 1] - self.rows[last] == 1:
            on = touches(self.frames, self.points, last + 1, fps=self.fps, step=step, held=held)
        return Gap(*off, *on)


def are_carried(track: Track) -> bool:
    """Say whether the feet only go up and down with the body, as in a pose that hangs from its root: no witnesses.

    >>> track = Track("hung", 24, range(5), [[0, 0, z] for z in range(5)], feet=[[[0, 0, z - 1]] for z in range(5)])
    >>> are_carried(track)
    True
    """
    if track.feet is None:
        return False
    read = ~np.isnan(track.feet[:, 0, 0])
    body, feet = track.heights[read], track.feet[read, :, 2]
    return bool(np.ptp(feet - body[:, None], axis=0).max() < LEAST_LEG_BEND_SHARE * np.ptp(body))


def feet_of(track: Track, *, step: int = 1, held: bool = False) -> Feet | None:
    """Read a track's feet; None for a track without any, and for feet that never stand.

    step: frames from one pose to the next; held: the poses are stepped. Cost: linear in frames and points.

    >>> feet = feet_of(Track("still", 24, range(10), [[0, 0, 1]] * 10, feet=[[[0, 0, 0]]] * 10))
    >>> feet.gaps(), feet.knows(2, 5)
    ([], True)
    """
    if track.feet is None:
        return None
    rows = np.flatnonzero(~np.isnan(track.feet[:, 0, 0]))
    points = points_of(track, rows)
    down = np.zeros(len(rows), dtype=bool)
    for point in points:
        down |= point.down
    if not down.any():
        return None
    stances = tuple(runs(point.down) for point in points)
    return Feet(track.frames[rows], track.fps, rows, points, stances, split_stretches(runs(~down), rows), step, held)


def split_stretches(stretches: Array, rows: Array) -> Array:
    """Cut stretches (k, 2) of samples where those do not follow each other in the track; rows as Feet has them."""
    first, last = stretches.T
    cuts = np.array([at for at in np.flatnonzero(np.diff(rows) > 1) if ((first <= at) & (at < last)).any()], np.intp)
    return np.sort(np.concatenate((stretches.ravel(), cuts, cuts + 1))).reshape(-1, 2)
