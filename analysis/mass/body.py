"""A body as segments with masses: from where its bones are to where its center of mass is.

Positions in meters; masses in per cent of the body, or any unit where all of them are given by hand. The center
of mass is linear in a few points of the bones, so a body is worked out once, as weights on them.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from ..arrays import Array
from ..errors import SourceError
from .segments import OWN_MASS, SIDES, SegmentTable

UNMAPPED_MOST = 0.03
"""Share of a body's mass that may lie in segments without a bone: both feet, or both hands, and no more (ours)."""
NEXT_SEGMENT = {"upper_arm": "forearm", "forearm": "hand", "thigh": "shank", "shank": "foot"}
"""Where a segment's far end is a joint: the near end of the next."""
SHORTEST_SEGMENT = 1e-6
"""Meters under which a segment has no length."""


@dataclass(frozen=True, slots=True)
class BodyPart:
    """A bone's place in the body.

    segment  one of `segments.SEGMENTS`; `segments.OWN_MASS` for a mass of its own
    mass     by hand: per cent of the body where other bones have segments, else any unit
    along    by hand: the part's center, from the bone's head (0) to its tail (1)
    aside    by hand: how far the center lies off the bone along its x and z axes, in lengths of the bone

    Raises SourceError for a mass that is not a finite number of 0 or more.
    """

    bone: str
    segment: str = OWN_MASS
    mass: float = 0.0
    along: float = 0.5
    aside: tuple[float, float] = (0.0, 0.0)

    def __post_init__(self) -> None:
        if not (np.isfinite([self.mass, self.along, *self.aside]).all() and self.mass >= 0.0):
            raise SourceError(f'the mass of "{self.bone}" must be a number of 0 or more, not {self.mass}')


@dataclass(frozen=True, slots=True, eq=False)
class Body:
    """The weights that make a center of mass of bones.

    bones     m names
    weights   (m, 4), on each one's head, tail, and ends of its x and z axes laid off from the head, as long as the
              bone; they sum to 1
    shares    (m,) of the mass, by bone; a joint counts for the bone it begins or ends
    unmapped  share of the table's mass in segments without a bone; 0 where every mass is by hand
    missing   those segments
    """

    bones: tuple[str, ...]
    weights: Array
    unmapped: float
    missing: tuple[str, ...]

    @property
    def is_sound(self) -> bool:
        """Whether so little mass is unmapped that the center of mass can be trusted."""
        return self.unmapped <= UNMAPPED_MOST

    @property
    def shares(self) -> Array:
        """Return (m,): how much of the center of mass each bone decides."""
        return self.weights.sum(axis=1)

    def center_of_mass(self, points: ArrayLike) -> Array:
        """Return (n, 3) from (n, m, 4, 3), the points of the bones over n frames, in any frame of reference.

        Heads and tails alone, (n, m, 2, 3), do where no mass lies off its bone; ValueError where one does.

        >>> rod = body_of([BodyPart("rod", mass=2.0)], [[[0, 0, 0], [0, 0, 1]]])
        >>> rod.center_of_mass([[[[0, 0, 1], [0, 0, 3]]]])
        array([[0., 0., 2.]])
        """
        points = np.asarray(points, np.float64)
        if self.weights[:, points.shape[2] :].any():
            raise ValueError("masses lie off their bones: the points must hold the ends of the axes too")
        return np.einsum("me,nmed->nd", self.weights[:, : points.shape[2]], points)


