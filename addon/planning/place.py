"""Where a plan lies in the scene: from its takeoff up against gravity, and across by its heading.

Blender units and world space; a plan's own lengths are meters.
"""

import math
from dataclasses import dataclass, replace

import numpy as np
from bpy.types import Context, Scene

from ...analysis.arrays import Array
from ...analysis.errors import SourceError
from ..scene import unit_scale, upright
from ..target import Target, chosen_target, with_root


@dataclass(frozen=True, slots=True, eq=False)
class Place:
    """The takeoff (3,), and one meter up and across (3,), in the world's Blender units."""

    origin: Array
    up: Array
    across: Array

    def points(self, heights: Array, across: Array) -> Array:
        """Give (n, 3) points of the world for heights and ways across in meters."""
        return self.origin + self.ways(heights, across)

    def ways(self, heights: Array | float, across: Array | float) -> Array:
        """Give (n, 3) ways, as points without the origin."""
        return np.multiply.outer(heights, self.up) + np.multiply.outer(across, self.across)


def place_of(scene: Scene, origin: Array, heading: float) -> Place:
    """Place a plan's takeoff at a point, its way across turned by the heading from the scene's X."""
    back = upright(scene).T / unit_scale(scene)
    return Place(
        np.asarray(origin, dtype=np.float64),
        back @ (0.0, 0.0, 1.0),
        back @ (math.cos(heading), math.sin(heading), 0.0),
    )


def seen_at(context: Context, target: Target) -> Array:
    """Give the (3,) place of what is followed as the viewport shows it now; unkeyed poses too.

    Raises SourceError where it has no place: a bone that is not there, Edit Mode, or a track that is not an
    object's or a bone's and has no sample on this frame.
    """
    seen = target.kind.place_now
    if seen is not None:
        return seen(context, target.thing, target.bone)
    return upright(context.scene).T @ _sampled_at(context, target) / unit_scale(context.scene)


def _sampled_at(context: Context, target: Target) -> Array:
    """Return the (3,) place of a track on this frame, meters upright."""
    track, frame = target.sample(context), context.scene.frame_current + context.scene.frame_subframe
    if not track.frames[0] <= frame <= track.frames[-1]:
        raise SourceError(f'"{target.name}" has no place at frame {frame:g}')
    return np.array([np.interp(frame, track.frames, track.positions[:, axis]) for axis in range(3)])


def label_of(target: Target) -> str:
    """Tell what was measured from what is keyed: the name, and what is followed of it."""
    kind = target.kind.label.lower()
    return target.name if target.name.endswith(f"/{kind}") else f"{target.name} ({kind})"


def followed_name(context: Context) -> str:
    """Name what a plan is for; "" where nothing is followed."""
    try:
        return with_root(chosen_target(context)).name
    except SourceError:
        return ""


def place_of_keys(context: Context, place: Place, target: Target) -> tuple[Place, tuple[str, ...]]:
    """Give where to key something: from where it is now when the takeoff was measured of something else."""
    fields = context.scene.leapwright_plan
    if not fields.is_takeoff_measured or fields.measured_of == label_of(target):
        return place, ()
    note = f'keyed from where "{target.name}" is now: the takeoff was measured of {fields.measured_of}'
    return replace(place, origin=seen_at(context, target)), (note,)


def takeoff_in(context: Context) -> Array:
    """Give the (3,) place a plan takes off from: the measured one, else what is followed, else the cursor."""
    fields = context.scene.leapwright_plan
    if fields.is_takeoff_measured:
        return np.array(fields.takeoff_place, dtype=np.float64)
    try:
        return seen_at(context, with_root(chosen_target(context)))
    except SourceError:
        return np.array(context.scene.cursor.location, dtype=np.float64)
