"""Landing: the push's law backwards, from touchdown to the lowest point. Metres and frames."""

import math
from dataclasses import dataclass

from ..phases import Phases
from ..quantity import Quantity, as_ratio, in_frames, in_meters
from ..track import Track
from .arc import frame_error
from .flight import FITTED, Flight

DEAD_FRAMES = 3
"""Frames past the landing that must be seen before a body that does not sink has stopped dead."""
DEAD_SHARE = 0.03
"""Share of the drop within which a body that stays has not given way."""


@dataclass(frozen=True, slots=True)
class Absorb:
    """The figures of one landing, from touchdown to the lowest point.

    frames     it takes; expected: what fall and distance ask for; excess: frames over that, whose error knows
               that the two share the touchdown
    distance   metres that the body sinks; ratio: drop over distance
    """

    frames: Quantity
    expected: Quantity
    excess: Quantity
    distance: Quantity
    ratio: Quantity


def measure_absorb(track: Track, phases: Phases, *, flight: Flight) -> Absorb | None:
    """Measure how a jump is absorbed; None where the track ends before, or the body does not sink.

    A constant deceleration over the absorb distance takes fall frames / (drop / absorb distance): the
    law of the push, time reversed. A landing that is off by one frame moves it as the takeoff does.
    """
    absorbed, landing, drop = phases.absorbed, phases.landing, flight.drop.value
    if absorbed is None or landing.height <= absorbed.height or drop <= 0.0:
        return None
    sunk, length = landing.height - absorbed.height, absorbed.frame - landing.frame
    e_landing, e_absorbed, e_apex = (frame_error(e, phases=phases) for e in (landing, absorbed, phases.apex))
    moved = flight.landing_speed * e_landing / track.fps
    noise = FITTED * flight.noise
    over, height = drop / sunk, noise / sunk
    expected = flight.own_fall / over
    heights = expected * height
    return Absorb(
        frames=in_frames(length, math.hypot(e_landing, e_absorbed)),
        expected=in_frames(expected, math.hypot((2.0 + 1.0 / over) * e_landing, e_apex / over, heights)),
        excess=in_frames(
            length - expected, math.hypot((1.0 + 1.0 / over) * e_landing, e_apex / over, e_absorbed, heights)
        ),
        distance=in_meters(sunk, math.hypot(moved, noise)),
        ratio=as_ratio(over, over * math.hypot(moved * (1 / drop + 1 / sunk), height)),
    )


def stops_dead(track: Track, phases: Phases, *, flight: Flight) -> bool:
    """Tell whether the track goes on after the landing and the body neither sinks nor leaves."""
    if phases.absorbed is not None or phases.method != "curve" or phases.held or flight.drop.value <= 0.0:
        return False
    after = phases.landing.frame + DEAD_FRAMES
    start, stop = track.frames.searchsorted((phases.landing.frame, after))
    if stop >= len(track.frames) or stop - start < DEAD_FRAMES:
        return False
    heights = track.heights[start : stop + 1]
    room = DEAD_SHARE * flight.drop.value + 3.0 * flight.noise
    return bool(abs(heights - phases.landing.height).max() <= room)
