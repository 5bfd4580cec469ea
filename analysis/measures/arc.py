"""Arc: which samples a flight is read from, how much they scatter, and how truly they run on a parabola."""

import math
from dataclasses import dataclass

import numpy as np

from ..arrays import Array
from ..beat import ROUNDING
from ..phases import Arc, Event, Phases
from ..quantity import Quantity, as_ratio
from ..track import Track

APEX_LEVEL = 0.25
"""The apex is read between the two passages of a sixteenth of the height below the top, which a parabola
passes a quarter of rise and fall away from it; nearer to the top noise decides, farther the sides do."""


OFF_ARC = 0.02
"""Largest departure from the arc, as a share of the height, past which each side of the flight is measured by itself
(ours)."""


OFF_CURVE = 0.1
"""Share of an event's error that goes into a figure of shape.

An event put elsewhere on the arc changes no such figure: between any two of its points a parabola has its apex, and its
halves, where they belong; off the arc it does.
"""


@dataclass(frozen=True, slots=True)
class Residual:
    """How far the samples lie off the fitted arc, meters: rms and worst; frames are those around the worst that
    lie on its side of the arc."""

    rms: float
    worst: float
    frames: tuple[float, float]


@dataclass(frozen=True, slots=True)
class Departure:
    """How far an eased curve runs from the arc through its poses, at most, meters; at which frame; and the standard
    error of that, meters: poses are set on whole frames, and their arc may run as far beside them.
    """

    off: float
    frame: float
    error: float


@dataclass(frozen=True, slots=True)
class ArcShape:
    """The shape of one flight. None: the samples are not drawn, or too few.

    residual    of the samples against the arc
    top_share   share of the airtime above three quarters of the height: ½ for a parabola
    skew        apex before (under 0) or after where a parabola between the same ends has it, share of airtime
    drawn       of keyed poses alone: how far the curve between them leaves their arc
    """

    residual: Residual | None = None
    top_share: Quantity | None = None
    skew: Quantity | None = None
    drawn: Departure | None = None


@dataclass(frozen=True, slots=True)
class FreeSides:
    """Frames of rise and fall that their lower three quarters ask for, where the arc as a whole does not hold."""

    rise: float
    fall: float


def frame_error(event: Event, *, phases: Phases) -> float:
    """Return the standard error of an event in frames; a keyed pose is never known better than its step."""
    if phases.method == "keys":
        return max(event.frame_error, phases.step * ROUNDING)
    return event.frame_error


def is_drawn(phases: Phases) -> bool:
    """Tell whether the samples of the flight are poses of their own, one a frame or one a step."""
    return phases.method == "curve" and (phases.step > 1 or not phases.held)


def air_samples(track: Track, phases: Phases) -> slice:
    """Return the samples strictly between takeoff and landing; of held ones, those where a pose begins."""
    frames, takeoff = track.frames, phases.takeoff.frame
    start, stop = int(frames.searchsorted(takeoff)), int(frames.searchsorted(phases.landing.frame))
    if start < len(frames) and frames[start] == takeoff:
        start += 1
    if not phases.held or phases.arc is None or stop - start < 2:
        return slice(start, stop)
    stride = max(1, round(phases.step / float(frames[start + 1] - frames[start])))
    pose = int(frames.searchsorted(phases.arc.first))
    return slice(start + (pose - start) % stride, stop, stride)


