"""Audit Jump finds the jump, says what it cannot do, and changes nothing in the file."""

import bpy
import pytest
from leapwright.addon import results

from tests.addon.scene_state import state
from tests.addon.scenery import armature, empty, hopping, key
from tests.addon.skeletons import person


def audit(*, undo=False):
    return bpy.ops.leapwright.audit_jump("EXEC_DEFAULT", undo)


@pytest.fixture
def crate(scene):
    thing = hopping(empty())
    bpy.context.view_layer.objects.active = thing
    return thing


def test_a_keyed_jump_is_found(scene, crate):
    assert audit() == {"FINISHED"}
    (jump,) = results.latest(scene).audit.jumps
    assert (round(jump.takeoff.frame), round(jump.apex.frame), round(jump.landing.frame)) == (13, 20, 27)
    assert jump.flight.height.value == pytest.approx(0.6, rel=1e-5)


def test_the_center_of_mass_of_an_active_person_is_taken_unasked_and_said(scene, capfd):
    rig = person()
    rig.data.bones["Hips"].use_local_location = False
    hopping(rig.pose.bones["Hips"])
    bpy.context.view_layer.objects.active = rig
    assert audit() == {"FINISHED"}
    found = results.latest(scene).audit
    assert found.name == "Harbourer/center of mass"
    assert "center of mass of 16 bones mapped by name, Female (de Leva 1996)" in found.notes
    assert "Info: Harbourer/center of mass: " in capfd.readouterr().out


def test_the_scenes_world_is_judged_by(scene, crate):
    scene.leapwright.gravity = "moon"
    audit()
    assert results.latest(scene).world.gravity == 1.62


def test_an_audit_changes_nothing_of_the_scene(scene, crate):
    rig = armature()
    hopping(rig.pose.bones["root"])
    key(rig.pose.bones["chest"])
    bpy.ops.object.mode_set(mode="POSE")
    rig.data.bones.active = rig.data.bones["root"]
    scene.frame_set(17, subframe=0.25)
    rig.pose.bones["chest"].location.x = 0.77  # a pose that is not keyed yet: setting a frame would lose it
    before = state(scene)
    assert audit(undo=True) == {"FINISHED"}
    assert state(scene) == before


def test_an_audit_leaves_no_undo_step(scene, crate):
    for step in (1, 2):
        scene["step"] = step
        bpy.ops.ed.undo_push(message=f"step {step}")
    assert audit(undo=True) == {"FINISHED"}
    bpy.ops.ed.undo()
    assert bpy.context.scene["step"] == 1


def test_a_result_outlives_undo_and_ends_with_the_file(scene, crate):
    bpy.ops.ed.undo_push(message="before")
    audit()
    bpy.ops.ed.undo_push(message="after")
    bpy.ops.ed.undo()
    assert results.latest(bpy.context.scene) is not None
    bpy.ops.wm.read_homefile(use_factory_startup=True, use_empty=True)
    assert results.latest(bpy.context.scene) is None


def test_the_button_says_what_to_select(scene):
    with pytest.raises(RuntimeError, match="Select an object or pose bone"):
        audit()


def test_a_thing_that_cannot_be_read_is_an_error_and_keeps_the_last_result(scene, crate):
    audit()
    still = empty("Rope")
    still.animation_data_create()
    bpy.context.view_layer.objects.active = still
    with pytest.raises(RuntimeError, match='"Rope" has no location keys'):
        audit()
    assert results.latest(scene).audit.name == "Crate"


def test_a_track_without_a_jump_is_a_warning_with_the_reason(scene, capfd):
    bpy.context.view_layer.objects.active = key(empty(), [(1, (0, 0, 1)), (40, (3, 0, 1))])
    assert audit() == {"FINISHED"}
    assert results.latest(scene).audit.jumps == ()
    reason = results.latest(scene).audit.notes[-1]
    assert f"Warning: Crate: {reason}" in capfd.readouterr().out