def body_of(parts: Sequence[BodyPart], rest: ArrayLike, table: SegmentTable | None = None) -> Body:
    """Work out a body from its parts, parents before children, and its rest pose.

    rest is (m, 2, 3): heads and tails in the order of the parts, in meters. A segment of several bones is one line
    from joint to joint through their heads, divided by its length at rest. Raises SourceError when no bone has a
    segment or a mass, when a segment has no length, and when the masses sum to nothing.
    """
    if not parts:
        raise SourceError("no bone has a body segment or a mass: map the bones first")
    rest = np.asarray(rest, np.float64).reshape(len(parts), 2, 3)
    lines = _Lines(parts, rest)
    total, weights = 0.0, np.zeros((len(parts), 4))
    for row, part in enumerate(parts):
        if part.segment == OWN_MASS:
            total += part.mass
            weights[row] += part.mass * np.array([1.0 - part.along - sum(part.aside), part.along, *part.aside])
    found = dict.fromkeys(part.segment for part in parts if part.segment != OWN_MASS)
    if found and table is None:
        raise SourceError("the bones have body segments, but there is no table of their masses")
    missing: tuple[str, ...] = ()
    left = 0.0
    if table is not None:
        for segment in found:
            line = lines.of(segment, to_neck=table.trunk_to_neck)
            for mass, share in table.masses(segment):
                total += mass
                weights[:, :2] += mass * lines.point(line, share, segment)
        missing = _missing(found, table) if found else ()
        left = sum(mass for segment in missing for mass, _ in table.masses(segment)) / table.total if missing else 0.0
    if total <= 0.0:
        raise SourceError("the masses sum to nothing: give at least one bone a mass")
    weights = weights / total
    weights.flags.writeable = False
    return Body(tuple(part.bone for part in parts), weights, left, missing)


def _missing(found: Iterable[str], table: SegmentTable) -> tuple[str, ...]:
    return tuple(segment for segment in table.segments if segment not in found)


class _Lines:
    """The segments as lines through points; a point is its (m, 2) weights on heads and tails."""

    def __init__(self, parts: Sequence[BodyPart], rest: Array) -> None:
        self._rest = rest
        self._rows: dict[str, list[int]] = {}
        for row, part in enumerate(parts):
            self._rows.setdefault(part.segment, []).append(row)

    def of(self, segment: str, *, to_neck: bool) -> list[Array]:
        """Return the points of a segment, from its near joint to its far end."""
        rows = self._rows[segment]
        points = [self._end(row, 0) for row in rows]
        last = self._end(rows[-1], 1)
        if segment == "trunk":
            hips = self._between("thigh")
            far = self._near("head") if to_neck else self._between("upper_arm")
            if hips is not None:
                points[0] = hips
            return [*points, last if far is None else far]
        kind, side = kind_and_side(segment)
        joint = self._near(f"{NEXT_SEGMENT[kind]}_{side}") if kind in NEXT_SEGMENT else None
        return [*points, last if joint is None else joint]

    def point(self, line: Sequence[Array], share: float, segment: str) -> Array:
        """Return the point at a share of a line's length at rest. Raises SourceError when it has none."""
        places = np.array([np.tensordot(point, self._rest, 2) for point in line])
        steps = np.linalg.norm(np.diff(places, axis=0), axis=1)
        length = float(steps.sum())
        if not length > SHORTEST_SEGMENT:
            raise SourceError(f"the {spoken(segment)} has no length: its bones begin and end at one point")
        ends = np.concatenate([[0.0], np.cumsum(steps)]) / length
        weights = [np.interp(share, ends, row) for row in np.eye(len(line))]
        return np.tensordot(weights, np.array(line), 1)

    def _end(self, row: int, end: int) -> Array:
        point = np.zeros(self._rest.shape[:2])
        point[row, end] = 1.0
        return point

    def _near(self, segment: str) -> Array | None:
        rows = self._rows.get(segment)
        return self._end(rows[0], 0) if rows else None

    def _between(self, kind: str) -> Array | None:
        """Return the point midway between a left and a right joint; None unless both are mapped."""
        left, right = (self._near(f"{kind}_{side}") for side in SIDES)
        return None if left is None or right is None else 0.5 * (left + right)


def kind_and_side(segment: str) -> tuple[str, str]:
    """Split a segment's name into kind and side: ("upper_arm", "left"); the side is "" in the middle."""
    kind, _, side = segment.rpartition("_")
    return (kind, side) if side in SIDES else (segment, "")


def spoken(segment: str) -> str:
    """Say a segment's name in a sentence: "left upper arm"."""
    kind, side = kind_and_side(segment)
    return f"{side} {kind}".strip().replace("_", " ")
