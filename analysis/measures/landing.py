"""Landing: the push's law backwards, from touchdown to the lowest point. Metres and frames."""

import math
from typing import NamedTuple

from ..phases import Phases
from ..track import Track
from .arc import frame_error
from .flight import Flight

DEAD_FRAMES = 3
"""Frames past the landing that must be seen before a body that does not sink has stopped dead."""
DEAD_SHARE = 0.03
"""Share of the drop within which a body that stays has not given way."""


class Landing(NamedTuple):
    """The figures of one landing; names and units are those of `Jump`. None: the track ends before."""

    absorb_distance: float | None = None
    absorb_distance_error: float | None = None
    absorb_ratio: float | None = None
    absorb_ratio_error: float | None = None
    absorb_frames: float | None = None
    absorb_frames_error: float | None = None
    absorb_frames_expected: float | None = None
    absorb_excess_error: float | None = None
    stops_dead: bool = False


def measure_landing(track: Track, phases: Phases, *, flight: Flight) -> Landing:
    """Measure how a jump is absorbed.

    A constant deceleration over the absorb distance takes fall frames / (drop / absorb distance): the
    law of the push, time reversed. A landing that is off by one frame moves it as the takeoff does.
    """
    absorbed, landing = phases.absorbed, phases.landing
    if absorbed is None:
        return Landing(stops_dead=_stops_dead(track, phases, flight))
    sunk, drop = landing.height - absorbed.height, flight.drop_height
    frames = absorbed.frame - landing.frame
    e_landing, e_absorbed, e_apex = (frame_error(e, phases=phases) for e in (landing, absorbed, phases.apex))
    moved = flight.landing_speed * e_landing / track.fps
    timed = Landing(absorb_frames=frames, absorb_frames_error=math.hypot(e_landing, e_absorbed))
    if sunk <= 0.0 or drop <= 0.0:
        return timed._replace(absorb_distance=max(sunk, 0.0), absorb_distance_error=moved)
    ratio = drop / sunk
    height = flight.noise / sunk
    fall = flight.fall_free or flight.fall_frames
    return timed._replace(
        absorb_distance=sunk, absorb_distance_error=math.hypot(moved, flight.noise),
        absorb_ratio=ratio, absorb_ratio_error=ratio * math.hypot(moved * (1 / drop + 1 / sunk), height),
        absorb_frames_expected=fall / ratio,
        absorb_excess_error=math.hypot(
            (1.0 + 1.0 / ratio) * e_landing, e_apex / ratio, e_absorbed, fall / ratio * height
        ),
    )  # fmt: skip


def _stops_dead(track: Track, phases: Phases, flight: Flight) -> bool:
    """Whether the track goes on after the landing and the body neither sinks nor leaves."""
    if phases.method != "curve" or phases.held or flight.drop_height <= 0.0:
        return False
    after = phases.landing.frame + DEAD_FRAMES
    start, stop = track.frames.searchsorted((phases.landing.frame, after))
    if stop >= len(track.frames) or stop - start < DEAD_FRAMES:
        return False
    heights = track.heights[start : stop + 1]
    room = DEAD_SHARE * flight.drop_height + 3.0 * flight.noise
    return bool(abs(heights - phases.landing.height).max() <= room)
