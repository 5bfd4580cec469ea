"""Travel: the path over the ground while in the air, which nothing can bend or slow. Metres, m/s."""

import math
from functools import lru_cache
from typing import NamedTuple

import numpy as np

from ..phases import Phases
from ..track import Track
from .arc import air_samples, frame_error, is_drawn
from .flight import Flight

STRETCH = 0.15
"""Share of the airtime, two frames at least, over which the slowest stretch is looked for."""
SLOW = 0.2
"""Share of the mean speed under which a direction says nothing."""


class Travel(NamedTuple):
    """The figures of one flight's travel; names and units are those of `Jump`. None: not drawn."""

    distance: float
    distance_error: float
    travel_speed: float
    travel_speed_error: float
    travel_spread: float | None = None
    travel_spread_error: float | None = None
    travel_turn: float | None = None
    travel_turn_error: float | None = None
    travel_slowest: float | None = None
    travel_slowest_frames: tuple[float, float] | None = None
    travel_start_speed: float | None = None
    travel_end_speed: float | None = None


def measure_travel(track: Track, phases: Phases, *, flight: Flight) -> Travel:
    """Measure the horizontal path of one flight.

    The spread is the largest less the smallest speed of a cubic through the samples in the air, as a share
    of the mean; the turn is the range of its direction, radians. Both are zero for a free flight.
    """
    takeoff, landing = phases.takeoff, phases.landing
    air = air_samples(track, phases)
    frames, places = track.frames[air], track.positions[air]
    drawn = is_drawn(phases) and phases.arc is not None and len(frames) >= 5
    if drawn:
        # What happens on the ground may differ; the air's own samples say how it travels there.
        path = places[:, 0] + 1j * places[:, 1]
        span = flight.airtime_frames / float(frames[-1] - frames[0])
        start, chord = complex(path[0]), complex(path[-1] - path[0]) * span
    else:
        start = _place(track, takeoff.frame)
        chord = _place(track, landing.frame) - start
    distance, seconds = abs(chord), flight.airtime_frames / track.fps
    mean = distance / seconds
    errors = (frame_error(takeoff, phases=phases), frame_error(landing, phases=phases))
    e_place = math.sqrt(2.0) * flight.noise
    ends = Travel(
        distance=distance,
        distance_error=math.hypot(e_place, mean / track.fps * math.hypot(*errors)),
        travel_speed=mean,
        travel_speed_error=e_place / seconds,
    )
    if not drawn or distance == 0.0:
        return ends
    path = (path - start) / chord
    return ends._replace(**_drawn(frames, path, track.fps, mean, distance), **_slowest(frames, path.real))


def _place(track: Track, frame: float) -> complex:
    """x + i y at a frame, between its two samples."""
    i = min(max(int(track.frames.searchsorted(frame)), 1), len(track.frames) - 1)
    (a, b), ((x, y, _), (u, v, _)) = track.frames[i - 1 : i + 1].tolist(), track.positions[i - 1 : i + 1].tolist()
    part = (frame - a) / (b - a)
    return complex(x + part * (u - x), y + part * (v - y))


def _drawn(frames: np.ndarray, path: np.ndarray, fps: float, mean: float, distance: float) -> dict[str, float]:
    """Spread and turn from a cubic least-squares fit of the path over time, in shares of the chord."""
    polynomials, slopes, unsure = _cubic((frames - frames[0]).tobytes())
    weights = polynomials @ path
    velocity = weights @ slopes * (fps * distance / mean)
    left = float(np.vdot(path, path).real - np.vdot(weights, weights).real)
    error = math.sqrt(2.0 * max(left, 0.0) / max(2 * (len(frames) - 4), 1) * unsure) * fps * distance / mean
    speed = np.abs(velocity)
    turn = np.angle(velocity[speed > SLOW])
    if len(turn) and turn.max() - turn.min() > math.pi:
        turn = np.unwrap(turn)
    return {
        "travel_spread": float(speed.max() - speed.min()),
        "travel_spread_error": error,
        "travel_turn": float(turn.max() - turn.min()) if len(turn) else 0.0,
        "travel_turn_error": error,
        "travel_start_speed": float(speed[0]) * mean,
        "travel_end_speed": float(speed[-1]) * mean,
    }


@lru_cache(maxsize=64)
def _cubic(beats: bytes) -> tuple[np.ndarray, np.ndarray, float]:
    """Polynomials of degree 0 to 3, orthonormal over the samples, their slopes, and the variance at an end.

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


def _slowest(frames: np.ndarray, along: np.ndarray) -> dict[str, object]:
    """The slowest stretch along the chord: its speed as a share of the mean, and its frames."""
    width = max(2, math.ceil(STRETCH * len(frames)))
    pace = (along[width:] - along[:-width]) / (frames[width:] - frames[:-width])
    at = int(pace.argmin())
    span = float(along[-1] - along[0]) / float(frames[-1] - frames[0])
    return {
        "travel_slowest": float(pace[at]) / span if span else 0.0,
        "travel_slowest_frames": (float(frames[at]), float(frames[at + width])),
    }
