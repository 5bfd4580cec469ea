"""What the feet of one jump do: leave, touch, slide, sink; read from the feet of its track.

Frames and metres, z up; sub-frame where the heights allow.
"""

from typing import NamedTuple

import numpy as np

from ..feet import Feet, feet_of
from ..feet.contacts import runs
from ..feet.ground import Point
from ..phases import Phases
from ..track import Track


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


def measure_contact(track: Track, phases: Phases, feet: Feet | None = None) -> Contact:
    """Measure the feet of one jump; of a track without feet, or whose feet never stand, nothing is known.

    feet: as `feet_of` reads them from the track; read here where they are not given.
    """
    if feet is None and (feet := feet_of(track)) is None:
        return Contact()
    gap = feet.gap_over(phases.takeoff.frame, phases.landing.frame, step=phases.step, held=phases.held)
    end = phases.landing.frame + phases.landing.frame - phases.apex.frame
    if phases.absorbed is not None:
        end = max(end, phases.absorbed.frame)
    start = phases.takeoff.frame - 1.0 if phases.crouch is None else phases.crouch.frame
    first, stop = (int(at) for at in np.searchsorted(track.frames, (start, np.nextafter(end, np.inf))))
    slides = [_slide(track, number, point, first, stop) for number, point in enumerate(feet.points)]
    sinks = [_sink(track.frames, point, first, stop) for point in feet.points]
    slide, slid = max(slides, key=lambda slide: slide[0])
    sink, sunk = max(sinks, key=lambda sink: sink[0])
    off = (gap.takeoff, gap.takeoff_error, gap.landing, gap.landing_error) if gap else (None,) * 4
    return Contact(*off, slide, slid, sink, sunk, feet.noise, _below(track, feet, phases.takeoff.frame))


Found = tuple[float, tuple[float, float] | None]
"""Metres, and the first and last frame of it; nothing found has none."""


def _slide(track: Track, number: int, point: Point, first: int, stop: int) -> Found:
    """The farthest a point moves from where it came down, from sample `first` to before `stop`.

    A sample counts where the ones beside it are on the ground too: next to the air a foot is no longer flat.
    """
    padded = np.concatenate(([True], point.down, [True]))[first : stop + 2]
    flat = padded[1:-1] & padded[:-2] & padded[2:]
    far: Found = 0.0, None
    for start, last in runs(flat) + first:
        places = track.feet[start : last + 1, number, :2]
        moved = np.linalg.norm(places - places[0], axis=1)
        if moved.max() > far[0]:
            far = float(moved.max()), (float(track.frames[start]), float(track.frames[start + int(moved.argmax())]))
    return far


def _sink(frames: np.ndarray, point: Point, first: int, stop: int) -> Found:
    """The deepest a point lies under its level, and the stretch around it that is more than half as deep."""
    near = slice(first, stop)
    depth = np.where(point.down[near], point.level[near] - point.heights[near], 0.0)
    at = int(np.argmax(depth)) if len(depth) else 0
    if not len(depth) or not depth[at] > 0.0:
        return 0.0, None
    start, last = next(run for run in runs(depth > 0.5 * depth[at]) if run[0] <= at <= run[1])
    return float(depth[at]), (float(frames[first + start]), float(frames[first + last]))


def _below(track: Track, feet: Feet, takeoff: float) -> float | None:
    """Height of the track over the lowest point that stands nearest to takeoff."""
    at = int(np.argmin(np.abs(track.frames - takeoff)))
    stood = [float(track.feet[last, number, 2]) for number, last in feet.last_down(at)]
    return float(np.interp(takeoff, track.frames, track.heights)) - min(stood) if stood else None
