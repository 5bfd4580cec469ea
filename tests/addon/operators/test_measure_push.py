"""Two frames of the scene give the push distance, of an object or a bone, with or without keys there."""

import bpy
import pytest
from leapwright.addon.planning.place import takeoff_in

from tests.addon.leaping import goat, mesh_balance
from tests.addon.plan_fields import active, lay
from tests.addon.scenery import armature, empty, hopping, key


def measure(pose, frame=None):
    if frame is not None:
        bpy.context.scene.frame_set(frame)
    return bpy.ops.leapwright.measure_push(pose=pose)


def test_the_push_is_the_rise_between_two_frames(scene):
    active(hopping(empty()))
    measure("crouch", 8)
    measure("takeoff", 13)
    fields = scene.leapwright_plan
    # HOP is at 0.6 on frame 8 and at 1.0 on 13.
    assert fields.push_distance == pytest.approx(0.4, abs=1e-6)
    assert (fields.start_frame, fields.crouch_frame, fields.takeoff_frame) == (8, 8, 13)
    assert takeoff_in(bpy.context) == pytest.approx([0.0, 0.65, 1.0], abs=1e-6)


def test_poses_that_are_not_keyed_are_measured_too(scene):
    crate = active(empty())
    crate.location = (1.0, 2.0, 0.2)
    measure("crouch")
    crate.location.z = 0.55
    measure("takeoff")
    assert scene.leapwright_plan.push_distance == pytest.approx(0.35, abs=1e-6)


def test_a_bone_is_measured_in_the_world(scene):
    rig = active(armature())
    rig.location.z = 2.0
    bpy.ops.object.mode_set(mode="POSE")
    rig.data.bones.active = rig.data.bones["chest"]
    measure("takeoff")
    assert takeoff_in(bpy.context) == pytest.approx([0.3, 0.9, 3.4], abs=1e-6)


def test_a_center_of_mass_is_measured_of_poses_that_are_not_keyed(scene):
    rig, body = goat()
    settings = scene.leapwright
    settings.follow, settings.thing = "center_of_mass", rig
    heights = []
    for pose, lift, arms in (("crouch", 0.0, 0.0), ("takeoff", 0.3, 2.0)):
        rig.location.z = lift
        for side in "LR":
            rig.pose.bones[f"foreleg.{side}"].rotation_euler.z = arms
        bpy.context.view_layer.update()
        measure(pose)
        heights.append(mesh_balance(body)[0][2])
    # What her mesh encloses, as Blender shows it, rises by the 0.3 of the rig and by what her raised arms add.
    assert heights[1] - heights[0] > 0.31
    assert scene.leapwright_plan.push_distance == pytest.approx(heights[1] - heights[0], abs=1e-4)


def test_a_takeoff_under_the_crouch_is_no_push(scene, capfd):
    active(key(empty(), [(1, (0, 0, 1)), (10, (0, 0, 0.5))]))
    before = scene.leapwright_plan.push_distance
    measure("crouch", 1)
    measure("takeoff", 10)
    assert scene.leapwright_plan.push_distance == before
    assert "The takeoff lies no higher than the crouch" in capfd.readouterr().out


def test_measuring_moves_nothing_and_is_one_undo_step(scene):
    crate = active(hopping(empty()))
    scene.frame_set(8)
    crate.location.x = 0.7
    bpy.ops.ed.undo_push(message="before")
    bpy.ops.leapwright.measure_push("EXEC_DEFAULT", True, pose="crouch")
    assert (bpy.context.scene.frame_current, bpy.context.active_object.location.x) == (8, pytest.approx(0.7))
    bpy.ops.ed.undo()
    assert not bpy.context.scene.leapwright_plan.is_crouch_measured


def test_without_anything_to_follow_it_says_so(scene):
    with pytest.raises(RuntimeError, match="Select an object or pose bone"):
        measure("crouch")


def test_poses_of_two_things_are_no_push(scene):
    before = scene.leapwright_plan.push_distance
    active(empty())
    measure("crouch")
    active(empty("Barge")).location.z = 2.0
    measure("takeoff")
    fields = scene.leapwright_plan
    assert fields.push_distance == before
    assert (fields.is_crouch_measured, fields.is_takeoff_measured) == (False, True)
    assert fields.measured_of == "Barge (object)"


def test_keys_of_another_start_from_where_it_is(scene, capfd):
    crate = active(empty())
    crate.location = (4.0, 0.0, 1.5)
    measure("takeoff")
    barge = active(empty("Barge"))
    barge.location = (0.0, 7.0, 0.2)
    bpy.context.view_layer.update()
    assert lay(use_keys=True) == {"FINISHED"}
    scene.frame_set(next(marker.frame for marker in scene.timeline_markers if marker.name == "Takeoff"))
    assert barge.location[:] == pytest.approx((0.0, 7.0, 0.2), abs=1e-6)
    assert scene.objects["Jump Guide"].location[:] == (4.0, 0.0, 1.5)
    assert 'keyed from where "Barge" is now: the takeoff was measured of Crate (object)' in capfd.readouterr().out


def test_a_measured_takeoff_is_where_the_plan_is_laid(scene):
    crate = active(empty())
    crate.location = (4.0, 0.0, 1.5)
    measure("takeoff")
    crate.location = (0.0, 0.0, 0.0)
    lay()
    assert scene.objects["Jump Guide"].location[:] == (4.0, 0.0, 1.5)
