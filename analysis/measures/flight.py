"""Flight: how high, how long, and under which gravity. Metres, frames, m/s²."""

import math
from typing import NamedTuple

from ..phases import Phases
from ..track import Track
from ..world import World
from .arc import air_samples, frame_error, is_drawn, measure_shape, scatter


class Flight(NamedTuple):
    """The figures of one flight; names and units are those of `Jump`."""

    jump_height: float
    jump_height_error: float
    drop_height: float
    drop_height_error: float
    rise_frames: float
    rise_frames_error: float
    rise_frames_expected: float
    rise_frames_expected_error: float
    fall_frames: float
    fall_frames_error: float
    fall_frames_expected: float
    fall_frames_expected_error: float
    airtime_frames: float
    airtime_frames_error: float
    fitted_gravity: float | None
    fitted_gravity_error: float | None
    air_pace: float | None
    air_pace_error: float | None
    rise_free: float | None
    fall_free: float | None
    residual_rms: float | None
    residual_worst: float | None
    residual_frames: tuple[float, float] | None
    top_quarter_share: float | None
    top_quarter_share_error: float | None
    apex_skew: float | None
    apex_skew_error: float | None
    takeoff_speed: float
    landing_speed: float
    air_samples: int
    noise: float
    drawn_off: float | None
    drawn_off_frame: float | None


def measure_flight(track: Track, phases: Phases, world: World) -> Flight:
    """Measure the flight of one jump.

    Rise and fall are judged apart, since a landing may lie higher or lower than the takeoff:
    sqrt(2 h / g) and sqrt(2 drop / g). Gravity is the arc's; without an arc it is the one under which
    h and drop take the airtime, 2 (sqrt h + sqrt drop)² / T², which needs no apex. Where the arc does not
    hold, each side's speed is its own.
    """
    takeoff, apex, landing = phases.takeoff, phases.apex, phases.landing
    fps, arc = track.fps, phases.arc
    up = max(apex.height - takeoff.height, 0.0)
    down = max(apex.height - landing.height, 0.0)
    rise, fall = apex.frame - takeoff.frame, landing.frame - apex.frame
    airtime = landing.frame - takeoff.frame
    e_takeoff, e_apex, e_landing = (frame_error(e, phases=phases) for e in (takeoff, apex, landing))
    e_airtime = math.hypot(e_takeoff, e_landing)
    if arc is not None and arc.gravity > 0.0:
        gravity, e_gravity = arc.gravity, arc.gravity_error
    else:
        gravity = 2.0 * ((math.sqrt(up) + math.sqrt(down)) * fps / airtime) ** 2
        e_gravity = gravity * 2.0 * e_airtime / airtime
    v_up, v_down = math.sqrt(2.0 * gravity * up), math.sqrt(2.0 * gravity * down)
    pace = math.sqrt(gravity / world.gravity)
    air = air_samples(track, phases)
    noise = scatter(track.heights[air]) if is_drawn(phases) else 0.0
    e_up = math.hypot(v_up * e_takeoff / fps, noise)
    e_down = math.hypot(v_down * e_landing / fps, noise)
    shape = measure_shape(track, phases, air, noise=noise, speed=0.5 * (v_up + v_down))
    v_up = 2.0 * up / shape.rise_free * fps if shape.rise_free else v_up
    v_down = 2.0 * down / shape.fall_free * fps if shape.fall_free else v_down
    rise_expected, e_rise_expected = _time_of(up, e_up, world.gravity, fps)
    fall_expected, e_fall_expected = _time_of(down, e_down, world.gravity, fps)
    return Flight(
        jump_height=up, jump_height_error=e_up, drop_height=down, drop_height_error=e_down,
        rise_frames=rise, rise_frames_error=math.hypot(e_takeoff, e_apex),
        rise_frames_expected=rise_expected, rise_frames_expected_error=e_rise_expected,
        fall_frames=fall, fall_frames_error=math.hypot(e_apex, e_landing),
        fall_frames_expected=fall_expected, fall_frames_expected_error=e_fall_expected,
        airtime_frames=airtime, airtime_frames_error=e_airtime,
        fitted_gravity=gravity or None, fitted_gravity_error=e_gravity if gravity else None,
        air_pace=pace or None, air_pace_error=0.5 * pace * e_gravity / gravity if gravity else None,
        takeoff_speed=v_up, landing_speed=v_down,
        air_samples=len(range(air.start, air.stop, air.step or 1)), noise=noise, **shape._asdict(),
    )  # fmt: skip


def _time_of(height: float, error: float, gravity: float, fps: float) -> tuple[float, float]:
    """Frames that a height takes, and their error: half its share of the height's."""
    frames = math.sqrt(2.0 * height / gravity) * fps
    return frames, 0.5 * frames * error / height if height else 0.0
