"""Flight: how high, how long, and under which gravity. Metres, frames, m/s²."""

import math
from dataclasses import dataclass

from ..phases import Phases
from ..quantity import Quantity, as_ratio, in_acceleration, in_frames, in_meters
from ..track import Track
from ..world import World
from .arc import FreeSides, Shape, air_samples, frame_error, is_drawn, measure_shape, scatter

FITTED = 0.67
"""Share of one sample's noise in a height that a fit gives: 1.5 / sqrt(n) in the middle of a parabola, n ≥ 5."""


@dataclass(frozen=True, slots=True)
class Flight:
    """The figures of one flight.

    height, drop          metres, takeoff to apex and apex to landing
    rise, fall, airtime   frames; rise_expected, fall_expected: what the heights ask for in the world's gravity
    gravity               m/s², of the arc, else of the heights and the airtime; pace is the root of its share of
                          the world's, 1 in real time. None: the body neither rises nor falls
    takeoff_speed, landing_speed   m/s, up and down, at the ends of the flight
    samples               samples strictly between takeoff and landing; of held poses, poses
    noise                 metres that the samples in the air scatter
    free                  rise and fall by their lower parts, where the arc as a whole does not hold
    """

    height: Quantity
    drop: Quantity
    rise: Quantity
    rise_expected: Quantity
    fall: Quantity
    fall_expected: Quantity
    airtime: Quantity
    gravity: Quantity | None
    pace: Quantity | None
    takeoff_speed: float
    landing_speed: float
    samples: int
    noise: float
    free: FreeSides | None

    @property
    def expected(self) -> float:
        """Frames in the air that both heights ask for."""
        return self.rise_expected.value + self.fall_expected.value

    def falls(self, seconds: float) -> float:
        """Meters that a body falls from rest in so many seconds, at the pace of the flight's lower parts."""
        pull = self.takeoff_speed**2 / self.height.value if self.height.value else 0.0
        return 0.25 * pull * seconds**2

    @property
    def rise_share(self) -> float:
        """Share of the airtime that a parabola between the same ends spends rising: as the roots of the heights."""
        up, down = math.sqrt(self.height.value), math.sqrt(self.drop.value)
        return up / (up + down) if up + down else 0.5

    @property
    def own_rise(self) -> float:
        """Frames of the rise, of its lower part where the arc does not hold."""
        return self.free.rise if self.free and self.free.rise else self.rise.value

    @property
    def own_fall(self) -> float:
        """Frames of the fall, of its lower part where the arc does not hold."""
        return self.free.fall if self.free and self.free.fall else self.fall.value


def measure_flight(track: Track, phases: Phases, world: World) -> tuple[Flight, Shape]:
    """Measure the flight of one jump, and its shape.

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
    e_up = math.hypot(v_up * e_takeoff / fps, FITTED * noise)
    e_down = math.hypot(v_down * e_landing / fps, FITTED * noise)
    shape, free = measure_shape(track, phases, air, noise=noise, speed=0.5 * (v_up + v_down))
    v_up = 2.0 * up / free.rise * fps if free and free.rise else v_up
    v_down = 2.0 * down / free.fall * fps if free and free.fall else v_down
    return Flight(
        height=in_meters(up, e_up),
        drop=in_meters(down, e_down),
        rise=in_frames(rise, math.hypot(e_takeoff, e_apex)),
        rise_expected=_time_of(up, e_up, world.gravity, fps),
        fall=in_frames(fall, math.hypot(e_apex, e_landing)),
        fall_expected=_time_of(down, e_down, world.gravity, fps),
        airtime=in_frames(airtime, e_airtime),
        gravity=in_acceleration(gravity, e_gravity) if gravity else None,
        pace=as_ratio(pace, 0.5 * pace * e_gravity / gravity) if gravity else None,
        takeoff_speed=v_up,
        landing_speed=v_down,
        samples=len(range(air.start, air.stop, air.step or 1)),
        noise=noise,
        free=free,
    ), shape


def _time_of(height: float, error: float, gravity: float, fps: float) -> Quantity:
    """Frames that a height takes; their error is half its share of the height's."""
    time = math.sqrt(2.0 * height / gravity) * fps
    return in_frames(time, 0.5 * time * error / height if height else 0.0)
