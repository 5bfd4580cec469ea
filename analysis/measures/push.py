"""Push: crouch to takeoff against the flight it starts. Metres, frames, m/s; ratios have no unit."""

import math
from dataclasses import dataclass

from ..arrays import Array
from ..phases import Event, Phases
from ..quantity import Quantity, as_ratio, in_frames, in_meters, in_speed
from ..track import Track
from ..world import World
from .arc import frame_error
from .flight import FITTED, Flight

FEWEST_PUSH_FRAMES = 5
"""Fewer leave the speed at the end of the push to a guess: a cubic ease-in would read a third too slow."""


FADE = 0.1
"""Share of a push, before takeoff, over which a real one fades: five recorded ones of 243 to 340 ms peak 22 to
27 ms before it, 6.5 to 9.8 % (plate records, BMC laboratory). Times scale with the root of size over gravity, and
so does a share."""
REBOUND = 0.7
"""Share of the push distance that a rebound drops in the time of a push before it (ours)."""


@dataclass(frozen=True, slots=True)
class PushEnd:
    """The speeds of a drawn push, m/s.

    speed        at its end: of those that the samples before takeoff allow, nearest to the flight's
    peak         the largest within it, and peak_frame where that lies
    """

    speed: Quantity
    peak: float
    peak_frame: float


@dataclass(frozen=True, slots=True)
class Push:
    """The figures of one push.

    frames      it takes; expected: what the flight asks for; excess: frames over that, whose error knows that
                the two share the takeoff
    distance    metres from crouch to takeoff; ratio: jump height over distance
    pace        1 in real time; agreement: push pace over air pace
    shape       k: push time over 2 d / v, 1 for a constant force, 0.5 for a constant speed. None: not drawn
    end         None: not drawn, or too short to tell
    rebounds    it takes up the landing of the jump before, as fast as it rises: a spring's release may be shorter
    approach    m/s over the ground as the push begins, which a jump can turn upwards
    """

    frames: Quantity
    expected: Quantity
    excess: Quantity
    distance: Quantity
    ratio: Quantity
    pace: Quantity
    agreement: Quantity
    shape: Quantity | None
    end: PushEnd | None
    rebounds: bool
    approach: float

    @property
    def body_weights(self) -> float:
        """Mean force of the push over its distance, in body weights: R + 1 for any push."""
        return self.ratio.value + 1.0


def measure_push(
    track: Track, phases: Phases, world: World, *, flight: Flight, before: Phases | None = None
) -> Push | None:
    """Measure the push of one jump against its flight; None where nothing rises into the air.

    before: the jump before it on the track; only the landing of one makes a rebound.

    With R = jump height / push distance, a constant push takes rise frames / R, and any push averages
    R + 1 body weights over its distance (work and energy; Samozino et al. 2008 for the constant push).
    A takeoff that is off by one frame moves height from one to the other, so R by v (1/h + 1/d), push
    frames less expected ones by 1 + 1/R, and pace, agreement and shape by the share |(2 + 1/R) / E - 1 / F|,
    where E frames are expected of a push that lasts F: d / h gains 2 / E + 2 / rise, the rise loses 1 / rise,
    and rise is E R.
    """
    crouch, takeoff, air, gravity = phases.crouch, phases.takeoff, flight.pace, flight.gravity
    if crouch is None or air is None or gravity is None:
        return None
    d, h = takeoff.height - crouch.height, flight.height.value
    length, fps = takeoff.frame - crouch.frame, track.fps
    if d <= 0.0 or h <= 0.0 or length <= 0.0:
        return None
    e_crouch, e_takeoff, e_apex = (frame_error(e, phases=phases) for e in (crouch, takeoff, phases.apex))
    r = h / d
    moved, noise = flight.takeoff_speed * e_takeoff / fps, FITTED * flight.noise
    # Around the crouch the push starts with R g, so an error of time there is one of height squared.
    sunk = 0.5 * r * gravity.value * (e_crouch / fps) ** 2
    low = math.hypot(noise, sunk)
    expected = flight.own_rise / r
    heights = expected * math.hypot(low / d, noise / h)
    e_excess = math.hypot((1.0 + 1.0 / r) * e_takeoff, e_apex / r, e_crouch, heights)
    pace = 2.0 * d / math.sqrt(2.0 * world.gravity * h) * fps / length
    agreement = pace / air.value
    by_takeoff = abs((2.0 + 1.0 / r) / expected - 1.0 / length) * e_takeoff
    e_pace = math.hypot(by_takeoff, e_crouch / length, low / d, 0.5 * noise / h)
    e_agreement = math.hypot(e_pace, air.error / air.value)
    return Push(
        frames=in_frames(length, math.hypot(e_crouch, e_takeoff)),
        expected=in_frames(expected, math.hypot((2.0 + 1.0 / r) * e_takeoff, e_apex / r, heights)),
        excess=in_frames(length - expected, e_excess),
        distance=in_meters(d, math.hypot(moved, low)),
        ratio=as_ratio(r, r * math.hypot(moved * (1.0 / h + 1.0 / d), low / d, noise / h)),
        pace=as_ratio(pace, pace * e_pace),
        agreement=as_ratio(agreement, agreement * e_agreement),
        shape=_shape(phases, flight, d, length / fps, e_agreement),
        end=_end(track, phases, crouch, flight, gravity.value),
        rebounds=before is not None and _is_rebound(track, crouch, takeoff, before.landing),
        approach=_approach(track, crouch, takeoff),
    )


