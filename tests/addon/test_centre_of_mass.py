"""The centre of mass of a rig: against the host's own mesh and pose, and in jumps whose pelvis is keyed wrong."""

import subprocess
import sys

import bmesh
import bpy
import numpy as np
import pytest
from leapwright.addon.candidates import candidate_named, find_candidates
from leapwright.addon.marks import put
from leapwright.addon.sampling import sample_bone
from leapwright.addon.scene import settings_of
from leapwright.addon.sources import SOURCES
from leapwright.analysis import audit_track
from leapwright.analysis.errors import SourceError
from leapwright.analysis.track import Marks

from tests.addon.human import METARIG, RIG, balance
from tests.addon.scenery import armature, key, turn
from tests.quay.motion import at, plan
from tests.quay.moves import Leap, Stand

MOVES = (Stand(7), Leap(push=6, rise=8, fall=8, absorb=6, distance=0.6, hold=2))


@pytest.fixture(scope="session")
def human(tmp_path_factory, root):
    """Build the host's human once, in a process of its own."""
    path = tmp_path_factory.mktemp("human") / "human.blend"
    command = [sys.executable, "-m", "tests.addon.human", str(path)]
    done = subprocess.run(command, cwd=root, capture_output=True, text=True, timeout=300)
    assert path.exists(), done.stdout + done.stderr
    return path


def shown(human, name):
    bpy.ops.wm.open_mainfile(filepath=str(human), load_ui=False)
    rig = bpy.data.objects[name]
    bpy.context.view_layer.objects.active = rig
    for bone in rig.pose.bones:
        bone.rotation_mode = "XYZ"
    return rig


def swing(motion, frame):
    """How far the arms are up: hanging in the crouch, up at takeoff, down again by landing."""
    built = motion.jumps[0]
    times = [1, built.crouch - 4, built.crouch, built.takeoff + 1, built.landing + 2, motion.last.frame]
    return float(np.interp(frame, times, [0.0, -0.3, -0.3, 1.0, 0.0, 0.0]))


def audited(track):
    audit = audit_track(track, settings_of(bpy.context.scene))
    assert len(audit.jumps) == 1, audit.notes
    return audit.jumps[0]


def assert_told_apart(rig, root, motion):
    """The root's jump is wrong, the centre of mass's is what was built."""
    scene, built = bpy.context.scene, motion.jumps[0]
    mass = audited(SOURCES["centre_of_mass"].sample(scene, rig))
    pelvis = audited(sample_bone(scene, rig, root))
    assert mass.push_ratio == pytest.approx(built.push_ratio, rel=0.02)
    assert mass.jump_height == pytest.approx(built.jump_height, rel=0.02)
    assert mass.push_distance == pytest.approx(built.push_distance, rel=0.02)
    assert mass.fitted_gravity == pytest.approx(built.gravity, rel=0.02)
    assert mass.agreement == pytest.approx(1.0, abs=0.02)
    assert mass.takeoff.frame == pytest.approx(built.takeoff, abs=0.25)
    assert abs(pelvis.push_ratio / built.push_ratio - 1.0) > 0.06
    assert abs(pelvis.push_ratio - mass.push_ratio) > 0.04 * built.push_ratio


def frames_of(motion):
    scene = bpy.context.scene
    scene.render.fps, scene.render.fps_base = 24, 1.0
    scene.gravity = (0.0, 0.0, -9.81)
    scene.frame_start, scene.frame_end = 1, int(motion.last.frame)
    return range(1, int(motion.last.frame) + 1)


def mesh_balance(body):
    """The centre of mass and volume of the mesh as Blender deforms it, by signed tetrahedra."""
    shell = bmesh.new()
    seen = body.evaluated_get(bpy.context.evaluated_depsgraph_get())
    shell.from_mesh(seen.to_mesh())
    shell.transform(seen.matrix_world)
    bmesh.ops.remove_doubles(shell, verts=shell.verts[:], dist=1e-5)
    bmesh.ops.recalc_face_normals(shell, faces=shell.faces[:])
    bmesh.ops.triangulate(shell, faces=shell.faces[:])
    corners = np.array([[vertex.co[:] for vertex in face.verts] for face in shell.faces])
    volume = shell.calc_volume()
    shell.free()
    sixths = np.einsum("ti,ti->t", corners[:, 0], np.cross(corners[:, 1], corners[:, 2])) / 6
    return (sixths[:, None] * corners.sum(axis=1) / 4).sum(axis=0) / sixths.sum(), volume


