"""Jumps whose arms swing: the center of mass jumps as it was built to, the keyed root does not, and the audit tells
both."""

import bpy
import pytest
from leapwright.addon.mass.bound_mesh import bound_parts
from leapwright.addon.reading.sampling import sample_bone
from leapwright.addon.scene import settings_of
from leapwright.addon.shots.candidates import find_candidates
from leapwright.addon.sources import SCENE_SOURCES
from leapwright.analysis import audit_track

from tests.addon.human import METARIG, RIG, balance, shown
from tests.addon.leaping import MOVES, frames_of, keyed_goat, swing
from tests.quay.motion import at, plan


def audited(track):
    audit = audit_track(track, settings_of(bpy.context.scene))
    assert len(audit.jumps) == 1, audit.notes
    return audit.jumps[0]


def assert_told_apart(rig, root, motion):
    """Assert that the audit of the center of mass tells the jump as it was built, and that the audit of the root does
    not."""
    scene, built = bpy.context.scene, motion.jumps[0]
    mass = audited(SCENE_SOURCES["center_of_mass"].sample(scene, rig))
    pelvis = audited(sample_bone(scene, rig, root))
    assert mass.push.ratio.value == pytest.approx(built.push_ratio, rel=0.02)
    assert mass.flight.height.value == pytest.approx(built.jump_height, rel=0.02)
    assert mass.push.distance.value == pytest.approx(built.push_distance, rel=0.02)
    assert mass.flight.gravity.value == pytest.approx(built.gravity, rel=0.02)
    assert mass.push.agreement.value == pytest.approx(1.0, abs=0.02)
    assert mass.takeoff.frame == pytest.approx(built.takeoff, abs=0.25)
    # Twice what the mass may be off.
    height, distance = pelvis.flight.height.value, pelvis.push.distance.value
    assert abs(height / built.jump_height - 1.0) > 0.04 and abs(distance / built.push_distance - 1.0) > 0.04


def test_a_goat_whose_root_is_keyed_wrong_is_judged_by_what_her_mesh_weighs(scene):
    rig, _, motion = keyed_goat()
    assert_told_apart(rig, "root", motion)


def test_the_meta_rig_jumps_as_its_mass_was_built_to(scene, human_rigs):
    rig = shown(human_rigs, METARIG)
    motion = plan(MOVES, x=0.0, ground=0.0, gravity=9.81)
    spine = rig.pose.bones["spine"]
    turned = rig.data.bones["spine"].matrix_local.to_3x3().inverted()
    for frame in frames_of(motion):
        up = swing(motion, frame)
        raise_arms(rig, up, "upper_arm")
        spine.location = (0.0, 0.0, 0.0)
        bpy.context.view_layer.update()
        x, z = at(motion.keys, frame)
        center = balance(rig)
        spine.location = turned @ type(spine.location)((x - center[0], 0.0, z + 0.2 - center[2]))
        for bone, path in ((spine, "location"), *arms(rig, "upper_arm")):
            bone.keyframe_insert(path, frame=frame)
    (found,) = find_candidates(bpy.context.scene)
    assert found.reason == "center of mass of metarig: 19 bones mapped by name, Female (de Leva 1996)"
    assert_told_apart(rig, "spine", motion)


def arms(rig, name):
    return [(rig.pose.bones[f"{name}.{side}"], "rotation_euler") for side in "LR"]


def raise_arms(rig, up, name):
    for bone, _ in arms(rig, name):
        bone.rotation_euler.x = -2.2 * up


def test_the_generated_rig_jumps_as_its_mass_was_built_to(scene, human_rigs):
    """Its torso is keyed and its feet are held by IK until takeoff. Legs bend and arms swing, so only the center of
    mass is right."""
    rig = shown(human_rigs, RIG)
    motion = plan(MOVES, x=0.0, ground=0.0, gravity=9.81)
    built, torso = motion.jumps[0], rig.pose.bones["torso"]
    feet = [rig.pose.bones[f"foot_ik.{side}"] for side in "LR"]
    for side in "LR":
        rig.pose.bones[f"upper_arm_parent.{side}"]["IK_FK"] = 1.0
    for frame in frames_of(motion):
        z = at(motion.keys, frame)[1] + 0.1
        raise_arms(rig, swing(motion, frame), "upper_arm_fk")
        lift = max(0.0, z - 0.1 - 1.06) if built.takeoff <= frame <= built.landing else 0.0
        for foot in feet:
            foot.location.z = lift
        for _ in range(6):
            bpy.context.view_layer.update()
            off = z - balance(rig, "DEF-")[2]
            if abs(off) < 1e-4:
                break
            torso.location.z += off
        assert abs(off) < 1e-4
        for bone, path in ((torso, "location"), *((foot, "location") for foot in feet), *arms(rig, "upper_arm_fk")):
            bone.keyframe_insert(path, frame=frame)
    (found,) = find_candidates(bpy.context.scene)
    assert found.reason == "center of mass of rig: 27 bones mapped by name, Female (de Leva 1996)"
    assert_told_apart(rig, "torso", motion)


def test_a_mesh_in_units_of_half_a_meter_weighs_an_eighth(scene):
    rig, *_ = keyed_goat()
    whole, half = (bound_parts(rig, meters) for meters in (1.0, 0.5))
    assert [part.bone for part in half] == [part.bone for part in whole]
    assert [part.mass for part in half] == pytest.approx([part.mass / 8.0 for part in whole])
    assert [part.along for part in half] == pytest.approx([part.along for part in whole])