def _is_curve(phases: Phases) -> bool:
    """Whether the track holds a drawn curve through the push, not poses alone."""
    return phases.method == "curve" and not phases.held and phases.arc is not None


def _shape(phases: Phases, flight: Flight, d: float, seconds: float, relative: float) -> Quantity | None:
    if not _is_curve(phases):
        return None
    shape = flight.takeoff_speed * seconds / (2.0 * d)
    return as_ratio(shape, shape * relative)


def _end(track: Track, phases: Phases, crouch: Event, flight: Flight, gravity: float) -> PushEnd | None:
    """Speed at the end of the push, and the largest within it.

    A force that holds to the end gives the slope there of a parabola through the second half; one that fades
    gives about the mean speed over the last moment. Of the speeds between, the flight's own is taken, or the
    one nearest to it.
    """
    first, last = crouch.frame, phases.takeoff.frame
    if not _is_curve(phases) or last - first < FEWEST_PUSH_FRAMES:
        return None
    start, stop = track.frames.searchsorted((first, last))
    t = (track.frames[start:stop] - last) / track.fps
    z = track.heights[start:stop]
    if len(t) < 4:
        return None
    held, e_held, bend = _end_slope(t, z, flight.noise)
    moment = max(FADE * (last - first) / track.fps, 0.5 * float(t[-1] - t[-2]))
    i = max(int(t.searchsorted(-moment, side="right")) - 1, 0)
    fading = (phases.takeoff.height - float(z[i])) / -float(t[i])
    low, high = min(held, fading), max(held, fading)
    e_moved = phases.takeoff.frame_error / track.fps * abs(bend + gravity)
    steps = (z[1:] - z[:-1]) / (t[1:] - t[:-1])
    top = int(steps.argmax())
    e_end = math.hypot(e_held, e_moved)
    return PushEnd(
        speed=in_speed(min(max(flight.takeoff_speed, low), high), e_end),
        peak=float(steps[top]),
        peak_frame=last + 0.5 * float(t[top] + t[top + 1]) * track.fps,
    )


def _end_slope(t: Array, z: Array, noise: float) -> tuple[float, float, float]:
    """Slope at t = 0 of a parabola through the second half of a push, its error, and the acceleration."""
    m = max(4, (len(t) + 1) // 2)
    part, high = t[-m:], z[-m:]
    middle, half = 0.5 * float(part[0] + part[-1]), 0.5 * float(part[-1] - part[0])
    s = (part - middle) / half
    size = float(s @ s)
    square = s * s - size / m
    # Cross terms vanish for even frames; uneven ones are rare and lose little.
    slope, bend, spread = float(s @ high) / size, float(square @ high), float(square @ square)
    end, bend = -middle / half, 2.0 * bend / spread
    error = noise / half * math.sqrt(1.0 / size + (2.0 * end) ** 2 / spread)
    return (slope + bend * end) / half, error, bend / half**2


def _is_rebound(track: Track, crouch: Event, takeoff: Event, landing: Event) -> bool:
    """Whether the body comes down from that landing into the crouch about as far, as fast, as it rises out of it."""
    before = 2.0 * crouch.frame - takeoff.frame
    if not before - (takeoff.frame - crouch.frame) <= landing.frame < crouch.frame:
        return False
    i = int(track.frames.searchsorted(before, side="right")) - 1
    dropped = i >= 0 and float(track.heights[i]) - crouch.height
    return dropped > REBOUND * (takeoff.height - crouch.height)


def _approach(track: Track, crouch: Event, takeoff: Event) -> float:
    """Mean speed over the ground in the stretch before the crouch that is as long as the push, m/s."""
    start, stop = track.frames.searchsorted((2.0 * crouch.frame - takeoff.frame, crouch.frame), side="right")
    first, last = max(int(start) - 1, 0), max(int(stop) - 1, 0)
    if last <= first:
        return 0.0
    way = track.positions[last, :2] - track.positions[first, :2]
    seconds = float(track.frames[last] - track.frames[first]) / track.fps
    return math.hypot(float(way[0]), float(way[1])) / seconds
