"""When the feet are on the ground, and how they leave it, touch it, slide on it and sink into it.

Frames and metres, z up; sub-frame where the heights allow. Feet alone find no jump: there must be an arc, too.
"""

from typing import NamedTuple

import numpy as np

from ..phases import Phases
from ..track import Track
from .ground import NEAR_NOISE, Point, points_of

UNSURE = 0.15
"""Share of the gap between two samples that a contact read from both sides of it may be off (calibrated on a
simulated body)."""


FLAT = 0.2
"""Share of a point's tolerance by which it is up already, where it rises on from there (ours)."""
ROLLS = 2
"""Samples that a point takes at most to rise through its tolerance (ours): more is a foot that rolls."""


class Gap(NamedTuple):
    """A stretch with no foot on the ground, frames; None where the track begins or ends in it. The errors are
    one standard error each, frames."""

    takeoff: float | None
    landing: float | None
    takeoff_error: float
    landing_error: float


class Contact(NamedTuple):
    """The feet of one jump. None: cannot be known.

    feet_off, feet_on   frames at which the last foot leaves and the first one touches; errors in frames
    feet_slide          farthest a point on the ground moves along it from where it came down, metres; and when
    feet_sink           deepest a point lies under where it stands, metres; and when
    feet_noise          metres of noise of the feet
    feet_below          height of the track over its feet at takeoff, metres
    """

    feet_off: float | None = None
    feet_off_error: float | None = None
    feet_on: float | None = None
    feet_on_error: float | None = None
    feet_slide: float | None = None
    feet_slide_frames: tuple[float, float] | None = None
    feet_sink: float | None = None
    feet_sink_frames: tuple[float, float] | None = None
    feet_noise: float | None = None
    feet_below: float | None = None


class _Span(NamedTuple):
    start: float
    end: float
    start_error: float
    end_error: float


def spans(track: Track) -> np.ndarray:
    """Tell for each point of the feet when it is on the ground: (n, m) booleans, m = 0 without feet.

    >>> spans(Track("still", 24, range(10), [[0, 0, 1]] * 10, feet=[[[0, 0, 0]]] * 10)).all()
    True
    """
    points = points_of(track)
    return np.array([point.down for point in points], dtype=bool).reshape(len(points), len(track.frames)).T


def flights_by_feet(track: Track, *, step: int = 1, held: bool = False) -> tuple[Gap, ...]:
    """Bracket every stretch with no foot on the ground, in order; empty without feet.

    held: each pose is kept for `step` frames, so that a contact lies on a pose. Else it lies between two
    samples, where the motion in the air, drawn on, meets the ground.
    """
    return _gaps(track, points_of(track), step=step, held=held)


def measure_contact(track: Track, phases: Phases) -> Contact:
    """Measure the feet of one jump; of a track without feet, or whose feet never stand, nothing is known."""
    points = points_of(track)
    if not any(point.down.any() for point in points):
        return Contact()
    gap = gap_of(phases, _gaps(track, points, step=phases.step, held=phases.held))
    end = phases.landing.frame + phases.landing.frame - phases.apex.frame
    if phases.absorbed is not None:
        end = max(end, phases.absorbed.frame)
    start = phases.takeoff.frame - 1.0 if phases.crouch is None else phases.crouch.frame
    near = (track.frames >= start) & (track.frames <= end)
    slides = [_slide(track.feet[:, n, :2], track.frames, _flat_on(point.down) & near) for n, point in enumerate(points)]
    sinks = [_sink(track.frames, point, near) for point in points]
    slide, slid = max(slides, key=lambda slide: slide[0])
    sink, sunk = max(sinks, key=lambda sink: sink[0])
    return Contact(
        *((gap.takeoff, gap.takeoff_error, gap.landing, gap.landing_error) if gap else (None,) * 4),
        slide,
        slid,
        sink,
        sunk,
        max(point.noise for point in points),
        _below(track, points, phases.takeoff.frame),
    )


def gap_of(phases: Phases, gaps: tuple[Gap, ...]) -> Gap | None:
    """The gap that the flight lies in: the one that shares most frames with it."""

    def shared(gap: Gap) -> float:
        first = phases.takeoff.frame if gap.takeoff is None else max(gap.takeoff, phases.takeoff.frame)
        last = phases.landing.frame if gap.landing is None else min(gap.landing, phases.landing.frame)
        return last - first

    best = max(gaps, key=shared, default=None)
    return best if best is not None and shared(best) > 0.0 else None


