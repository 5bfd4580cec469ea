"""What the feet of one jump do: leave, touch, slide, sink; read from the feet of its track.

Frames and meters, z up; sub-frame where the heights allow.
"""

from dataclasses import dataclass

import numpy as np

from ..arrays import Array
from ..feet import Feet, feet_of
from ..feet.contacts import runs
from ..feet.feet import split_stretches
from ..feet.ground import Point
from ..phases import Phases
from ..quantity import Quantity, in_frames
from ..track import Track
from ..world import STANCES, World

SMALLEST = 0.01
"""Size of the body over its kind's own, under which the track lies on its feet and tells no size (ours)."""


@dataclass(frozen=True, slots=True)
class Shift:
    """How far a foot moves that should stand, meters, and from which frame to which; no frames: it does not."""

    distance: float
    frames: tuple[float, float] | None


@dataclass(frozen=True, slots=True)
class FootContact:
    """What the feet do in one jump. None: cannot be known.

    off, on   frames at which the last foot leaves the ground and the first one touches it
    slide     farthest that a point on the ground moves along it from where it came down
    sink      deepest that a point lies under where it stands
    noise     meters of noise of the feet
    below     height of the track over its feet at takeoff, meters: the size of the body
    """

    off: Quantity | None
    on: Quantity | None
    slide: Shift
    sink: Shift
    noise: float
    below: float | None


def measure_contact(track: Track, phases: Phases, feet: Feet | None = None) -> FootContact | None:
    """Measure the feet of one jump; None where they are not known, or never stand.

    feet: as `feet_of` reads them from the track; read here where they are not given.
    """
    feet = feet_of(track) if feet is None else feet
    if feet is None or not feet.knows(phases.takeoff.frame, phases.landing.frame):
        return None
    gap = feet.gap_over(phases.takeoff.frame, phases.landing.frame, step=phases.step, held=phases.held)
    end = phases.landing.frame + phases.landing.frame - phases.apex.frame
    if phases.absorbed is not None:
        end = max(end, phases.absorbed.frame)
    start = phases.takeoff.frame - 1.0 if phases.crouch is None else phases.crouch.frame
    first, stop = (int(at) for at in np.searchsorted(feet.frames, (start, np.nextafter(end, np.inf))))
    points = np.empty((len(track.frames), 0, 3)) if track.feet is None else track.feet
    slides = [_slide(points, feet, number, first, stop) for number in range(len(feet.points))]
    sinks = [_sink(feet.frames, point, first, stop) for point in feet.points]
    return FootContact(
        off=in_frames(gap.takeoff, gap.takeoff_error or 0.0) if gap and gap.takeoff is not None else None,
        on=in_frames(gap.landing, gap.landing_error or 0.0) if gap and gap.landing is not None else None,
        slide=max(slides, key=lambda slide: slide.distance),
        sink=max(sinks, key=lambda sink: sink.distance),
        noise=feet.noise,
        below=_below(track, points, feet, phases.takeoff.frame),
    )


def size_of(world: World, contact: FootContact | None) -> float:
    """Give the size of the body against its kind's own: as the world says, else by the height over its feet, else 1."""
    stance = STANCES.get(world.kind)
    if world.size is not None or stance is None or contact is None or not contact.below:
        return world.size or 1.0
    return max(contact.below / stance, SMALLEST)


def _slide(feet_at: Array, feet: Feet, number: int, first: int, stop: int) -> Shift:
    """Return the farthest a point moves from where it came down, from sample `first` to before `stop`.

    A sample counts where the ones beside it are on the ground too: next to the air a foot is no longer flat.
    """
    padded = np.concatenate(([True], feet.points[number].down, [True]))[first : stop + 2]
    flat = padded[1:-1] & padded[:-2] & padded[2:]
    far = Shift(0.0, None)
    for start, last in split_stretches(runs(flat) + first, feet.rows):
        places = feet_at[feet.rows[start : last + 1], number, :2]
        moved = np.linalg.norm(places - places[0], axis=1)
        if moved.max() > far.distance:
            until = start + int(moved.argmax())
            far = Shift(float(moved.max()), (float(feet.frames[start]), float(feet.frames[until])))
    return far


def _sink(frames: Array, point: Point, first: int, stop: int) -> Shift:
    """Return the deepest a point lies under its level, and the stretch around it that is more than half as deep."""
    near = slice(first, stop)
    depth = np.where(point.down[near], point.level[near] - point.heights[near], 0.0)
    at = int(np.argmax(depth)) if len(depth) else 0
    if not len(depth) or not depth[at] > 0.0:
        return Shift(0.0, None)
    start, last = next(run for run in runs(depth > 0.5 * depth[at]) if run[0] <= at <= run[1])
    return Shift(float(depth[at]), (float(frames[first + start]), float(frames[first + last])))


def _below(track: Track, feet_at: Array, feet: Feet, takeoff: float) -> float | None:
    """Return the height of the track over the lowest point that stands nearest to takeoff."""
    at = int(np.argmin(np.abs(feet.frames - takeoff)))
    stood = [float(feet_at[feet.rows[last], number, 2]) for number, last in feet.last_down(at)]
    return float(np.interp(takeoff, track.frames, track.heights)) - min(stood) if stood else None
