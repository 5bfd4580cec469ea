"""Travel: the path over the ground while in the air, which nothing can bend or slow. Metres, m/s."""

import math
from typing import NamedTuple

import numpy as np

from .arc import air_samples, frame_error, is_drawn
from .flight import Flight
from .phases import Phases
from .track import Track

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
    start, end = _place(track, takeoff.frame), _place(track, landing.frame)
    distance = math.hypot(end[0] - start[0], end[1] - start[1])
    seconds = flight.airtime_frames / track.fps
    mean = distance / seconds
    e_time = mean / track.fps * math.hypot(
        frame_error(takeoff, phases=phases), frame_error(landing, phases=phases)
    )  # fmt: skip
    e_place = math.sqrt(2.0) * flight.noise
    ends = Travel(
        distance=distance, distance_error=math.hypot(e_place, e_time),
        travel_speed=mean, travel_speed_error=e_place / seconds,
    )  # fmt: skip
    air = air_samples(track, phases)
    frames = track.frames[air]
    if not is_drawn(phases) or phases.arc is None or len(frames) < 5 or distance == 0.0:
        return ends
    path = track.positions[air, :2] - start
    return ends._replace(**_drawn(frames, path, track.fps, mean), **_slowest(frames, path, end - start))


def _place(track: Track, frame: float) -> np.ndarray:
    """(2,) x and y at a frame, between its two samples."""
    i = min(max(int(track.frames.searchsorted(frame)), 1), len(track.frames) - 1)
    a, b = float(track.frames[i - 1]), float(track.frames[i])
    part = (frame - a) / (b - a)
    return track.positions[i - 1, :2] * (1.0 - part) + track.positions[i, :2] * part


def _drawn(frames: np.ndarray, path: np.ndarray, fps: float, mean: float) -> dict[str, float]:
    """Spread and turn from a cubic least-squares fit of x and y over time."""
    seconds = (frames - 0.5 * (frames[0] + frames[-1])) / fps
    place = path[:, 0] + 1j * path[:, 1]
    velocity, noise, unsure = 0.0, float(np.vdot(place, place).real), 0.0
    # Orthogonal polynomials by their recurrence: no equations to solve, and slopes alongside.
    p, slope, size = np.ones_like(seconds), np.zeros_like(seconds), float(len(seconds))
    before, slope_before, size_before = slope, slope, math.inf
    for degree in range(4):
        along = complex(p @ place) / size
        velocity = velocity + along * slope
        noise -= abs(along) ** 2 * size
        unsure += float(slope[-1]) ** 2 / size
        if degree < 3:
            away, part = seconds - float(seconds @ (p * p)) / size, size / size_before
            before, slope_before, p, slope = (
                p, slope, away * p - part * before, p + away * slope - part * slope_before,
            )  # fmt: skip
            size, size_before = float(p @ p), size
    error = math.sqrt(2.0 * max(noise, 0.0) / max(2 * (len(seconds) - 4), 1) * unsure)
    speed = np.abs(velocity)
    turn = np.angle(velocity[speed > SLOW * mean])
    if len(turn) and turn.max() - turn.min() > math.pi:
        turn = np.unwrap(turn)
    return {
        "travel_spread": float(speed.max() - speed.min()) / mean,
        "travel_spread_error": error / mean,
        "travel_turn": float(turn.max() - turn.min()) if len(turn) else 0.0,
        "travel_turn_error": error / mean,
        "travel_start_speed": float(speed[0]),
        "travel_end_speed": float(speed[-1]),
    }


def _slowest(frames: np.ndarray, path: np.ndarray, chord: np.ndarray) -> dict[str, object]:
    """The slowest stretch along the chord: its speed as a share of the mean, and its frames."""
    along = path @ chord / float(chord @ chord)
    width = max(2, math.ceil(STRETCH * len(frames)))
    pace = (along[width:] - along[:-width]) / (frames[width:] - frames[:-width])
    at = int(pace.argmin())
    span = float(along[-1] - along[0]) / float(frames[-1] - frames[0])
    return {
        "travel_slowest": float(pace[at]) / span if span else 0.0,
        "travel_slowest_frames": (float(frames[at]), float(frames[at + width])),
    }
