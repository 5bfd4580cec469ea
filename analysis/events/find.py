"""find_phases: all jumps of a track, from its curve where it has one, from its poses where they tell more."""

from dataclasses import replace

import numpy as np

from ..limits import Limits
from ..phases import Event, Found, Phases
from ..track import EVENTS, Track
from ..world import World
from .arcs import arc_of
from .ballistic import longest
from .blocking import FEW, jumps_in_poses
from .curve import jumps_on_curve, overlap
from .falls import falls_on_curve
from .poses import Poses, poses_of

FEWEST = 5
"""Air samples that show a parabola."""
AGREED = 0.02
"""Frames: what is left to doubt of an event that lies on its key."""


def find_phases(track: Track, world: World, limits: Limits) -> Found:
    """Find every jump of a track, in order of time.

    Raises nothing: a track without a jump gives none, and a note that says so.
    """
    poses = poses_of(track)
    blocked = _blocked(track, poses, world, limits)
    drawn = []
    if poses.even:
        drawn = [
            phases
            for phases in jumps_on_curve(poses, track.fps, world.gravity, limits)
            if not any(overlap(phases, other) for other in blocked)
        ]
        drawn += falls_on_curve(track, poses, world.gravity, limits, [*blocked, *drawn])
    found = sorted([*blocked, *drawn], key=lambda phases: phases.takeoff.frame)
    return Found(tuple(found), () if found else ("no jump found",))


def _blocked(track: Track, poses: Poses, world: World, limits: Limits) -> list[Phases]:
    if poses.held:
        frames, heights = poses.frames, poses.heights
        step = poses.step if poses.even else max(world.step, 1)
    elif track.key_frames is not None:
        inside = (track.key_frames >= track.frames[0]) & (track.key_frames <= track.frames[-1])
        frames = track.key_frames[inside]
        heights = np.interp(frames, track.frames, track.heights)
        step = max(world.step, 1)
    else:
        return []
    if len(frames) < FEW + 1:
        return []
    found = jumps_in_poses(frames, heights, track.fps, world.gravity, limits, step=step, held=poses.held)
    return found if poses.held else [_with_arc(phases, poses, track.fps) for phases in found]


def _with_arc(phases: Phases, poses: Poses, fps: float) -> Phases:
    """The keyed jump as a curve, where the curve drawn between its takeoff and landing is a parabola."""
    f, z = poses.frames, poses.heights
    a = int(np.searchsorted(f, phases.takeoff.frame, side="right"))
    b = int(np.searchsorted(f, phases.landing.frame)) - 1
    if b - a < FEWEST:
        return phases
    stretch = longest(f, z, np.array([a]), np.array([b]), noise=poses.noise, fewest=FEWEST)
    if stretch is None:
        return phases
    arc = arc_of(f, z, phases.takeoff.frame, phases.landing.frame, fps, poses.noise, stretch)
    if abs(arc.apex_frame - phases.apex.frame) > 1:
        return phases
    return replace(phases, arc=arc, method="curve", **{name: _keyed(getattr(phases, name)) for name in EVENTS})


def _keyed(event: Event | None) -> Event | None:
    """An event that curve and key agree on is known far better than to the frame."""
    return None if event is None else replace(event, frame_error=AGREED)
