"""Travel: the path over the ground while in the air, which nothing can bend or slow. Meters, m/s."""

import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from ..arrays import Array
from ..phases import Phases
from ..quantity import Quantity, as_ratio, in_meters, in_radians, in_speed
from ..track import Track
from .arc import frame_error, is_drawn
from .flight import Flight

STOP_SHARE = 0.15
"""Length of the slowest stretch that is looked for, as a share of the airtime; two frames at least."""
SLOW_SHARE = 0.2
"""Speed under which a direction says nothing, as a share of the mean speed."""


@dataclass(frozen=True, slots=True)
class TravelCourse:
    """How speed and direction over the ground change in the air; nothing does for a free flight.

    spread                   largest less smallest speed, as a share of the mean
    turn                     range of the direction, radians
    slowest                  speed along the way of the slowest stretch, as a share of the mean; slowest_frames
                             are its first and last
    start_speed, end_speed   m/s
    strays                   meters that the samples lie off a straight and even way at most (least squares)
    """

    spread: Quantity
    turn: Quantity
    slowest: float
    slowest_frames: tuple[float, float]
    start_speed: float
    end_speed: float
    strays: float


@dataclass(frozen=True, slots=True)
class Travel:
    """The figures of one flight's travel: meters over the ground, m/s; course is None where it is not drawn."""

    distance: Quantity
    speed: Quantity
    course: TravelCourse | None


def measure_travel(track: Track, phases: Phases, *, flight: Flight, air: slice) -> Travel:
    """Measure the horizontal path of one flight. air: its samples, strictly between takeoff and landing.

    The spread is the largest less the smallest speed of a cubic through the samples in the air, as a share
    of the mean; the turn is the range of its direction, radians. Both are zero for a free flight.
    """
    takeoff, landing = phases.takeoff, phases.landing
    frames, places = track.frames[air], track.positions[air]
    drawn = is_drawn(phases) and phases.arc is not None and len(frames) >= 5
    if drawn:
        # What happens on the ground may differ; the air's own samples say how it travels there.
        path = places[:, 0] + 1j * places[:, 1]
        span = flight.airtime.value / float(frames[-1] - frames[0])
        start, chord = complex(path[0]), complex(path[-1] - path[0]) * span
    else:
        start = _place(track, takeoff.frame)
        chord = _place(track, landing.frame) - start
    distance, seconds = abs(chord), flight.airtime.value / track.fps
    mean = distance / seconds
    errors = (frame_error(takeoff, phases=phases), frame_error(landing, phases=phases))
    e_place = math.sqrt(2.0) * flight.noise
    return Travel(
        distance=in_meters(distance, math.hypot(e_place, mean / track.fps * math.hypot(*errors))),
        speed=in_speed(mean, e_place / seconds),
        course=_course(frames, (path - start) / chord, track.fps, mean, distance) if drawn and distance else None,
    )


def _place(track: Track, frame: float) -> complex:
    """Return x + i y at a frame, between its two samples."""
    i = min(max(int(track.frames.searchsorted(frame)), 1), len(track.frames) - 1)
    (a, b), ((x, y, _), (u, v, _)) = track.frames[i - 1 : i + 1].tolist(), track.positions[i - 1 : i + 1].tolist()
    part = (frame - a) / (b - a)
    return complex(x + part * (u - x), y + part * (v - y))


def _course(frames: Array, path: Array, fps: float, mean: float, distance: float) -> TravelCourse:
    """Return the spread and turn from a cubic least-squares fit of the path over time, in shares of the chord."""
    polynomials, slopes, unsure = _cubic((frames - frames[0]).tobytes())
    weights = polynomials @ path
    velocity = weights @ slopes * (fps * distance / mean)
    left = float(np.abs(path) @ np.abs(path)) - float(np.abs(weights) @ np.abs(weights))
    # Largest less smallest of a whole flight: the difference of two fixed samples has half that variance.
    error = math.sqrt(4.0 * max(left, 0.0) / max(2 * (len(frames) - 4), 1) * unsure) * fps * distance / mean
    pace = np.abs(velocity)
    turn = np.angle(velocity[pace > SLOW_SHARE])
    if len(turn) and turn.max() - turn.min() > math.pi:
        turn = np.unwrap(turn)
    slowest, slowest_frames = _slowest(frames, path.real)
    return TravelCourse(
        spread=as_ratio(float(pace.max() - pace.min()), error),
        turn=in_radians(float(turn.max() - turn.min()) if len(turn) else 0.0, error),
        slowest=slowest,
        slowest_frames=slowest_frames,
        start_speed=float(pace[0]) * mean,
        end_speed=float(pace[-1]) * mean,
        strays=float(np.abs(path - weights[:2] @ polynomials[:2]).max()) * distance,
    )


@lru_cache(maxsize=64)
def _cubic(beats: bytes) -> tuple[Array, Array, float]:
    """Return polynomials of degree 0 to 3, orthonormal over the samples, their slopes, and the variance at an end.

    By their recurrence there are no equations to solve. Flights of one length share them.
    """
    t = np.frombuffer(beats)
    t = t - t.mean()
    p, slope = np.ones_like(t) / math.sqrt(len(t)), np.zeros_like(t)
    polynomials, slopes = [p], [slope]
    for _ in range(3):
        following, steeper = t * p, p + t * slope
        for known, its_slope in zip(polynomials, slopes, strict=True):
            part = float(following @ known)
            following, steeper = following - part * known, steeper - part * its_slope
        size = math.sqrt(float(following @ following))
        p, slope = following / size, steeper / size
        polynomials.append(p)
        slopes.append(slope)
    ends = np.array(slopes)
    return np.array(polynomials), ends, float(ends[:, -1] @ ends[:, -1])


def _slowest(frames: Array, along: Array) -> tuple[float, tuple[float, float]]:
    """Return the slowest stretch along the chord: its speed as a share of the mean, and its frames."""
    width = max(2, math.ceil(STOP_SHARE * len(frames)))
    pace = (along[width:] - along[:-width]) / (frames[width:] - frames[:-width])
    at = int(pace.argmin())
    span = float(along[-1] - along[0]) / float(frames[-1] - frames[0])
    share = float(pace[at]) / span if span else 0.0
    return share, (float(frames[at]), float(frames[at + width]))