def goat(weighed=True):
    from tests.quay.brindle import brindle

    rig = brindle()
    bpy.context.view_layer.objects.active = rig
    if weighed:
        assert bpy.ops.leapwright.weigh_body() == {"FINISHED"}
    return rig, bpy.data.objects["Brindle body"]


def pose_goat(rig, motion, frame):
    up = swing(motion, frame)
    for side in "LR":
        rig.pose.bones[f"foreleg.{side}"].rotation_euler.z = 2.0 * up
    rig.pose.bones["body"].rotation_euler.z = 0.5 * up - 0.3
    rig.pose.bones["head"].rotation_euler.z = 0.4 * up


def keyed_goat():
    """Brindle, her root keyed so that what her mesh encloses jumps as planned."""
    rig, body = goat()
    motion = plan(MOVES, x=0.0, ground=0.0, gravity=9.81)
    posed = ("body", "head", "foreleg.L", "foreleg.R")
    for frame in frames_of(motion):
        pose_goat(rig, motion, frame)
        root = rig.pose.bones["root"]
        root.location = (0.0, 0.0, 0.0)
        bpy.context.view_layer.update()
        x, z = at(motion.keys, frame)
        centre, _ = mesh_balance(body)
        turned = rig.data.bones["root"].matrix_local.to_3x3().inverted()
        root.location = turned @ type(root.location)((x - centre[0], 0.0, z - centre[2]))
        root.keyframe_insert("location", frame=frame)
        for bone in posed:
            rig.pose.bones[bone].keyframe_insert("rotation_euler", frame=frame)
    return rig, body, motion


def test_a_goat_whose_root_is_keyed_wrong_is_judged_by_what_her_mesh_weighs(scene):
    rig, _, motion = keyed_goat()
    assert_told_apart(rig, "root", motion)


def test_the_goats_centre_of_mass_is_that_of_the_mesh_blender_shows(scene):
    rig, body, motion = keyed_goat()
    rows = rig.data.leapwright_body.bones
    track = SOURCES["centre_of_mass"].sample(scene, rig)
    for frame in range(1, int(motion.last.frame), 7):
        scene.frame_set(frame)
        centre, volume = mesh_balance(body)
        assert track.positions[frame - 1] == pytest.approx(centre, abs=1e-4)
        assert sum(row.mass for row in rows) == pytest.approx(1000 * volume, rel=1e-4)


def test_a_goat_nobody_mapped_keeps_her_root(scene):
    """Her masses are nobody's but her mesh's: they are weighed when asked for, and taken unasked from then on."""
    rig, _ = goat(weighed=False)
    key(rig.pose.bones["root"])
    assert [candidate.name for candidate in find_candidates(scene)] == ["Brindle/root"]
    bpy.ops.leapwright.weigh_body()
    (found,) = find_candidates(scene)
    assert (found.name, found.source) == ("Brindle/centre of mass", "centre_of_mass")
    assert found.reason == "centre of mass of Brindle: 11 bones as mapped, masses of their own"


def test_the_meta_rig_jumps_as_its_mass_was_built_to(scene, human):
    rig = shown(human, METARIG)
    motion = plan(MOVES, x=0.0, ground=0.0, gravity=9.81)
    spine = rig.pose.bones["spine"]
    turned = rig.data.bones["spine"].matrix_local.to_3x3().inverted()
    for frame in frames_of(motion):
        up = swing(motion, frame)
        raise_arms(rig, up, "upper_arm")
        spine.location = (0.0, 0.0, 0.0)
        bpy.context.view_layer.update()
        x, z = at(motion.keys, frame)
        centre = balance(rig)
        spine.location = turned @ type(spine.location)((x - centre[0], 0.0, z + 0.2 - centre[2]))
        for bone, path in ((spine, "location"), *arms(rig, "upper_arm")):
            bone.keyframe_insert(path, frame=frame)
    (found,) = find_candidates(bpy.context.scene)
    assert found.reason == "centre of mass of metarig: 19 bones mapped by name, Female (de Leva 1996)"
    assert_told_apart(rig, "spine", motion)


def arms(rig, name):
    return [(rig.pose.bones[f"{name}.{side}"], "rotation_euler") for side in "LR"]


def raise_arms(rig, up, name):
    for bone, _ in arms(rig, name):
        bone.rotation_euler.x = -2.2 * up


def test_the_generated_rig_jumps_as_its_mass_was_built_to(scene, human):
    """Its torso is keyed, its feet are held by IK until takeoff: legs bend, arms swing, and only the mass is right."""
    rig = shown(human, RIG)
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
    assert found.reason == "centre of mass of rig: 27 bones mapped by name, Female (de Leva 1996)"
    assert_told_apart(rig, "torso", motion)


