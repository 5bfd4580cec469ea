"""Read everything that Blender stores of F-curves and their keys, to tell whether any of it changed; make random
curves."""

import bpy
import numpy as np
from leapwright.addon import host

OF_KEY = {"co": 2, "handle_left": 2, "handle_right": 2, "amplitude": 1, "back": 1, "period": 1}
FLAGS = ("interpolation", "easing", "type", "handle_left_type", "handle_right_type")
CHOSEN = ("select_control_point", "select_left_handle", "select_right_handle")
OF_CURVE = ("data_path", "array_index", "extrapolation", "lock", "mute", "hide", "select", "color_mode",
            "auto_smoothing", "is_valid")  # fmt: skip


def key_state(curve):
    """Return all data of a curve's keys, as raw bytes."""
    points, state = curve.keyframe_points, {}
    for name, width in OF_KEY.items():
        values = np.empty(width * len(points), np.float32)
        points.foreach_get(name, values)
        state[name] = values.tobytes()
    for name in (*FLAGS, *CHOSEN):
        values = np.empty(len(points), np.int32 if name in FLAGS else bool)
        points.foreach_get(name, values)
        state[name] = values.tobytes()
    return state


def curve_state(curve):
    """Return a curve with its keys, its group and its modifiers."""
    state = {name: getattr(curve, name) for name in OF_CURVE} | key_state(curve)
    state["group"] = (curve.group.name, curve.group.lock, curve.group.mute) if curve.group else None
    state["color"] = tuple(curve.color)
    state["modifiers"] = [
        (modifier.type, *(str(getattr(modifier, p.identifier)) for p in modifier.bl_rna.properties
                          if p.type in {"FLOAT", "INT", "BOOLEAN", "ENUM"} and not getattr(p, "is_array", False)))
        for modifier in curve.modifiers
    ]  # fmt: skip
    return state


def file_state():
    """Return every curve of every thing that plays one, and every marker."""
    owners = [*bpy.data.objects, *bpy.data.armatures, *bpy.data.shape_keys]
    state = {}
    for owner in owners:
        if owner.animation_data is not None and owner.animation_data.action is not None:
            for curve in host.curves_of(owner.animation_data):
                state[owner.bl_rna.identifier, owner.name, curve.data_path, curve.array_index] = curve_state(curve)
            marks = owner.animation_data.action.pose_markers
            state["marks", owner.name] = [(m.name, m.frame, m.select) for m in marks]
    for scene in bpy.data.scenes:
        state["scene", scene.name] = [(m.name, m.frame, m.select) for m in scene.timeline_markers]
        state["frame", scene.name] = (scene.frame_current, scene.frame_subframe, scene.frame_start, scene.frame_end)
    return state


def property_curves(count, name="Crate"):
    """Return curves on a new object's own properties, each with one key, and the object."""
    thing = bpy.data.objects.new(name, None)
    bpy.context.scene.collection.objects.link(thing)
    for n in range(count):
        thing[f"p{n}"] = 0.0
        thing.keyframe_insert(f'["p{n}"]', frame=1)
    return thing, list(host.curves_of(thing.animation_data))


def fill(curve, frames, rng):
    """Give a curve keys at these frames with random values, handles and kinds of everything."""
    points, n = curve.keyframe_points, len(frames)
    points.clear()
    points.add(n)
    values = rng.normal(size=n)
    points.foreach_set("co", np.column_stack([frames, values]).astype(np.float32).ravel())
    for name, most in zip(FLAGS, (13, 4, 6, 5, 5), strict=True):
        points.foreach_set(name, rng.integers(0, most, n).astype(np.int32))
    for name in CHOSEN:
        points.foreach_set(name, rng.random(n) < 0.5)
    for name, side in (("handle_left", -1.0), ("handle_right", 1.0)):
        reach = side * rng.uniform(0.0, 6.0, n)
        ends = np.column_stack([frames + reach, values + rng.normal(size=n)])
        points.foreach_set(name, ends.astype(np.float32).ravel())
    curve.extrapolation = str(rng.choice(["CONSTANT", "LINEAR"]))
    curve.update()
