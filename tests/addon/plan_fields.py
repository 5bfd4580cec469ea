"""Fill in the plan's fields, lay plans, and read all that laying could change."""

import bpy
import numpy as np
from leapwright.addon import host
from leapwright.addon.planning.settings import plan_of
from leapwright.addon.scene import unit_scale, upright
from leapwright.analysis.planning.path import path_at

JUMP = {"height": 0.6, "push_distance": 0.4, "distance": 1.5, "heading": 0.7, "landing_height": -0.2, "start_frame": 10}


def active(thing):
    bpy.context.view_layer.objects.active = thing
    return thing


def fields(**values):
    """Fill the plan's fields of the open scene."""
    asked = bpy.context.scene.leapwright_plan
    for name, value in values.items():
        setattr(asked, name, value)
    return asked


def lay(*, undo=False, **values):
    return bpy.ops.leapwright.plan_jump("EXEC_DEFAULT", undo, **values)


def keys_of(thing):
    """Return every key of an object: its frame, value, handles and kinds, bit by bit, by channel."""
    found = {}
    for curve in host.curves_of(thing.animation_data) if thing.animation_data else ():
        points = curve.keyframe_points
        numbers = np.empty((3, 2 * len(points)), np.float32)
        for row, part in zip(numbers, ("co", "handle_left", "handle_right"), strict=True):
            points.foreach_get(part, row)
        kinds = [(p.interpolation, p.handle_left_type, p.handle_right_type, p.type, p.easing) for p in points]
        found[curve.data_path, curve.array_index] = numbers.tobytes(), kinds, curve.mute, curve.lock
    return found


def whole(scene):
    """Return all that laying could change: keys, markers, objects, curves, frame, selection."""
    things = sorted(scene.objects.keys())
    return (
        {name: keys_of(scene.objects[name]) for name in things},
        sorted((marker.name, marker.frame) for marker in scene.timeline_markers),
        things,
        sorted(bpy.data.curves.keys()),
        (scene.frame_current, scene.frame_subframe),
        [name for name in things if scene.objects[name].select_get()],
        bpy.context.view_layer.objects.active and bpy.context.view_layer.objects.active.name,
    )


def shown(thing, bone, frames):
    """Return (n, 3) positions, meters, z up, as the host evaluates them, between frames too."""
    scene, rows = bpy.context.scene, []
    for frame in frames:
        scene.frame_set(int(np.floor(frame)), subframe=float(frame - np.floor(frame)))
        seen = thing.evaluated_get(bpy.context.evaluated_depsgraph_get())
        place = seen.matrix_world @ seen.pose.bones[bone].matrix if bone else seen.matrix_world
        rows.append(place.translation[:])
    return np.array(rows) @ upright(scene).T * unit_scale(scene)


def assert_on_the_path(thing, bone=None, atol=2e-6):
    plan = plan_of(bpy.context.scene)
    frames = np.linspace(plan.keys[0].frame, plan.keys[-1].frame, 97)
    heights, across = path_at(plan.keys, frames)
    seen = shown(thing, bone, [plan.keys[1].frame, *frames])
    seen = seen[1:] - seen[0]
    np.testing.assert_allclose(seen[:, 2], heights, atol=atol)
    np.testing.assert_allclose(seen[:, 0], across * np.cos(JUMP["heading"]), atol=atol)
    np.testing.assert_allclose(seen[:, 1], across * np.sin(JUMP["heading"]), atol=atol)