@pytest.mark.parametrize(("name", "prefix"), [(METARIG, ""), (RIG, "DEF-")])
def test_a_standing_human_balances_at_55_to_57_hundredths_of_stature(scene, human, name, prefix):
    """The textbook's range (from memory); the arms, which the rig holds out, hanging."""
    rig = shown(human, name)
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
    track = SOURCES["centre_of_mass"].sample(bpy.context.scene, rig)
    assert track.positions[0] == pytest.approx(balance(rig, prefix), abs=1e-4)
    assert 0.55 <= track.positions[0, 2] / stature <= 0.57


def test_units_and_gravity_are_the_scenes(scene):
    rig, _ = goat()
    key(rig.pose.bones["root"])
    upright = SOURCES["centre_of_mass"].sample(scene, rig).positions
    scene.unit_settings.scale_length = 0.1
    scene.gravity = (-9.81, 0.0, 0.0)
    turned = SOURCES["centre_of_mass"].sample(scene, rig).positions
    assert turned[:, 2] == pytest.approx(0.1 * upright[:, 0], abs=1e-6)


def test_masses_by_hand_follow_a_turned_armature_as_shown(scene):
    rig = turn(armature())
    key(rig.pose.bones["root"])
    rows = rig.data.leapwright_body.bones
    for bone, mass in (("root", 1.0), ("chest", 3.0)):
        row = rows.add()
        row.bone, row.mass = bone, mass
    track = SOURCES["centre_of_mass"].sample(scene, rig)
    scene.frame_set(12)
    ends = [rig.matrix_world @ getattr(rig.pose.bones[bone], end) for bone in ("root", "chest") for end in
            ("head", "tail")]  # fmt: skip
    middles = np.average(np.array(ends), axis=0, weights=[1, 1, 3, 3])
    assert track.positions[11] == pytest.approx(middles, abs=1e-5)
    assert (track.name, track.source) == ("Brindle/centre of mass", "centre of mass")
    assert track.notes == ("centre of mass of 2 bones as mapped, masses of their own",)
    assert list(track.key_frames) == [1, 7.5, 12, 20, 30] and track.interpolation == "bezier"


def test_marks_by_hand_reach_the_centre_of_mass(scene):
    rig, _ = goat()
    key(rig.pose.bones["root"])
    put(scene, "Brindle/centre of mass", (Marks(takeoff=9),))
    assert SOURCES["centre_of_mass"].sample(scene, rig).marks == (Marks(takeoff=9),)


def test_a_plain_name_that_begins_like_it_is_still_the_rigs(scene):
    rig, _ = goat()
    rig.name = "comet"
    key(rig.pose.bones["root"])
    assert candidate_named(scene, "comet/centre of mass").sample().name == "comet/centre of mass"


@pytest.mark.parametrize("name", ["com", "com:Brindle", "Brindle/centre of mass"])
def test_the_centre_of_mass_can_be_asked_for_by_name(scene, name):
    rig, _ = goat()
    key(rig.pose.bones["root"])
    assert candidate_named(scene, name).sample().name == "Brindle/centre of mass"


def test_which_of_two_bodies_is_meant_must_be_said(scene):
    for _ in range(2):
        key(goat()[0].pose.bones["root"])
    with pytest.raises(SourceError, match=r'"com" could be "com:Brindle", "com:Brindle\.001": name one of them'):
        candidate_named(scene, "com")


def test_a_scene_without_an_armature_has_no_centre_of_mass(scene):
    with pytest.raises(SourceError, match=f'"{scene.name}" has no armature "Moss", so no centre of mass'):
        candidate_named(scene, "com:Moss")


def test_an_armature_that_nothing_maps_says_so(scene):
    rig = armature()
    rig.data.bones["root"].name, rig.data.bones["chest"].name = "Bone", "Bone.001"
    assert not SOURCES["centre_of_mass"].poll(rig)
    with pytest.raises(SourceError, match='"Brindle": no bone has a body segment or a mass: map the bones first'):
        candidate_named(scene, "com").sample()


def test_a_rig_keyed_too_briefly_for_a_jump_says_so(scene):
    rig, _ = goat()
    key(rig.pose.bones["root"], [(1, (0, 0, 0)), (3, (0, 0, 1))])
    with pytest.raises(SourceError, match='"Brindle" is keyed over 3 frames'):
        SOURCES["centre_of_mass"].sample(scene, rig)