def scatter(heights: Array) -> float:
    """Estimate the noise of samples, meters, from their fourth differences: a parabola or a cubic has none.

    The middle one counts, so that a hitch in few frames is not noise. sqrt(70) is the root of the sum of
    the squared weights, 0.6745 the middle of |a unit normal|.
    """
    z = heights
    if len(z) < 5:
        return 0.0
    fourth = z[4:] + z[:-4] - 4.0 * (z[3:-1] + z[1:-3]) + 6.0 * z[2:-2]
    return sorted(np.abs(fourth).tolist())[len(fourth) // 2] / (0.6745 * math.sqrt(70.0))


def measure_shape(
    track: Track, phases: Phases, air: slice, *, noise: float, speed: float
) -> tuple[ArcShape, FreeSides | None]:
    """Measure the shape of a flight from its samples; of keyed poses only where the apex lies.

    noise is in meters, speed in m/s: the mean of takeoff and landing speed, which turns noise into time. The
    sides come beside it where the arc does not hold.
    """
    if phases.method == "keys":
        return _posed(track, phases, air), None
    frames, heights = track.frames[air], track.heights[air]
    if not is_drawn(phases) or phases.arc is None or len(frames) < 5:
        return ArcShape(), None
    residual = _residual(phases.arc, frames, heights, track.fps)
    share, skew, rise, fall = _top(phases, frames, heights)
    # Of a fall off a ledge, which does not rise, the height is the drop.
    height = phases.apex.height - min(phases.takeoff.height, phases.landing.height)
    holds = residual.worst <= OFF_ARC * height + 4.0 * noise
    # A passage at depth s² has s times the end speed; two passages make each figure. Each is read between two
    # samples, which leaves sqrt(2/3) of their noise in the mean over where between them it lies.
    airtime = (phases.landing.frame - phases.takeoff.frame) / track.fps
    error = math.sqrt(2.0 / 3.0) * noise / (speed * airtime) if speed > 0.0 else 0.0
    ends = math.hypot(phases.takeoff.frame_error, phases.landing.frame_error)
    relative = ends / (phases.landing.frame - phases.takeoff.frame)
    # A top that is read too high by x puts three quarters of its height, at half the speed, 1.5 x / v farther in on
    # either side; it is the mean of the samples around it.
    around = 2 * max(1, len(heights) // 8) + 1
    e_top = 3.0 * noise / (speed * airtime) / math.sqrt(around) if speed > 0.0 else 0.0
    e_skew = math.hypot(math.sqrt(0.5) * error / APEX_LEVEL / (1.0 - APEX_LEVEL), OFF_CURVE * relative)
    shape = ArcShape(
        residual=residual,
        top_share=as_ratio(share, math.hypot(math.sqrt(2.0) * error / 0.5, e_top, OFF_CURVE * relative)),
        skew=as_ratio(skew, e_skew),
    )
    return shape, None if holds else FreeSides(rise, fall)


def _residual(arc: Arc, frames: Array, heights: Array, fps: float) -> Residual:
    """Return the rms of the fit, its largest residual, and the frames around that one that share its side."""
    off = heights - arc.heights(frames, fps)
    size = np.abs(off)
    at = int(size.argmax())
    worst = float(size[at])
    same = ((off * off[at] > 0.0) & (size >= 0.5 * worst)).tolist()
    first = last = at
    while first > 0 and same[first - 1]:
        first -= 1
    while last + 1 < len(same) and same[last + 1]:
        last += 1
    return Residual(arc.residual_rms, worst, (float(frames[first]), float(frames[last])))


def _top(phases: Phases, frames: Array, heights: Array) -> tuple[float, float, float, float]:
    """Return the share of the airtime above three quarters of the height, skew of the apex, and free rise and fall.

    Each side has its own height, from its own end. Against time, the root of the depth below the top is
    straight for a parabola; so the passages are read on it, and are exact for one. A side's first half
    reaches three quarters of its height: twice that is its rise or fall without any hang.
    """
    takeoff, landing = phases.takeoff, phases.landing
    top = _summit(heights)
    depth = np.sqrt(np.maximum(top - heights, 0.0)).tolist()
    deep_up = math.sqrt(max(top - takeoff.height, 0.0))
    deep_down = math.sqrt(max(top - landing.height, 0.0))
    rise = [(takeoff.frame, deep_up), *zip(frames.tolist(), depth, strict=True), (landing.frame, deep_down)]
    fall = rise[::-1]
    airtime = landing.frame - takeoff.frame
    up, down = _passage(rise, 0.5 * deep_up), _passage(fall, 0.5 * deep_down)
    first, last = _passage(rise, APEX_LEVEL * deep_up), _passage(fall, APEX_LEVEL * deep_down)
    part = deep_up / (deep_up + deep_down) if deep_up + deep_down > 0.0 else 0.5
    off = first + part * (last - first) - (takeoff.frame + part * airtime)
    return (
        (down - up) / airtime,
        off / (1.0 - APEX_LEVEL) / airtime,
        2.0 * (up - takeoff.frame),
        2.0 * (landing.frame - down),
    )


def _passage(side: list[tuple[float, float]], level: float) -> float:
    """Return the first frame at which the depth of a side comes up to a level; of its least depth if it never does."""
    before, deep = side[0]
    for frame, depth in side:
        if depth <= level:
            return frame - (level - depth) / (deep - depth) * (frame - before) if deep > depth else frame
        before, deep = frame, depth
    return min(side, key=lambda at: at[1])[0]


def _summit(heights: Array) -> float:
    """Return the top of the least-squares parabola through the highest sample and those around it, an eighth to each
    side.
    """
    i = int(heights.argmax())
    reach = min(i, len(heights) - 1 - i, max(1, len(heights) // 8))
    if reach == 0:
        return float(heights[i])
    top, x = heights[i - reach : i + reach + 1], np.arange(-reach, reach + 1.0)
    size = float(x @ x)
    square = x * x - size / len(x)
    slope, bend = float(x @ top) / size, float(square @ top) / float(square @ square)
    middle = float(top.mean()) - bend * size / len(x)
    return middle - slope * slope / (4.0 * bend) if bend < 0.0 else float(top.max())


def _posed(track: Track, phases: Phases, air: slice) -> ArcShape:
    """Tell where the apex pose lies, and how far an eased curve runs from the arc through the poses."""
    takeoff, apex, landing = phases.takeoff, phases.apex, phases.landing
    rise, fall = apex.frame - takeoff.frame, landing.frame - apex.frame
    up, down = max(apex.height - takeoff.height, 0.0), max(apex.height - landing.height, 0.0)
    both = math.sqrt(up) + math.sqrt(down)
    part = math.sqrt(up) / both if both else 0.5
    e_takeoff, e_apex, e_landing = [frame_error(event, phases=phases) for event in (takeoff, apex, landing)]
    e_skew = math.hypot(e_apex, (1.0 - part) * e_takeoff, part * e_landing) / (rise + fall)
    skew = as_ratio(rise / (rise + fall) - part, e_skew)
    if phases.held or air.start >= air.stop:
        return ArcShape(skew=skew)
    worst, at = -1.0, apex.frame
    for frame, height in zip(track.frames[air].tolist(), track.heights[air].tolist(), strict=True):
        depth, span = (up, rise) if frame < apex.frame else (down, fall)
        part = (frame - apex.frame) / span
        off = abs(height - (apex.height - depth * (part * part)))
        if off > worst:
            worst, at = off, frame
    # The share of the way to the contact, s, moves by (1 - s) / span with the apex, by s / span with the contact, and
    # the depth there, s² of all, by 2 s of that.
    depth, span, end = (up, rise, e_takeoff) if at < apex.frame else (down, fall, e_landing)
    share = abs(at - apex.frame) / span
    error = 2.0 * depth * share * math.hypot((1.0 - share) * e_apex, share * end) / span
    return ArcShape(skew=skew, drawn=Departure(worst, at, error))
