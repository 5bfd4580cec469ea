"""Retiming a production rig: the human rig that Blender itself generates, with hundreds of keyed channels."""

from dataclasses import replace

import addon_utils
import bpy
import numpy as np
import pytest
from leapwright.addon import host, results
from leapwright.addon.retiming import forecasts
from mathutils import Vector

from tests.addon.key_state import file_state
from tests.addon.mismatched import FLOATY, LATE, RUSHED_ON_TWOS
from tests.quay.keying import lay
from tests.quay.motion import FPS, at
from tests.quay.moves import STANDING

PUSH, AIR = {"push-long", "push-short", "push-speed"}, {"air-floaty", "air-snappy"}


@pytest.fixture(scope="module")
def generated(tmp_path_factory):
    """Make a file with the rig, once."""
    bpy.ops.wm.read_homefile(use_factory_startup=True, use_empty=True)
    addon_utils.enable("rigify", default_set=True)
    bpy.ops.object.armature_human_metarig_add()
    bpy.ops.pose.rigify_generate()
    bpy.ops.object.mode_set(mode="OBJECT")
    (rig,) = (thing for thing in bpy.data.objects if thing.type == "ARMATURE" and thing.name != "metarig")
    rig.name = "Brindle"
    bpy.data.objects.remove(bpy.data.objects["metarig"])
    path = tmp_path_factory.mktemp("rig") / "rig.blend"
    bpy.ops.wm.save_as_mainfile(filepath=str(path))
    yield path
    addon_utils.disable("rigify", default_set=True)


def controls_of(rig):
    """Return what an animator keys, except the root, which carries the torso."""
    made = ("ORG-", "DEF-", "MCH-", "VIS_")
    return [bone for bone in rig.pose.bones if bone.name != "root" and not bone.name.startswith(made)]


def jumping(path, shot, *, stepped=False, twos=False):
    """Open the rig and key it: the torso along the shot's motion, all other controls turned a bit at each pose.

    twos: with a pose on every second frame.
    """
    bpy.ops.wm.open_mainfile(filepath=str(path), load_ui=False)
    scene, rig, motion = bpy.context.scene, bpy.data.objects["Brindle"], shot.motion()
    scene.render.fps, scene.gravity = FPS, (0.0, 0.0, -shot.gravity)
    inward = rig.pose.bones["torso"].bone.matrix_local.to_3x3().inverted()
    frames = list(range(1, int(motion.last.frame) + 1, 2)) if twos else [key.frame for key in motion.keys]
    path_at = [at(motion.keys, frame) for frame in frames]
    ways = [inward @ Vector((x, 0.0, z - shot.ground - STANDING)) for x, z in path_at]
    slopes = [[inward @ Vector((side[0], 0.0, side[1])) for side in (key.before, key.after)] for key in motion.keys]
    for axis in range(3):
        own = [(before[axis], after[axis]) for before, after in slopes]
        values = [way[axis] for way in ways]
        lay(rig.pose.bones["torso"], "location", axis, frames, values, slopes=None if stepped else own, stepped=stepped)
    rng = np.random.default_rng(7)
    for bone in controls_of(rig):
        path = "rotation_quaternion" if bone.rotation_mode == "QUATERNION" else "rotation_euler"
        for axis in range(4 if path == "rotation_quaternion" else 3):
            values = rng.normal(0.0, 0.05, len(frames)) + (axis == 0 and path == "rotation_quaternion")
            lay(bone, path, axis, frames, values.tolist(), stepped=stepped)
    settings = scene.leapwright
    settings.follow, settings.thing, settings.bone = "bone", rig, "torso"
    return rig


def worst_of(jump):
    return {finding.code: finding.rank for finding in jump.findings}


@pytest.mark.parametrize("stepped", [False, True], ids=["curves", "stepped"])
@pytest.mark.parametrize(
    ("shot", "keep"), [(FLOATY, "flight"), (LATE, "push"), (LATE, "nothing")], ids=["flight", "push", "nothing"]
)
def test_hundreds_of_curves_move_as_forecast_and_back(scene, generated, shot, keep, stepped):
    rig = jumping(generated, replace(shot, prop=""), stepped=stepped)
    curves = len(host.curves_of(rig.animation_data))
    assert curves > 300
    assert bpy.ops.leapwright.audit_jump() == {"FINISHED"}
    before = worst_of(results.latest(bpy.context.scene).audit.jumps[0])
    assert before.keys() & PUSH
    bpy.ops.ed.undo_push(message="Keyed")
    state = file_state()
    assert bpy.ops.leapwright.retime_jump("EXEC_DEFAULT", True, keep=keep, ripple=True) == {"FINISHED"}
    result = results.latest(bpy.context.scene)
    after, shown = worst_of(result.audit.jumps[0]), forecasts.shown_beside(bpy.context.scene, result, 0)
    assert shown.differs == () and not after.keys() & PUSH
    assert {code for code, rank in after.items() if rank > before.get(code, -1)} <= (AIR if keep == "push" else set())
    moved = file_state()
    assert sum(moved[name] != state[name] for name in state) >= curves
    bpy.ops.ed.undo()
    assert file_state() == state


def on_every_second_frame(generated):
    rig = jumping(generated, replace(RUSHED_ON_TWOS, prop=""), stepped=True, twos=True)
    assert bpy.ops.leapwright.audit_jump() == {"FINISHED"}
    # On twos the root leaves the jump unsure, so the center of mass is read; there the push is known to 1.5 frames
    # only.
    assert "air-floaty" in worst_of(results.latest(bpy.context.scene).audit.jumps[0])
    return rig


def test_held_poses_on_every_second_frame_are_not_squeezed_unevenly(scene, generated):
    # Seven poses a side do not fit eight frames on twos: one pose would be held twice as long. And the torso's place
    # does not depend on its keys alone.
    on_every_second_frame(generated)
    state = file_state()
    with pytest.raises(RuntimeError, match="On whole frames this would leave the jump worse than it is"):
        bpy.ops.leapwright.retime_jump(keep="flight")
    assert file_state() == state


def test_where_it_makes_nothing_worse_they_are_squeezed(scene, generated):
    on_every_second_frame(generated)
    before = worst_of(results.latest(bpy.context.scene).audit.jumps[0])
    assert bpy.ops.leapwright.retime_jump(keep="nothing") == {"FINISHED"}
    assert bpy.ops.leapwright.audit_jump() == {"FINISHED"}
    after = worst_of(results.latest(bpy.context.scene).audit.jumps[0])
    assert "air-floaty" in before and "air-floaty" not in after
    assert all(rank <= before.get(code, -1) for code, rank in after.items())
