"""Landing: the push's law backward, from touchdown to the lowest point. Meters and frames."""

from dataclasses import dataclass

from ..phases import Phases, Unpushed
from ..quantity import Quantity, Unit
from ..track import Track
from .flight import Flight
from .readings import Readings, measured

DEAD_FRAMES = 3
"""Frames past the landing that must be seen, for a body that does not sink to have stopped dead."""
DEAD_SHARE = 0.03
"""Sinking, as a share of the drop, up to which a body that stays has not given way."""


@dataclass(frozen=True, slots=True)
class Absorb:
    """The figures of one landing, from touchdown to the lowest point.

    frames     it takes; expected: what fall and distance ask for; excess: frames over that, whose error knows
               that the two share the touchdown
    distance   meters that the body sinks; ratio: drop over distance
    """

    frames: Quantity
    expected: Quantity
    excess: Quantity
    distance: Quantity
    ratio: Quantity


def measure_absorb(phases: Phases, *, flight: Flight, readings: Readings) -> Absorb | None:
    """Measure how a jump is absorbed; None where the track ends before, the body does not sink, or may not have fallen.

    A constant deceleration over the absorb distance takes fall frames / (drop / absorb distance): the
    law of the push, time reversed. A landing that is off by one frame moves it as the takeoff does.
    """
    absorbed, landing, drop = phases.absorbed, phases.landing, flight.drop.value
    if absorbed is None or landing.height <= absorbed.height or drop <= 0.0 or readings.down.min() <= 0.0:
        return None
    over = readings.down / readings.sunk
    length = readings.absorbed - readings.landing
    expected = (readings.landing - readings.apex + (flight.own_fall - flight.fall.value)) / over
    return Absorb(**measured({
        "frames": (length, Unit.FRAMES),
        "expected": (expected, Unit.FRAMES),
        "excess": (length - expected, Unit.FRAMES),
        "distance": (readings.sunk, Unit.METERS),
        "ratio": (over, Unit.NONE),
    }))  # fmt: skip


def stops_dead(track: Track, phases: Phases, *, flight: Flight) -> bool:
    """Tell whether the track goes on after the landing and the body neither sinks nor leaves. A point that lies on the
    ground cannot tell.
    """
    if phases.unpushed is Unpushed.ON_GROUND:
        return False
    if phases.absorbed is not None or phases.method != "curve" or phases.held or flight.drop.value <= 0.0:
        return False
    after = phases.landing.frame + DEAD_FRAMES
    start, stop = track.frames.searchsorted((phases.landing.frame, after))
    if stop >= len(track.frames) or stop - start < DEAD_FRAMES:
        return False
    heights = track.heights[start : stop + 1]
    room = DEAD_SHARE * flight.drop.value + 3.0 * flight.noise
    return bool(abs(heights - phases.landing.height).max() <= room)
