"""Pose bones: what is read from the F-curves is what Blender shows.

The outside reference is the host: `frame_set` and the evaluated pose, frame by frame.
"""

import bpy
import pytest
from leapwright.addon.reading import sampling
from leapwright.addon.shots.candidates import candidate_named
from leapwright.addon.sources import SCENE_SOURCES
from leapwright.analysis.errors import SourceError

from tests.addon.scenery import armature, assert_evaluated, assert_same, empty, key, turn


@pytest.mark.parametrize("bone", ["root", "chest"])
def test_bone_of_a_turned_armature_is_read_as_shown(scene, bone):
    rig = turn(armature())
    rig.pose.bones["root"].rotation_quaternion = (0.8, 0.1, -0.3, 0.5)
    rig.pose.bones["root"].scale = (1, 2, 0.7)
    key(rig.pose.bones[bone])
    assert_same(rig, bone)


@pytest.mark.parametrize("inherit", ["FULL", "FIX_SHEAR", "ALIGNED", "AVERAGE", "NONE", "NONE_LEGACY"])
@pytest.mark.parametrize("local", [True, False])
def test_every_kind_of_bone_inheritance_is_read_as_shown(scene, inherit, local):
    rig = armature()
    rig.pose.bones["root"].rotation_quaternion = (0.8, 0.1, -0.3, 0.5)
    rig.pose.bones["root"].scale = (1, 2, 0.7)
    chest = rig.data.bones["chest"]
    chest.inherit_scale, chest.use_local_location, chest.use_inherit_rotation = inherit, local, local
    key(rig.pose.bones["chest"])
    assert_same(rig, "chest")


@pytest.mark.parametrize("relative", [True, False])
def test_object_on_a_posed_bone_is_read_as_shown(scene, relative):
    rig = turn(armature())
    rig.pose.bones["root"].rotation_quaternion = (0.8, 0.1, -0.3, 0.5)
    rig.data.bones["chest"].use_relative_parent = relative
    moss = key(empty("Moss", parent=rig))
    moss.parent_type, moss.parent_bone = "BONE", "chest"
    assert_same(moss)


def test_a_bone_under_an_animated_bone_and_armature_is_evaluated(scene):
    rig = key(armature())
    key(rig.pose.bones["root"])
    key(rig.pose.bones["chest"])
    assert_evaluated(rig, "chest")


def test_a_connected_bone_under_a_moving_one_is_evaluated(scene):
    rig = armature(connected=True)
    key(rig.pose.bones["root"])
    key(rig.pose.bones["chest"])
    assert_evaluated(rig, "chest")


def test_a_rig_at_rest_is_read_as_posed_without_what_would_be_evaluated(scene):
    rig = armature()
    key(rig.pose.bones["root"]).constraints.new("LIMIT_LOCATION")
    rig.data.pose_position = "REST"
    assert sampling.sample_bone(scene, rig, "root").notes == (
        'read without its constraints: "Limit Location"',
        "read as posed, although the armature shows its rest position",
    )


def test_a_connected_bone_is_refused(scene):
    rig = armature(connected=True)
    key(rig.pose.bones["chest"])
    with pytest.raises(SourceError, match="connected to its parent"):
        sampling.sample_bone(scene, rig, "chest")


def test_edit_mode_is_refused_for_a_bone_and_works_for_an_object(scene):
    rig = key(armature())
    key(rig.pose.bones["root"])
    bpy.context.view_layer.objects.active = rig
    bpy.ops.object.mode_set(mode="EDIT")
    with pytest.raises(SourceError, match="Edit Mode"):
        sampling.sample_bone(scene, rig, "root")
    assert len(sampling.sample_object(scene, rig).frames) == 30
    bpy.ops.object.mode_set(mode="OBJECT")


def test_linked_data_is_read_as_shown(scene, tmp_path):
    rig = turn(armature())
    key(rig.pose.bones["root"])
    path = str(tmp_path / "brindle.blend")
    bpy.data.libraries.write(path, {rig})
    bpy.ops.wm.read_homefile(use_factory_startup=True, use_empty=True)
    scene = bpy.context.scene
    with bpy.data.libraries.load(path, link=True) as (_, wanted):
        wanted.objects = ["Brindle"]
    scene.collection.objects.link(wanted.objects[0])
    assert_same(wanted.objects[0], "root")
    assert candidate_named(scene, "Brindle/root").sample().source == "bone"


def test_only_a_bone_that_moves_is_offered(scene):
    rig = armature(connected=True)
    key(rig.pose.bones["root"])
    key(rig.pose.bones["chest"])
    offered = [bone for bone in ("root", "chest", "tail") if SCENE_SOURCES["bone"].poll(rig, bone)]
    assert offered == ["root"]
