"""The empty that shows the center of mass is kept there by Blender's own constraints."""

import bpy
import pytest
from leapwright.addon.operators.show_center_of_mass import marker_of
from leapwright.addon.sources import SCENE_SOURCES

from tests.addon.scenery import armature, key, turn
from tests.addon.skeletons import person


def rolled(rig, bone):
    key(rig.pose.bones[bone], [(1, (1, 0, 0, 0)), (15, (0.6, 0.2, -0.5, 0.3)), (30, (0.3, 0.7, 0.1, 0.2))],
        "rotation_quaternion")  # fmt: skip
    return rig


def assert_followed(rig):
    scene = bpy.context.scene
    track = SCENE_SOURCES["center_of_mass"].sample(scene, rig)
    for frame in track.frames[::6]:
        scene.frame_set(int(frame))
        seen = marker_of(rig).evaluated_get(bpy.context.evaluated_depsgraph_get())
        assert tuple(seen.matrix_world.translation) == pytest.approx(track.positions[int(frame - 1)], abs=2e-5)


@pytest.mark.parametrize("aside", [(0.0, 0.0), (0.4, -0.7)])
def test_the_empty_is_where_the_track_is(scene, aside):
    rig = rolled(key(turn(armature())), "root")
    rolled(rig, "chest")
    for bone, mass in (("root", 1.0), ("chest", 3.0)):
        row = rig.data.leapwright_body.bones.add()
        row.bone, row.mass, row.along, row.aside = bone, mass, 0.3, aside
    assert bpy.ops.leapwright.show_center_of_mass() == {"FINISHED"}
    assert_followed(rig)


def test_the_empty_follows_a_whole_body(scene):
    rig = rolled(rolled(key(person()), "Spine"), "LeftArm")
    bpy.ops.leapwright.show_center_of_mass()
    assert_followed(rig)


def test_showing_again_brings_the_empty_up_to_date(scene):
    rig = key(armature())
    row = rig.data.leapwright_body.bones.add()
    row.bone, row.mass, row.aside = "root", 1.0, (0.5, 0.0)
    bpy.ops.leapwright.show_center_of_mass()
    row.bone = "chest"
    before = len(bpy.data.objects)
    bpy.ops.leapwright.show_center_of_mass()
    assert len(bpy.data.objects) == before
    assert_followed(rig)


def test_showing_is_one_undo_step(scene):
    rig = key(person())
    bpy.ops.ed.undo_push(message="built")
    bpy.ops.leapwright.show_center_of_mass("EXEC_DEFAULT", True)
    assert marker_of(rig) is not None
    bpy.ops.ed.undo()
    assert marker_of(bpy.data.objects["Harbourer"]) is None


def test_an_armature_without_a_body_is_refused_in_a_sentence(scene):
    rig = armature()
    rig.data.bones["root"].name, rig.data.bones["chest"].name = "Bone", "Bone.001"
    with pytest.raises(RuntimeError, match="no bone has a body segment or a mass: map the bones first"):
        bpy.ops.leapwright.show_center_of_mass()
