"""Two frames of the scene give the push: keyed or not, of an object or a bone."""

import bpy
import pytest
from leapwright.addon.plan_place import takeoff_in

from tests.addon.planning import active, lay
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


def test_a_measured_takeoff_is_where_the_plan_is_laid(scene):
    crate = active(empty())
    crate.location = (4.0, 0.0, 1.5)
    measure("takeoff")
    crate.location = (0.0, 0.0, 0.0)
    lay()
    assert scene.objects["Jump Guide"].location[:] == (4.0, 0.0, 1.5)
