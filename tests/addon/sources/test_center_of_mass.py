"""The center of mass of a rig, against the mesh and the pose the host itself shows, and how it is asked for."""

import bpy
import numpy as np
import pytest
from leapwright.addon.marks.marks import put
from leapwright.addon.shots.candidates import candidate_named, find_candidates
from leapwright.addon.sources import SCENE_SOURCES
from leapwright.analysis.errors import SourceError
from leapwright.analysis.track import Marks

from tests.addon.human import METARIG, RIG, balance, shown
from tests.addon.leaping import goat, keyed_goat, mesh_balance
from tests.addon.scenery import armature, key, turn


def test_the_goats_center_of_mass_is_that_of_the_mesh_blender_shows(scene):
    rig, body, motion = keyed_goat()
    rows = rig.data.leapwright_body.bones
    track = SCENE_SOURCES["center_of_mass"].sample(scene, rig)
    for frame in range(1, int(motion.last.frame), 7):
        scene.frame_set(frame)
        center, volume = mesh_balance(body)
        assert track.positions[frame - 1] == pytest.approx(center, abs=1e-4)
        assert sum(row.mass for row in rows) == pytest.approx(1000 * volume, rel=1e-4)


def test_a_goat_nobody_mapped_keeps_her_root(scene):
    """Her masses come from her mesh alone: they are computed when a person asks for them, and used by every later
    audit."""
    rig, _ = goat(weighed=False)
    key(rig.pose.bones["root"])
    assert [candidate.name for candidate in find_candidates(scene)] == ["Brindle/root"]
    bpy.ops.leapwright.weigh_body()
    (found,) = find_candidates(scene)
    assert (found.name, found.source) == ("Brindle/center of mass", "center_of_mass")
    assert found.reason == "center of mass of Brindle: 11 bones as mapped, masses of their own"


@pytest.mark.parametrize(("name", "prefix"), [(METARIG, ""), (RIG, "DEF-")])
def test_a_standing_human_balances_at_55_to_57_hundredths_of_stature(scene, human_rigs, name, prefix):
    """The textbook's range (from memory) is for hanging arms, so the rig's arms are let down first."""
    rig = shown(human_rigs, name)
    rig.animation_data_create()
    arm = "upper_arm_fk" if name == RIG else "upper_arm"
    for side, sign in (("L", 1.0), ("R", -1.0)):
        if name == RIG:
            rig.pose.bones[f"upper_arm_parent.{side}"]["IK_FK"] = 1.0
        bone = rig.pose.bones[f"{arm}.{side}"]
        bpy.context.view_layer.update()
        hanging = bone.vector.rotation_difference((0.05 * sign, 0.0, -1.0)).to_matrix().to_4x4()
        head = bone.head.copy()
        bone.matrix = type(hanging).Translation(head) @ hanging @ type(hanging).Translation(-head) @ bone.matrix
        bone.keyframe_insert("rotation_euler", frame=1)
    bpy.context.view_layer.update()
    stature = rig.pose.bones[f"{prefix}spine.006"].tail.z
    track = SCENE_SOURCES["center_of_mass"].sample(bpy.context.scene, rig)
    assert track.positions[0] == pytest.approx(balance(rig, prefix), abs=1e-4)
    assert 0.55 <= track.positions[0, 2] / stature <= 0.57


def test_units_and_gravity_are_the_scenes(scene):
    rig, _ = goat()
    key(rig.pose.bones["root"])
    upright = SCENE_SOURCES["center_of_mass"].sample(scene, rig).positions
    scene.unit_settings.scale_length = 0.1
    scene.gravity = (-9.81, 0.0, 0.0)
    turned = SCENE_SOURCES["center_of_mass"].sample(scene, rig).positions
    assert turned[:, 2] == pytest.approx(0.1 * upright[:, 0], abs=1e-6)


def test_masses_by_hand_follow_a_turned_armature_as_shown(scene):
    rig = turn(armature())
    key(rig.pose.bones["root"])
    rows = rig.data.leapwright_body.bones
    for bone, mass in (("root", 1.0), ("chest", 3.0)):
        row = rows.add()
        row.bone, row.mass = bone, mass
    track = SCENE_SOURCES["center_of_mass"].sample(scene, rig)
    scene.frame_set(12)
    ends = [rig.matrix_world @ getattr(rig.pose.bones[bone], end) for bone in ("root", "chest") for end in
            ("head", "tail")]  # fmt: skip
    middles = np.average(np.array(ends), axis=0, weights=[1, 1, 3, 3])
    assert track.positions[11] == pytest.approx(middles, abs=1e-5)
    assert (track.name, track.source) == ("Brindle/center of mass", "center of mass")
    assert track.notes == ("center of mass of 2 bones as mapped, masses of their own",)
    assert list(track.key_frames) == [1, 7.5, 12, 20, 30] and track.interpolation == "bezier"


def test_an_invalid_driver_of_the_rig_is_named(scene):
    rig = keyed_goat()[0]
    rig.driver_add("delta_scale", 0).driver.expression = "unheard_of +"
    bpy.context.view_layer.update()
    said = f'the driver of delta_scale of "{rig.name}" is invalid: Blender does not evaluate it'
    assert said in SCENE_SOURCES["center_of_mass"].sample(scene, rig).notes


def test_marks_by_hand_reach_the_center_of_mass(scene):
    rig, _ = goat()
    key(rig.pose.bones["root"])
    put(scene, "Brindle/center of mass", (Marks(takeoff=9),))
    assert SCENE_SOURCES["center_of_mass"].sample(scene, rig).marks == (Marks(takeoff=9),)


def test_a_plain_name_that_begins_like_it_is_still_the_rigs(scene):
    rig, _ = goat()
    rig.name = "comet"
    key(rig.pose.bones["root"])
    assert candidate_named(scene, "comet/center of mass").sample().name == "comet/center of mass"


@pytest.mark.parametrize("name", ["com", "com:Brindle", "Brindle/center of mass"])
def test_the_center_of_mass_can_be_asked_for_by_name(scene, name):
    rig, _ = goat()
    key(rig.pose.bones["root"])
    assert candidate_named(scene, name).sample().name == "Brindle/center of mass"


def test_which_of_two_bodies_is_meant_must_be_said(scene):
    for _ in range(2):
        key(goat()[0].pose.bones["root"])
    with pytest.raises(SourceError, match=r'"com" could be "com:Brindle", "com:Brindle\.001": name one of them'):
        candidate_named(scene, "com")


def test_a_scene_without_an_armature_has_no_center_of_mass(scene):
    with pytest.raises(SourceError, match=f'"{scene.name}" has no armature "Moss", so no center of mass'):
        candidate_named(scene, "com:Moss")


def test_an_armature_that_nothing_maps_says_so(scene):
    rig = armature()
    rig.data.bones["root"].name, rig.data.bones["chest"].name = "Bone", "Bone.001"
    assert not SCENE_SOURCES["center_of_mass"].poll(rig)
    with pytest.raises(SourceError, match='"Brindle": no bone has a body segment or a mass: map the bones first'):
        candidate_named(scene, "com").sample()


def test_a_rig_keyed_too_briefly_for_a_jump_says_so(scene):
    rig, _ = goat()
    key(rig.pose.bones["root"], [(1, (0, 0, 0)), (3, (0, 0, 1))])
    with pytest.raises(SourceError, match='"Brindle" is keyed over 3 frames'):
        SCENE_SOURCES["center_of_mass"].sample(scene, rig)
