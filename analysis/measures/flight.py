"""Flight: how high, how long, and under which gravity. Meters, frames, m/s²."""

import math
from dataclasses import dataclass

import numpy as np

from ..phases import Phases
from ..quantity import Quantity, Unit
from ..track import Track
from ..world import World
from .arc import ArcShape, FreeSides, measure_shape
from .readings import Readings, measured


@dataclass(frozen=True, slots=True, kw_only=True)
class Flight:
    """The figures of one flight.

    height, drop          meters, takeoff to apex and apex to landing
    rise, fall, airtime   frames; rise_expected, fall_expected: what the heights ask for in the world's gravity
    gravity               m/s², of the arc, else of the heights and the airtime; pace is the root of its share of
                          the world's, 1 in real time. None: the body neither rises nor falls
    takeoff_speed, landing_speed   m/s, up and down, at the ends of the flight
    samples               samples strictly between takeoff and landing; of held poses, poses
    noise                 meters that the samples in the air scatter
    free                  rise and fall by their lower parts, where the arc as a whole does not hold
    """

    height: Quantity
    drop: Quantity
    rise: Quantity
    rise_expected: Quantity
    fall: Quantity
    fall_expected: Quantity
    airtime: Quantity
    gravity: Quantity | None = None
    pace: Quantity | None = None
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
        """Return meters that a body falls from rest in so many seconds, at the pace of the flight's lower parts."""
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


def measure_flight(track: Track, phases: Phases, world: World, *, readings: Readings) -> tuple[Flight, ArcShape]:
    """Measure the flight of one jump, and its shape.

    Rise and fall are judged apart, since a landing may lie higher or lower than the takeoff:
    sqrt(2 h / g) and sqrt(2 drop / g). Gravity is the arc's; without an arc it is the one under which
    h and drop take the airtime. Where the arc does not hold, each side's speed is its own.
    """
    fps, up, down, gravity, air = track.fps, readings.up, readings.down, readings.gravity, readings.air
    rise, fall = readings.apex - readings.takeoff, readings.landing - readings.apex
    v_up, v_down = math.sqrt(2.0 * float(gravity[0] * up[0])), math.sqrt(2.0 * float(gravity[0] * down[0]))
    shape, free = measure_shape(track, phases, air, noise=readings.noise, speed=0.5 * (v_up + v_down))
    v_up = 2.0 * float(up[0]) / free.rise * fps if free and free.rise else v_up
    v_down = 2.0 * float(down[0]) / free.fall * fps if free and free.fall else v_down
    figures = {
        "height": (up, Unit.METERS),
        "drop": (down, Unit.METERS),
        "rise": (rise, Unit.FRAMES),
        "rise_expected": (np.sqrt(2.0 * up / world.gravity) * fps, Unit.FRAMES),
        "fall": (fall, Unit.FRAMES),
        "fall_expected": (np.sqrt(2.0 * down / world.gravity) * fps, Unit.FRAMES),
        "airtime": (rise + fall, Unit.FRAMES),
    }
    if gravity[0] > 0.0:
        figures["gravity"] = gravity, Unit.ACCELERATION
        figures["pace"] = np.sqrt(gravity / world.gravity), Unit.NONE
    return Flight(
        **measured(figures),
        takeoff_speed=v_up,
        landing_speed=v_down,
        samples=len(range(air.start, air.stop, air.step or 1)),
        noise=readings.noise,
        free=free,
    ), shape
