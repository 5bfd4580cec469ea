"""Push: crouch to takeoff against the flight it starts. Meters, frames, m/s; ratios have no unit."""

import math
from dataclasses import dataclass

import numpy as np

from ..arrays import Array
from ..phases import Event, Phases
from ..quantity import Quantity, Unit, in_speed
from ..track import Track
from ..world import World
from .flight import Flight
from .readings import Readings, measured

FEWEST_PUSH_FRAMES = 5
"""Fewest frames of a push whose end speed is told: fewer leave it to a guess, and a cubic ease-in would read a third
too slow."""


FADE = 0.1
"""Share of a push, before takeoff, over which a real one fades: five recorded ones of 243 to 340 ms peak 22 to
27 ms before it, 6.5 to 9.8 % (plate records, BMC laboratory). Times scale with the root of size over gravity, and
so does a share."""
REBOUND = 0.7
"""Least drop before the crouch, in the time of the push, for a push to be a rebound: a share of the push distance
(ours)."""


@dataclass(frozen=True, slots=True)
class PushEnd:
    """The speeds of a drawn push, m/s.

    speed        at its end: the flight's, where the samples before takeoff allow it within an error; else the nearest
                 to it that they allow
    gap          of the nearest that they allow less the flight's; its error knows that both turn with the takeoff
    peak         the largest within it, and peak_frame where that lies
    """

    speed: Quantity
    gap: Quantity
    peak: float
    peak_frame: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Push:
    """The figures of one push.

    frames      it takes; expected: what the flight asks for; excess: frames over that, whose error knows that
                the two share the takeoff
    distance    meters from crouch to takeoff; ratio: jump height over distance
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
    shape: Quantity | None = None
    end: PushEnd | None
    rebounds: bool
    approach: float

    @property
    def body_weights(self) -> float:
        """Mean force of the push over its distance, in body weights: R + 1 for any push."""
        return self.ratio.value + 1.0


def measure_push(
    track: Track, phases: Phases, world: World, *, flight: Flight, readings: Readings, before: Phases | None = None
) -> Push | None:
    """Measure the push of one jump against its flight; None where nothing rises into the air.

    before: the jump before it on the track; only the landing of one makes a rebound.

    With R = jump height / push distance, a constant push takes rise frames / R, and any push averages
    R + 1 body weights over its distance (work and energy; Samozino et al. 2008 for the constant push).
    The readings carry what is unsure: of a takeoff that is off by one frame, height moves from one to the other,
    so that R moves by v (1/h + 1/d), push frames less expected ones by 1 + 1/R, and pace, agreement and shape by the
    share |(2 + 1/R) / E - 1 / F|, where E frames are expected of a push that lasts F.
    """
    crouch, takeoff = phases.crouch, phases.takeoff
    if crouch is None or flight.gravity is None:
        return None
    if takeoff.height <= crouch.height or readings.up.min() <= 0.0 or takeoff.frame <= crouch.frame:
        return None
    fps, d, h, length = track.fps, readings.push, readings.up, readings.takeoff - readings.crouch
    rise = readings.apex - readings.takeoff + (flight.own_rise - flight.rise.value)
    speed = 2.0 * h / rise * fps if flight.free and flight.free.rise else np.sqrt(2.0 * readings.gravity * h)
    expected = rise * d / h
    pace = 2.0 * d / np.sqrt(2.0 * world.gravity * h) * fps / length
    figures = {
        "frames": (length, Unit.FRAMES),
        "expected": (expected, Unit.FRAMES),
        "excess": (length - expected, Unit.FRAMES),
        "distance": (d, Unit.METERS),
        "ratio": (h / d, Unit.NONE),
        "pace": (pace, Unit.NONE),
        "agreement": (pace / np.sqrt(readings.gravity / world.gravity), Unit.NONE),
    }
    end = None
    if _is_curve(phases):
        figures["shape"] = speed * length / fps / (2.0 * d), Unit.NONE
        end = _end(track, phases, crouch, flight, measured({"speed": (speed, Unit.SPEED)})["speed"])
    return Push(
        **measured(figures),
        end=end,
        rebounds=before is not None and _is_rebound(track, crouch, takeoff, before.landing),
        approach=_approach(track, crouch, takeoff),
    )


def _is_curve(phases: Phases) -> bool:
    """Tell whether the track holds a drawn curve through the push, not poses alone."""
    return phases.method == "curve" and not phases.held and phases.arc is not None


def _end(track: Track, phases: Phases, crouch: Event, flight: Flight, flown: Quantity) -> PushEnd | None:
    """Return the speed at the end of the push, and the largest within it. flown: the flight's speed at takeoff, m/s.

    A force that holds to the end gives the slope there of a parabola through the second half; one that fades
    gives about the mean speed over the last moment. Of the speeds between, the flight's own is taken, or the
    one nearest to it, and the error is that of the one that was taken; within its error it is the flight's.
    """
    first, last = crouch.frame, phases.takeoff.frame
    if flight.gravity is None or last - first < FEWEST_PUSH_FRAMES:
        return None
    start, stop = track.frames.searchsorted((first, last))
    t = (track.frames[start:stop] - last) / track.fps
    z = track.heights[start:stop]
    if len(t) < 4:
        return None
    held, e_held, bend = _end_slope(t, z, flight.noise)
    moment = max(FADE * (last - first) / track.fps, 0.5 * float(t[-1] - t[-2]))
    i = max(int(t.searchsorted(-moment, side="right")) - 1, 0)
    fading, e_fading = (phases.takeoff.height - float(z[i])) / -float(t[i]), flight.noise / -float(t[i])
    low, high = sorted(((held, e_held), (fading, e_fading)))
    value, error = low if flown.value < low[0] else high if flown.value > high[0] else (flown.value, 0.0)
    seconds = phases.takeoff.frame_error / track.fps
    gap = in_speed(value - flown.value, math.hypot(error, abs(bend + flight.gravity.value) * seconds))
    # Nothing changes a speed at once: two that agree are one, and the flight tells it better.
    agree = abs(gap.value) <= gap.error
    steps = (z[1:] - z[:-1]) / (t[1:] - t[:-1])
    top = int(steps.argmax())
    return PushEnd(
        speed=flown if agree else in_speed(value, math.hypot(error, abs(bend) * seconds)),
        gap=gap,
        peak=float(steps[top]),
        peak_frame=last + 0.5 * float(t[top] + t[top + 1]) * track.fps,
    )


def _end_slope(t: Array, z: Array, noise: float) -> tuple[float, float, float]:
    """Return the slope at t = 0 of a parabola through the second half of a push, its error, and the acceleration."""
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
    """Tell whether the body comes down from that landing into the crouch about as far, as fast, as it rises out of
    it.
    """
    before = 2.0 * crouch.frame - takeoff.frame
    if not before - (takeoff.frame - crouch.frame) <= landing.frame < crouch.frame:
        return False
    i = int(track.frames.searchsorted(before, side="right")) - 1
    dropped = i >= 0 and float(track.heights[i]) - crouch.height
    return dropped > REBOUND * (takeoff.height - crouch.height)


def _approach(track: Track, crouch: Event, takeoff: Event) -> float:
    """Return the mean speed over the ground in the stretch before the crouch that is as long as the push, m/s."""
    start, stop = track.frames.searchsorted((2.0 * crouch.frame - takeoff.frame, crouch.frame), side="right")
    first, last = max(int(start) - 1, 0), max(int(stop) - 1, 0)
    if last <= first:
        return 0.0
    way = track.positions[last, :2] - track.positions[first, :2]
    seconds = float(track.frames[last] - track.frames[first]) / track.fps
    return math.hypot(float(way[0]), float(way[1])) / seconds
