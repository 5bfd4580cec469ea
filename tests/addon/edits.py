"""Changes to the rigs of constrained.py; each one moves a bone."""

import bpy
from leapwright.addon import host

from tests.addon.constrained import HOP
from tests.addon.scenery import empty, key


def curve_of(rig, path, index=0):
    return next(c for c in host.curves_of(rig.animation_data) if c.data_path.endswith(path) and c.array_index == index)


def move_a_key(rig):
    curve_of(rig, '"hips"].location', 1).keyframe_points[2].co_ui.y += 0.2


def move_a_handle(rig):
    point = curve_of(rig, '"hips"].location', 1).keyframe_points[2]
    point.handle_left_type = point.handle_right_type = "FREE"
    point.handle_right.y += 0.5


def step_a_key(rig):
    curve_of(rig, '"hips"].location', 1).keyframe_points[2].interpolation = "CONSTANT"


def ease_a_key(rig):
    point = curve_of(rig, '"hips"].location', 1).keyframe_points[2]
    point.interpolation, point.back = "BACK", 3.0


def mute_a_curve(rig):
    curve_of(rig, '"hips"].location', 1).mute = True


def shake_a_curve(rig):
    curve_of(rig, '"hips"].location', 1).modifiers.new("NOISE").strength = 2.0


def take_another_action(rig):
    host.play_copy(rig.animation_data, rig.animation_data.action.copy(), like=rig.animation_data)
    move_a_key(rig)


def weaken_the_reach(rig):
    rig.pose.bones["shin"].constraints["IK"].influence = 0.3


def mute_the_reach(rig):
    rig.pose.bones["shin"].constraints["IK"].mute = True


def reach_elsewhere(rig):
    rig.pose.bones["shin"].constraints["IK"].target = empty("Bollard")


def add_a_constraint(rig):
    limit = rig.pose.bones["hips"].constraints.new("LIMIT_LOCATION")
    limit.use_max_z, limit.max_z = True, 0.1


def tilt_a_bone_that_has_no_keys(rig):
    rig.pose.bones["hips"].rotation_quaternion = (0.9, 0.3, 0.0, 0.0)


def move_the_rig(rig):
    rig.location.x += 1.0


def edit_a_bone(rig):
    bpy.context.view_layer.objects.active = rig
    bpy.ops.object.mode_set(mode="EDIT")
    rig.data.edit_bones["foot"].head.x += 0.2
    bpy.ops.object.mode_set(mode="OBJECT")


def stop_inheriting(rig):
    rig.data.bones["thigh"].use_inherit_rotation = False
    tilt_a_bone_that_has_no_keys(rig)


def parent_it(rig):
    rig.parent = key(empty("Barge"))


def remap_time(_rig):
    bpy.context.scene.render.frame_map_new = 150


EDITS = (
    move_a_key, move_a_handle, step_a_key, ease_a_key, mute_a_curve, shake_a_curve, take_another_action,
    weaken_the_reach, mute_the_reach, reach_elsewhere, add_a_constraint, tilt_a_bone_that_has_no_keys, move_the_rig,
    edit_a_bone, stop_inheriting, parent_it, remap_time,
)  # fmt: skip


def a_driven_expression(rig):
    rig.animation_data.drivers[0].driver.expression = "it * 0.7"


def what_a_driver_reads(_rig):
    key(bpy.data.objects["Buoy"], [(12, (0, 3, 0))])


def a_key_of_the_scene(_rig):
    bpy.context.scene["swell"] = 4.0
    bpy.context.scene.keyframe_insert('["swell"]', frame=20)


def a_key_of_the_armature(rig):
    rig.data["stretch"] = 4.0
    rig.data.keyframe_insert('["stretch"]', frame=20)


def a_property_without_keys(rig):
    rig.animation_data_clear()
    key(rig.pose.bones["hips"], HOP)
    driver = rig.pose.bones["foot"].driver_add("location", 0).driver
    variable = driver.variables.new()
    variable.name, variable.targets[0].id, variable.targets[0].data_path = "it", rig, '["tide"]'
    driver.expression = "it"
    rig["tide"] = 1.25


OF_DRIVEN = (
    a_driven_expression, what_a_driver_reads, a_key_of_the_scene, a_key_of_the_armature, a_property_without_keys,
)  # fmt: skip
