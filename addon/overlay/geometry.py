"""Where everything that is drawn of a jump lies: numbers alone, no Blender. Meters, z up, the track's own space.

A drawing is a few strokes and dots by kind, and labels at places; how they look is told elsewhere.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from ...analysis.arrays import Array
from ...analysis.figures import value_of
from ...analysis.finding import Finding
from ...analysis.jump import Jump
from ...analysis.phases import Event
from ...analysis.track import EVENTS, Track

DRAWN_BESIDE_FRAMES = 4
"""Frames of the track that are drawn before the crouch, and after the body has settled."""
PER_FRAME = 2
"""Points of a flight's line in each frame."""
GOES_NOWHERE = 0.05
"""Distance over height under which a jump has no direction of its own."""
BESIDE = 0.3
"""How far behind the takeoff the brackets stand, as a share of their height."""
CAP = 0.04
"""Half the length of a bracket's ends, as a share of the height of both."""
DASH = 2
"""Pieces of line in each dash, and in each gap."""


class Kind(StrEnum):
    """What a stroke or a dot stands for."""

    TRACK = "track"
    FITTED = "fitted"
    REAL = "real"
    PUSH = "push"
    HEIGHT = "height"
    FINDING = "finding"
    GHOST = "ghost"
    BEFORE = "before"
    EVENT = "event"


Pieces = dict["Kind", list[Array]]
"""Arrays of line pieces, or of dots, by what they show."""


@dataclass(frozen=True, slots=True, eq=False)
class Label:
    """A text to be written beside a place (3,): an event with its frame, or a length in meters, or a ratio."""

    kind: Kind
    name: str
    place: Array
    value: float


@dataclass(frozen=True, slots=True, eq=False)
class Drawing:
    """Pieces of lines (n, 2, 3) and dots (n, 3) by kind, and labels."""

    lines: dict[Kind, Array]
    dots: dict[Kind, Array]
    labels: tuple[Label, ...] = ()

    def placed(self, turn: Array, meters: float) -> "Drawing":
        """Take it into a scene whose upright (3, 3) is turn and whose unit is this many meters."""
        if meters == 1.0 and np.array_equal(turn, np.eye(3)):
            return self

        def there(points: Array) -> Array:
            return points @ turn / meters

        return Drawing(
            {kind: there(pieces) for kind, pieces in self.lines.items()},
            {kind: there(points) for kind, points in self.dots.items()},
            tuple(Label(one.kind, one.name, there(one.place), one.value) for one in self.labels),
        )


def drawing_of(
    track: Track,
    jumps: Sequence[Jump],
    chosen: int | None,
    *,
    finding: Finding | None = None,
    ghost: Track | None = None,
    before: Track | None = None,
) -> Drawing:
    """Draw every jump of a track; the chosen one with its events, distances and a finding's frames.

    ghost: the track as a mend would make it; before: as it was when it was held to be compared.
    """
    lines: Pieces = {}
    dots: Pieces = {}
    labels: list[Label] = []
    for number, jump in enumerate(jumps):
        first, last = shown_frames(jump)
        _add(lines, dots, Kind.TRACK, *_path(track, first, last))
        _add(lines, dots, Kind.FITTED, fitted_flight(track, jump), None)
        _add(lines, dots, Kind.REAL, *real_flight(track, jump))
        if number != chosen:
            continue
        _add(lines, dots, Kind.EVENT, None, np.array([one.place for one in event_labels(track, jump)]))
        labels += [*event_labels(track, jump), *_bracketed(track, jump, lines, dots)]
        for kind, other in ((Kind.GHOST, ghost), (Kind.BEFORE, before)):
            if other is not None:
                longer = float(other.frames[-1] - track.frames[-1])
                pieces, points = _path(other, first, last + max(longer, 0.0))
                _add(lines, dots, kind, pieces if pieces is None else dashed(pieces), points)
        if finding is not None:
            _add(lines, dots, Kind.FINDING, *_path(track, *finding.frames))
    return Drawing(
        {kind: np.concatenate(parts) for kind, parts in lines.items()},
        {kind: np.concatenate(parts) for kind, parts in dots.items()},
        tuple(labels),
    )


def shown_frames(jump: Jump) -> tuple[float, float]:
    """Return the first and last frame of the track that are drawn for a jump."""
    first, last = (jump.crouch or jump.takeoff).frame, (jump.absorbed or jump.landing).frame
    return math.floor(first) - DRAWN_BESIDE_FRAMES, math.ceil(last) + DRAWN_BESIDE_FRAMES


def places_at(track: Track, frames: Array) -> Array:
    """Return (n, 3) places of a track at these frames, straight between its samples."""
    return np.column_stack([np.interp(frames, track.frames, track.positions[:, axis]) for axis in range(3)])


def fitted_flight(track: Track, jump: Jump) -> Array | None:
    """Return the pieces of the parabola fitted to a flight, from takeoff to landing; None where none is."""
    if jump.arc is None:
        return None
    takeoff, landing = jump.takeoff.frame, jump.landing.frame
    frames = np.linspace(takeoff, landing, max(2, math.ceil(PER_FRAME * (landing - takeoff))))
    places = _across(track, jump, (frames - takeoff) / (landing - takeoff))
    places[:, 2] = jump.arc.heights(frames, jump.fps)
    return _pieces(places)


