"""What an audit follows: the part of a rig that jumps, or its center of mass where the path alone leaves it unsure."""

import bpy
import pytest
from leapwright.addon import choosing, results
from leapwright.addon.choosing import FollowedFor
from leapwright.addon.scene import settings_of
from leapwright.addon.shots import shot
from leapwright.addon.target import target_of

from tests.addon.day import saved
from tests.addon.scenery import HOP, empty, hopping, key
from tests.addon.skeletons import person, rig


def activate(thing, mode="OBJECT"):
    bpy.context.view_layer.objects.active = thing
    bpy.ops.object.mode_set(mode=mode)
    return thing


def master_and_hips():
    """Return a rig whose master bone only travels and whose hips jump along the world's z."""
    thing = rig("Brindle", (("master", None), ("hips", "master")))
    key(thing.pose.bones["master"], [(1, (0, 0, 0)), (45, (2, 0, 0))])
    leaping(thing.pose.bones["hips"])
    return activate(thing)


def leaping(bone, *, up=1.0):
    """Key a jump along a bone that stands upright, its own Y the world's Z; up: -1 for one that hangs."""
    return key(bone, [(frame, (0.0, up * height, 0.0)) for frame, height in HOP])


def audited():
    bpy.ops.leapwright.audit_jump()
    return results.latest(bpy.context.scene)


def test_hips_that_jump_are_followed_where_the_master_only_travels(scene):
    master_and_hips()
    target, why = choosing.choose(scene, target_of(bpy.context), settings_of(scene))
    assert (target.name, why.choice, why.instead_of) == ("Brindle/hips", FollowedFor.JUMPER, "Brindle/master")
    result = audited()
    assert result.audit.name == "Brindle/hips" and result.audit.jumps
    assert "Brindle/hips is followed, which jumps: Brindle/master does not" in result.audit.notes


def test_so_does_the_command(scene, tmp_path):
    master_and_hips()
    reading = shot.read_shot(saved(tmp_path / "tq.blend"))
    assert [track.name for track in reading.tracks] == ["Brindle/hips"]
    assert reading.reasons == ("bone of Brindle that jumps: master does not",)


def test_a_bone_that_is_meant_itself_is_kept_and_what_rises_is_named(scene):
    thing = activate(master_and_hips(), "POSE")
    thing.data.bones.active = thing.data.bones["master"]
    hopping(empty("Crate"))
    result = audited()
    assert result.audit.name == "Brindle/master" and not result.audit.jumps
    assert "these move up and down: Brindle/hips, Crate" in result.audit.notes


def unsure(monkeypatch):
    monkeypatch.setattr(choosing, "unsure_frames", lambda audit, track, _: ((track.frames[0], track.frames[-1]),))


def test_a_root_that_leaves_a_jump_unsure_gives_way_to_a_body_that_is_known(scene, monkeypatch):
    thing = person()
    leaping(thing.pose.bones["Hips"], up=-1.0)
    activate(thing, "POSE")
    thing.data.bones.active = thing.data.bones["Hips"]
    assert choosing.choose(scene, target_of(bpy.context), settings_of(scene))[0].name == "Harbourer/Hips"
    unsure(monkeypatch)
    result = audited()
    assert result.audit.name == "Harbourer/center of mass"
    said = "the center of mass is followed: the path of Harbourer/Hips alone leaves a jump unsure"
    assert said in result.audit.notes


def test_a_hand_does_not(scene, monkeypatch):
    thing = person()
    hopping(thing.pose.bones["LeftHand"])
    activate(thing, "POSE")
    thing.data.bones.active = thing.data.bones["LeftHand"]
    unsure(monkeypatch)
    assert choosing.choose(scene, target_of(bpy.context), settings_of(scene))[0].name == "Harbourer/LeftHand"


def test_where_no_body_is_known_it_is_said_and_a_button_follows_it(scene, monkeypatch):
    thing = rig("Brindle", (("root", None), ("tip", "root")))
    leaping(thing.pose.bones["root"])
    activate(thing)
    unsure(monkeypatch)
    result = audited()
    assert result.basis.why.choice is FollowedFor.NO_BODY
    assert any("its center of mass is what to follow" in note for note in result.audit.notes)
    with pytest.raises(RuntimeError, match="No mesh is bound"):
        bpy.ops.leapwright.follow_center_of_mass()
    mesh = bpy.data.meshes.new("Body")
    corners = [(x, y, z) for x in (0, 1) for y in (0, 1) for z in (0, 1)]
    faces = [(0, 1, 3, 2), (4, 6, 7, 5), (0, 4, 5, 1), (2, 3, 7, 6), (0, 2, 6, 4), (1, 5, 7, 3)]
    mesh.from_pydata(corners, [], faces)
    body = bpy.data.objects.new("Body", mesh)
    scene.collection.objects.link(body)
    body.parent, body.parent_type, body.parent_bone = thing, "BONE", "root"
    assert bpy.ops.leapwright.follow_center_of_mass() == {"FINISHED"}
    assert (scene.leapwright.follow, scene.leapwright.thing) == ("center_of_mass", thing)
    assert results.latest(scene).audit.name == "Brindle/center of mass"


def test_a_named_body_is_followed_by_the_button_without_being_weighed(scene):
    thing = person()
    leaping(thing.pose.bones["Hips"], up=-1.0)
    activate(thing)
    assert bpy.ops.leapwright.follow_center_of_mass() == {"FINISHED"}
    assert scene.leapwright.follow == "center_of_mass" and not thing.data.leapwright_body.bones