def _gaps(track: Track, points: tuple[Point, ...], *, step: int, held: bool) -> tuple[Gap, ...]:
    found = sorted(span for point in points for span in _spans(track.frames, point, step=step, held=held))
    if not found:
        return ()
    beat = float(np.min(np.diff(track.frames)))
    merged = [found[0]]
    for span in found[1:]:
        if span.start <= merged[-1].end + 0.5 * beat:
            if span.end > merged[-1].end:
                merged[-1] = merged[-1]._replace(end=span.end, end_error=span.end_error)
        else:
            merged.append(span)
    gaps = [
        Gap(before.end, after.start, before.end_error, after.start_error)
        for before, after in zip(merged, merged[1:], strict=False)
    ]
    if merged[0].start > track.frames[0]:
        gaps.insert(0, Gap(None, merged[0].start, 0.0, merged[0].start_error))
    if merged[-1].end < track.frames[-1]:
        gaps.append(Gap(merged[-1].end, None, merged[-1].end_error, 0.0))
    return tuple(gaps)


def _spans(frames: np.ndarray, point: Point, *, step: int, held: bool) -> list[_Span]:
    """The contacts of one point, each end where the air meets the ground."""
    made = []
    backward = frames[::-1], Point(*(part[::-1] for part in point[:3]), point.near, point.noise)
    for first, last in _runs(point.down):
        end = _leaves(frames, point, last, step=step, held=held)
        start = _leaves(*backward, len(frames) - 1 - first, step=1, held=held)
        made.append(_Span(start[0], end[0], start[1], end[1]))
    return made


def _leaves(frames: np.ndarray, point: Point, last: int, *, step: int, held: bool) -> tuple[float, float]:
    """Where a point leaves the ground after its last sample on it, and the standard error, frames."""
    if last + 1 >= len(frames):
        return float(frames[last]), 0.0
    if held:
        return float(frames[last + 1] - step * np.sign(frames[last + 1] - frames[last])), step / 12**0.5
    last = _flat(point, last)
    here, there = float(frames[last]), float(frames[last + 1])
    left, error = 0.5 * (here + there), UNSURE * abs(there - here)
    if last + 2 < len(frames):
        rise = point.heights[last + 1 : last + 3] - point.level[last]
        pace = rise[1] - rise[0]
        back = rise[0] / pace if pace > 0.0 else 0.5
        left = there - (frames[last + 2] - there) * min(max(back, 0.0), 1.0)
    return float(left), error


def _flat(point: Point, last: int) -> int:
    """The last sample that is down, not on its way up within the tolerance."""
    least = max(NEAR_NOISE * point.noise, FLAT * point.near)
    for at in range(last, max(last - ROLLS, 0), -1):
        if not (
            point.down[at - 1]
            and least < point.heights[at] - point.level[at] > point.heights[at - 1] - point.level[at - 1]
        ):
            return at
    return last


def _runs(down: np.ndarray) -> np.ndarray:
    edges = np.flatnonzero(np.diff(np.concatenate(([0], down.astype(np.int8), [0]))))
    return edges.reshape(-1, 2) - [0, 1]


def _flat_on(down: np.ndarray) -> np.ndarray:
    """The samples that have one on the ground on either side: next to the air a foot is no longer flat."""
    inner = down.copy()
    inner[1:] &= down[:-1]
    inner[:-1] &= down[1:]
    return inner


def _slide(places: np.ndarray, frames: np.ndarray, down: np.ndarray) -> tuple[float, tuple[float, float] | None]:
    """The farthest a point moves from where it came down."""
    far: tuple[float, tuple[float, float] | None] = 0.0, None
    for first, last in _runs(down):
        moved = np.linalg.norm(places[first : last + 1] - places[first], axis=1)
        if moved.max() > far[0]:
            far = float(moved.max()), (float(frames[first]), float(frames[first + int(moved.argmax())]))
    return far


def _sink(frames: np.ndarray, point: Point, near: np.ndarray) -> tuple[float, tuple[float, float] | None]:
    """The deepest a point lies under its level, and the stretch around it that is more than half as deep."""
    depth = np.where(point.down & near, point.level - point.heights, 0.0)
    at = int(np.argmax(depth))
    if not depth[at] > 0.0:
        return 0.0, None
    first, last = next(run for run in _runs(depth > 0.5 * depth[at]) if run[0] <= at <= run[1])
    return float(depth[at]), (float(frames[first]), float(frames[last]))


def _below(track: Track, points: tuple[Point, ...], takeoff: float) -> float | None:
    """Height of the track over the lowest point that stands nearest to takeoff."""
    at = int(np.argmin(np.abs(track.frames - takeoff)))
    feet = track.feet[:, :, 2]
    stood = [feet[i, n] for n, point in enumerate(points) for i in np.flatnonzero(point.down[: at + 1])[-1:]]
    return float(np.interp(takeoff, track.frames, track.heights) - min(stood)) if stood else None