def real_flight(track: Track, jump: Jump) -> tuple[Array, Array]:
    """Return the pieces and the dots, one a frame from takeoff, of the flight that real time asks for.

    As high as the jump, and from and to the same places: z = v t − g t²/2 over sqrt(2 h/g) + sqrt(2 drop/g).
    """
    seconds = real_airtime(jump)
    count = math.floor(seconds * jump.fps + 1e-6) + 1
    line = np.linspace(0.0, seconds, PER_FRAME * max(count, 2))
    return _pieces(_fall(track, jump, line, seconds)), _fall(track, jump, np.arange(count) / jump.fps, seconds)


def real_airtime(jump: Jump) -> float:
    """Return the seconds that the heights of a jump take to rise and to fall under the gravity it is judged by."""
    up, down = (max(jump.apex.height - end.height, 0.0) for end in (jump.takeoff, jump.landing))
    return math.sqrt(2.0 * up / jump.gravity) + math.sqrt(2.0 * down / jump.gravity)


def event_labels(track: Track, jump: Jump) -> list[Label]:
    """Return a label for each event that the jump has, at its place on the track."""
    found: list[tuple[str, Event]] = [
        (name, event) for name in EVENTS if (event := getattr(jump, name)) is not None
    ]
    places = places_at(track, np.array([event.frame for _, event in found]))
    return [Label(Kind.EVENT, name, place, event.frame) for (name, event), place in zip(found, places, strict=True)]


def heading_of(track: Track, jump: Jump) -> Array:
    """Return the (3,) level direction that a jump goes in; along x where it goes nowhere."""
    start, end = places_at(track, np.array([jump.takeoff.frame, jump.landing.frame]))
    way = (end - start) * (1.0, 1.0, 0.0)
    length, height = float(np.linalg.norm(way)), jump.apex.height - jump.takeoff.height
    return way / length if length > GOES_NOWHERE * height else np.array([1.0, 0.0, 0.0])


def dashed(pieces: Array) -> Array:
    """Return a line's pieces with every other dash left out."""
    return pieces[(np.arange(len(pieces)) // DASH) % 2 == 0]


def _bracketed(track: Track, jump: Jump, lines: Pieces, dots: Pieces) -> list[Label]:
    """Add the brackets of push distance and jump height; return their labels, the push ratio with them."""
    takeoff, apex, crouch = jump.takeoff.height, jump.apex.height, jump.crouch
    low = crouch.height if crouch is not None else takeoff
    heading = heading_of(track, jump)
    foot = places_at(track, np.array([(crouch or jump.takeoff).frame]))[0] - BESIDE * (apex - low) * heading
    cap, labels = CAP * (apex - low) * heading, []
    spans = [(Kind.HEIGHT, "height", takeoff, apex)]
    if crouch is not None and takeoff > low:
        spans.append((Kind.PUSH, "push", low, takeoff))
    for kind, name, bottom, top in spans:
        ends = np.array([(*foot[:2], bottom), (*foot[:2], top)])
        _add(lines, dots, kind, np.array([ends, (ends[0] - cap, ends[0] + cap), (ends[1] - cap, ends[1] + cap)]), None)
        labels.append(Label(kind, name, ends.mean(axis=0), top - bottom))
    if (ratio := value_of(jump, "push_ratio")) is not None:
        labels.append(Label(Kind.EVENT, "ratio", np.array((*foot[:2], takeoff)), ratio))
    return labels


def _fall(track: Track, jump: Jump, seconds: Array, airtime: float) -> Array:
    up = max(jump.apex.height - jump.takeoff.height, 0.0)
    places = _across(track, jump, seconds / airtime if airtime > 0.0 else seconds)
    speed = math.sqrt(2.0 * jump.gravity * up)
    places[:, 2] = jump.takeoff.height + speed * seconds - 0.5 * jump.gravity * seconds**2
    return places


def _across(track: Track, jump: Jump, shares: Array) -> Array:
    """Return places at shares of the way from takeoff to landing, straight."""
    start, end = places_at(track, np.array([jump.takeoff.frame, jump.landing.frame]))
    return start + shares[:, None] * (end - start)


def _path(track: Track, first: float, last: float) -> tuple[Array | None, Array | None]:
    """Return the pieces and the dots of a track over these frames, a dot a sample."""
    within = (track.frames >= first - 1e-6) & (track.frames <= last + 1e-6)
    points = track.positions[within]
    return (_pieces(points), points) if len(points) > 1 else (None, points if len(points) else None)


def _pieces(places: Array) -> Array:
    return np.stack([places[:-1], places[1:]], axis=1)


def _add(lines: Pieces, dots: Pieces, kind: Kind, pieces: Array | None, points: Array | None) -> None:
    for where, part in ((lines, pieces), (dots, points)):
        if part is not None and len(part):
            where.setdefault(kind, []).append(part)
