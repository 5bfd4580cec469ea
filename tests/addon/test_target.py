"""What is followed: the active thing, or the one that is named; or the reason why nothing can be."""

import bpy
import pytest
from leapwright.addon.shots.candidates import find_candidates
from leapwright.addon.target import stand_in, target_of, with_root
from leapwright.analysis.errors import SourceError

from tests.addon.scenery import armature, empty, hopping, key
from tests.addon.skeletons import person


def activate(thing, mode="OBJECT"):
    bpy.context.view_layer.objects.active = thing
    if thing is not None:
        bpy.ops.object.mode_set(mode=mode)


def test_the_active_object_is_followed(scene):
    activate(hopping(empty()))
    assert target_of(bpy.context).name == "Crate"


def test_the_active_pose_bone_is_followed_in_pose_mode_only(scene):
    rig = armature()
    hopping(rig.pose.bones["chest"])
    activate(rig, "POSE")
    rig.data.bones.active = rig.data.bones["chest"]
    assert target_of(bpy.context).name == "Brindle/chest"
    bpy.ops.object.mode_set(mode="OBJECT")
    assert target_of(bpy.context).name == "Brindle"


def test_an_armature_stands_for_its_root_most_keyed_bone(scene):
    rig = armature()
    hopping(rig.pose.bones["chest"])
    activate(rig)
    assert with_root(target_of(bpy.context)).name == "Brindle/chest"
    hopping(rig)
    assert with_root(target_of(bpy.context)).name == "Brindle"


def followed():
    return stand_in(target_of(bpy.context)).name


def test_an_active_armature_with_a_whole_body_stands_for_its_center_of_mass_as_for_the_command(scene):
    rig = person()
    hopping(rig.pose.bones["Hips"])
    activate(rig)
    assert [candidate.name for candidate in find_candidates(scene)] == ["Harbourer/center of mass"] == [followed()]
    assert with_root(target_of(bpy.context)).name == "Harbourer/Hips"  # of an armature it is a bone that can be keyed
    hopping(rig)
    assert followed() == "Harbourer/center of mass"


def test_a_pose_bone_or_a_named_armature_is_meant_itself_whatever_its_body(scene):
    rig = person()
    hopping(rig.pose.bones["Hips"])
    activate(rig, "POSE")
    rig.data.bones.active = rig.data.bones["Hips"]
    assert followed() == "Harbourer/Hips"
    bpy.ops.object.mode_set(mode="OBJECT")
    scene.leapwright.follow, scene.leapwright.thing = "object", rig
    assert followed() == "Harbourer/Hips"
    scene.leapwright.follow = "center_of_mass"
    assert followed() == "Harbourer/center of mass" == target_of(bpy.context).sample(bpy.context).name


def test_a_body_with_a_gap_leaves_the_armature_to_its_root(scene):
    rig = person()
    hopping(rig.pose.bones["Hips"])
    for side in ("Left", "Right"):
        rig.data.bones[f"{side}Arm"].name = f"{side} sleeve"
    activate(rig)
    assert [candidate.name for candidate in find_candidates(scene)] == ["Harbourer/Hips"] == [followed()]


def test_what_is_named_is_followed_whatever_is_active(scene):
    rig = armature()
    hopping(rig.pose.bones["chest"])
    activate(empty())
    scene.leapwright.follow, scene.leapwright.thing, scene.leapwright.bone = "bone", rig, "chest"
    assert target_of(bpy.context).name == "Brindle/chest"
    scene.leapwright.follow = "object"
    assert target_of(bpy.context).name == "Brindle"


def refusal():
    with pytest.raises(SourceError) as raised:
        target_of(bpy.context)
    return str(raised.value)


def test_each_thing_that_is_missing_is_said(scene):
    activate(None)
    assert refusal() == "Select an object or pose bone"
    crate = empty()
    activate(crate)
    assert refusal() == 'Key the location of "Crate" first'
    scene.leapwright.follow = "object"
    assert refusal() == "Choose an object to follow"
    scene.leapwright.follow = "bone"
    assert refusal() == "Choose an armature to follow"
    scene.leapwright.thing = armature()
    assert refusal() == "Choose a bone to follow"
    scene.leapwright.follow = "center_of_mass"
    assert refusal() == 'Key the bones of "Brindle" first'


def test_a_thing_of_another_scene_is_refused(scene):
    crate = hopping(empty())
    scene.leapwright.follow, scene.leapwright.thing = "object", crate
    scene.collection.objects.unlink(crate)
    assert refusal() == '"Crate" is not in this scene'


def test_what_a_constraint_moves_can_be_followed_without_keys(scene):
    crate = empty()
    crate.constraints.new("COPY_LOCATION").target = key(empty("Buoy"))
    bpy.context.view_layer.objects.active = crate
    track = target_of(bpy.context).sample(bpy.context)
    assert track.heights.max() == pytest.approx(1.1, rel=1e-5)
