"""find_phases: all jumps of a track, from its curve where it has one, from its poses where they tell more."""

import numpy as np

from ..limits import Limits
from ..phases import Found, Phases
from ..track import Track
from ..world import World
from .blocking import FEW, jumps_in_poses
from .curve import jumps_on_curve
from .falls import falls_on_curve
from .poses import Poses, poses_of


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
            if not any(_overlap(phases, other) for other in blocked)
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
    return jumps_in_poses(frames, heights, track.fps, world.gravity, limits, step=step, held=poses.held)


def _overlap(a: Phases, b: Phases) -> bool:
    return a.takeoff.frame < b.landing.frame and b.takeoff.frame < a.landing.frame
