"""Push: crouch to takeoff against the flight it starts. Metres, frames, m/s; ratios have no unit."""

import math
from typing import NamedTuple

import numpy as np

from ..phases import Phases
from ..track import Track
from ..world import World
from .arc import frame_error
from .flight import Flight

FEWEST_PUSH_FRAMES = 5
"""Fewer leave the speed at the end of the push to a guess: a cubic ease-in would read a third too slow."""


FADE = 0.03
"""Seconds before takeoff over which a real push fades: recorded ones peak 22 to 27 ms before it (plate
records, BMC laboratory)."""
REBOUND = 0.7
"""Share of the push distance that a rebound drops in the time of a push before it (ours)."""


def spring_shape(ratio: float) -> float:
    """Give the shape k of a push that is the release of a spring, for its push ratio R.

    From the lowest point of a mass on a spring to where the spring is slack: amplitude over sag is 2 R + 1,
    so k = ½ sqrt(R / (R + 1)) (π/2 + asin(1 / (2 R + 1))); π/4 for a spring without weight.

    >>> round(spring_shape(1.0), 4), round(spring_shape(1e9), 4)
    (0.6755, 0.7854)
    """
    angle = 0.5 * math.pi + math.asin(1.0 / (2.0 * ratio + 1.0))
    return 0.5 * math.sqrt(ratio / (ratio + 1.0)) * angle


class Push(NamedTuple):
    """The figures of one push; names and units are those of `Jump`. All None without a push."""

    push_distance: float | None = None
    push_distance_error: float | None = None
    push_ratio: float | None = None
    push_ratio_error: float | None = None
    body_weights: float | None = None
    push_frames: float | None = None
    push_frames_error: float | None = None
    push_frames_expected: float | None = None
    push_frames_expected_error: float | None = None
    push_excess: float | None = None
    push_excess_error: float | None = None
    push_pace: float | None = None
    push_pace_error: float | None = None
    agreement: float | None = None
    agreement_error: float | None = None
    push_shape: float | None = None
    push_shape_error: float | None = None
    push_speed: float | None = None
    push_speed_error: float | None = None
    push_peak_speed: float | None = None
    push_peak_frame: float | None = None
    rebounds: bool = False


def measure_push(track: Track, phases: Phases, world: World, *, flight: Flight) -> Push:
    """Measure the push of one jump against its flight.

    With R = jump height / push distance, a constant push takes rise frames / R, and any push averages
    R + 1 body weights over its distance (work and energy; Samozino et al. 2008 for the constant push).
    A takeoff that is off by one frame moves height from one to the other, so R by v (1/h + 1/d), and
    push frames less expected ones by 1 + 1/R.
    """
    crouch, takeoff = phases.crouch, phases.takeoff
    if crouch is None:
        return Push()
    d, h = takeoff.height - crouch.height, flight.jump_height
    frames, fps = takeoff.frame - crouch.frame, track.fps
    e_crouch, e_takeoff, e_apex = (frame_error(e, phases=phases) for e in (crouch, takeoff, phases.apex))
    timed = Push(push_frames=frames, push_frames_error=math.hypot(e_crouch, e_takeoff))
    if d <= 0.0 or h <= 0.0 or frames <= 0.0 or not flight.air_pace:
        return timed
    ratio = h / d
    moved = flight.takeoff_speed * e_takeoff / fps
    # Around the crouch the push starts with R g, so an error of time there is one of height squared.
    sunk = 0.5 * ratio * flight.fitted_gravity * (e_crouch / fps) ** 2
    low = math.hypot(flight.noise, sunk)
    e_ratio = ratio * math.hypot(moved * (1.0 / h + 1.0 / d), low / d, flight.noise / h)
    expected = (flight.rise_free or flight.rise_frames) / ratio
    heights = expected * math.hypot(low / d, flight.noise / h)
    e_excess = math.hypot((1.0 + 1.0 / ratio) * e_takeoff, e_apex / ratio, e_crouch, heights)
    e_expected = math.hypot((2.0 + 1.0 / ratio) * e_takeoff, e_apex / ratio, heights)
    pace = 2.0 * d / math.sqrt(2.0 * world.gravity * h) * fps / frames
    e_pace = pace * math.hypot(e_excess, flight.rise_frames_error / ratio) / frames
    agreement = pace / flight.air_pace
    e_agreement = agreement * math.hypot(e_excess / frames, flight.air_pace_error / flight.air_pace)
    return timed._replace(
        push_distance=d, push_distance_error=math.hypot(moved, low),
        push_ratio=ratio, push_ratio_error=e_ratio, body_weights=ratio + 1.0,
        push_frames_expected=expected, push_frames_expected_error=e_expected,
        push_excess=frames - expected, push_excess_error=e_excess,
        rebounds=frames < expected and _is_rebound(track, phases),
        push_pace=pace, push_pace_error=e_pace,
        agreement=agreement, agreement_error=e_agreement,
        **_drawn(track, phases, flight, d, e_agreement / agreement),
    )  # fmt: skip


def _drawn(track: Track, phases: Phases, flight: Flight, d: float, relative: float) -> dict[str, float]:
    """What only a drawn curve holds: the shape of the push and the speeds at its end."""
    if phases.method != "curve" or phases.held or phases.arc is None:
        return {}
    frames = phases.takeoff.frame - phases.crouch.frame
    shape = flight.takeoff_speed * frames / track.fps / (2.0 * d)
    found = {"push_shape": shape, "push_shape_error": shape * relative}
    if frames >= FEWEST_PUSH_FRAMES:
        found |= _speeds(track, phases, flight)
    return found


def _speeds(track: Track, phases: Phases, flight: Flight) -> dict[str, float]:
    """Speed at the end of the push, and the largest within it.

    A force that holds to the end gives the slope there of a parabola through the second half; one that fades
    gives about the mean speed over the last moment. Of the speeds between, the flight's own is taken, or the
    one nearest to it.
    """
    first, last = phases.crouch.frame, phases.takeoff.frame
    start, stop = track.frames.searchsorted((first, last))
    t = (track.frames[start:stop] - last) / track.fps
    z = track.heights[start:stop]
    if len(t) < 4:
        return {}
    held, e_held, bend = _end_slope(t, z, flight.noise)
    moment = max(FADE, 0.5 * float(t[-1] - t[-2]))
    i = max(int(t.searchsorted(-moment, side="right")) - 1, 0)
    fading = (phases.takeoff.height - float(z[i])) / -float(t[i])
    low, high = min(held, fading), max(held, fading)
    e_moved = phases.takeoff.frame_error / track.fps * abs(bend + flight.fitted_gravity)
    steps = (z[1:] - z[:-1]) / (t[1:] - t[:-1])
    top = int(steps.argmax())
    return {
        "push_speed": min(max(flight.takeoff_speed, low), high),
        "push_speed_error": math.hypot(max(e_held, flight.noise / -float(t[i])), e_moved),
        "push_peak_speed": float(steps[top]),
        "push_peak_frame": last + 0.5 * float(t[top] + t[top + 1]) * track.fps,
    }


def _end_slope(t: np.ndarray, z: np.ndarray, noise: float) -> tuple[float, float, float]:
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


def _is_rebound(track: Track, phases: Phases) -> bool:
    """Whether the body drops into the crouch about as far, as fast, as it rises out of it."""
    crouch, takeoff = phases.crouch, phases.takeoff
    before = 2.0 * crouch.frame - takeoff.frame
    i = int(track.frames.searchsorted(before, side="right")) - 1
    dropped = i >= 0 and float(track.heights[i]) - crouch.height
    return dropped > REBOUND * (takeoff.height - crouch.height)
