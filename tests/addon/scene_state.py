"""Return everything of a scene that reading it could change."""

import bpy
import numpy as np
from leapwright.addon import host


def state(scene):
    """Return all that an audit could touch: curves, frame, selection, mode, transforms, data-blocks."""
    curves = {}
    for thing in scene.objects:
        for curve in host.curves_of(thing.animation_data) if thing.animation_data else ():
            points = np.empty((3, 2 * len(curve.keyframe_points)), np.float32)
            for row, part in zip(points, ("co", "handle_left", "handle_right"), strict=True):
                curve.keyframe_points.foreach_get(part, row)
            settings = (curve.mute, curve.hide, curve.select, curve.extrapolation, len(curve.modifiers))
            picked = [(key.select_control_point, key.interpolation) for key in curve.keyframe_points]
            curves[thing.name, curve.data_path, curve.array_index] = points.tobytes(), settings, picked
    placed = {thing.name: (thing.select_get(), tuple(map(tuple, thing.matrix_basis))) for thing in scene.objects}
    poses = {
        (thing.name, bone.name): (bone.bone.select if hasattr(bone.bone, "select") else bone.select, bone.location[:])
        for thing in scene.objects
        if thing.pose
        for bone in thing.pose.bones
    }
    active = bpy.context.active_object and bpy.context.active_object.name
    blocks = {kind: len(getattr(bpy.data, kind)) for kind in ("objects", "actions", "scenes", "meshes", "armatures")}
    return curves, placed, poses, active, bpy.context.mode, blocks, (scene.frame_current, scene.frame_subframe)
