"""Import Motion Capture reads a recording, follows it, and changes the scene's frame rate only when asked.

The outside reference is the host: what its exporter writes, and what it then shows frame by frame.
"""

import bpy
import numpy as np
import pytest
from leapwright.addon import results
from leapwright.addon.shots import bvh
from leapwright.addon.target import stand_in, target_of

from tests.addon.scenery import empty, hopping, key
from tests.addon.skeletons import person, recording, rig
from tests.analysis import day

MOTION = day.hop(3, fps=60.0)
FRAMES = MOTION.track.frames


def recorded(path, thing, bone, *, scale=1.0):
    """Write the hop of MOTION, made by a bone, as a recording at 60 fps; leave an empty scene at 24."""
    scene = bpy.context.scene
    scene.render.fps = 60
    thing.data.bones[bone].use_local_location = False
    key(thing.pose.bones[bone], zip(FRAMES, MOTION.track.positions, strict=True))
    thing.select_set(True)
    span = {"frame_start": int(FRAMES[0]), "frame_end": int(FRAMES[-1])}
    bpy.ops.export_anim.bvh(filepath=str(path), global_scale=scale, **span)
    bpy.ops.wm.read_homefile(use_factory_startup=True, use_empty=True)
    return path


@pytest.fixture
def capture(scene, tmp_path):
    """A person's recording."""
    return recorded(tmp_path / "quay_hop.bvh", person(), "Hips")


@pytest.fixture
def crane(scene, tmp_path):
    """A recording whose bones tell no body."""
    bones = (("Boom", None), ("Jib", "Boom"))
    return recorded(tmp_path / "crane.bvh", rig("Crane", bones), "Boom")


def brought(path, undo=False, **options):
    return bpy.ops.leapwright.import_motion("EXEC_DEFAULT", undo, filepath=str(path), **options)


def audited():
    bpy.ops.leapwright.audit_jump()
    audit = results.latest(bpy.context.scene).audit
    assert len(audit.jumps) == 1, audit.notes
    return audit, audit.jumps[0]


def test_a_person_is_followed_by_the_center_of_mass_at_the_scenes_own_rate(capture, capfd):
    assert brought(capture) == {"FINISHED"}
    render = bpy.context.scene.render
    assert (render.fps, render.fps_base) == (24, 1.0)
    assert bpy.context.active_object.name == "quay_hop" and bpy.context.active_object.select_get()
    assert "quay_hop/center of mass is followed" in capfd.readouterr().out
    assert results.latest(bpy.context.scene) is None  # it does not audit: that has its own button
    audit, jump = audited()
    truth, slower = MOTION.truth[0], 24 / 60
    assert audit.name == "quay_hop/center of mass"
    assert jump.flight.airtime.value == pytest.approx(slower * (truth.landing - truth.takeoff), abs=0.4)
    assert jump.flight.height.value == pytest.approx(truth.jump_height, rel=0.05)  # of 13 cm, in ten frames
    assert jump.flight.gravity.value == pytest.approx(9.81, rel=0.01)


def test_the_scenes_rate_is_set_only_where_that_is_ticked(capture):
    assert brought(capture, use_file_rate=True) == {"FINISHED"}
    render, truth = bpy.context.scene.render, MOTION.truth[0]
    assert render.fps / render.fps_base == pytest.approx(60, rel=1e-4)
    _, jump = audited()
    assert jump.flight.airtime.value == pytest.approx(truth.landing - truth.takeoff, abs=0.5)


def test_bones_that_tell_no_body_leave_the_root(crane, capfd):
    brought(crane)
    assert "crane/Boom is followed, since its bones are not named like a whole body's" in capfd.readouterr().out
    audit, _ = audited()
    assert audit.name == "crane/Boom"
    rigged = bpy.data.objects["crane"]
    bpy.context.scene.frame_set(10)
    shown = (rigged.matrix_world @ rigged.pose.bones["Boom"].head).z
    bpy.context.scene.frame_set(1)
    risen = shown - (rigged.matrix_world @ rigged.pose.bones["Boom"].head).z
    there = np.interp(9 * 60 / 24, np.arange(len(FRAMES)), MOTION.track.heights)
    assert risen == pytest.approx(there - MOTION.track.heights[0], rel=1e-5)


def test_settings_that_name_something_else_follow_the_recording_instead(capture, crane):
    settings = bpy.context.scene.leapwright
    settings.follow, settings.thing = "object", hopping(empty())
    brought(capture)
    assert (settings.follow, settings.thing.name) == ("center_of_mass", "quay_hop")
    brought(crane)
    assert (settings.follow, settings.thing.name, settings.bone) == ("bone", "crane", "Boom")


@pytest.mark.parametrize(("unit", "scale"), [(1.0, 0.01), (0.01, 1.0)])
def test_a_recording_in_centimeters_has_its_size_in_whatever_unit_the_scene_is(scene, tmp_path, capfd, unit, scale):
    scene.unit_settings.scale_length = unit
    brought(recording(tmp_path / "moss.bvh", 170))
    assert "read in centimeters: its skeleton is 170 units tall" in capfd.readouterr().out
    assert tuple(bpy.context.active_object.scale) == pytest.approx((scale, scale, scale))
    track = stand_in(target_of(bpy.context)).sample(bpy.context)
    assert np.ptp(track.heights) == pytest.approx(0.34, rel=0.02)


def test_it_is_one_undo_step(capture):
    bpy.context.scene["step"] = 1
    bpy.ops.ed.undo_push(message="before")
    brought(capture, undo=True)
    bpy.ops.ed.undo()
    assert "quay_hop" not in bpy.data.objects and bpy.context.scene["step"] == 1


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("Brindle jumps\n", "Blender's bvh importer refuses it: .*This is not a BVH file"),
        ("", "the file is empty"),
        (None, "it cannot be opened: no such file"),
        ("HIERARCHY\nROOT Hips\n{\n OFFSET 0 0 0\n CHANNELS 3 Xposition Yposition Zposition\n JOINT Head\n {\n"
         "  OFFSET 0 1 0\n  CHANNELS 0\n  End Site\n  {\n   OFFSET 0 1 0\n  }\n }\n}\n"
         "MOTION\nFrames: 0\nFrame Time: 0.01\n", "Blender's bvh importer refuses it"),
    ],
)  # fmt: skip
def test_a_file_that_cannot_be_read_is_a_sentence_and_leaves_all_as_it_was(scene, tmp_path, text, said):
    crate, path = empty(), tmp_path / "moss.bvh"
    bpy.context.view_layer.objects.active = crate
    crate.select_set(True)
    if text is not None:
        path.write_text(text)
    with pytest.raises(RuntimeError, match=f'"moss.bvh" cannot be read: {said}'):
        brought(path, use_file_rate=True)
    assert list(bpy.data.objects) == [crate] and not bpy.data.armatures and not bpy.data.actions
    assert bpy.context.active_object == crate and crate.select_get()
    assert (scene.render.fps, scene.render.fps_base) == (24, 1.0)


def test_a_recording_that_is_cut_short_is_warned_of(capture, capfd):
    capture.write_text("".join(capture.read_text().splitlines(keepends=True)[:-5]))
    brought(capture)
    said = capfd.readouterr().out
    assert "Warning: " in said and f"it is cut short: {len(FRAMES) - 5} of its {len(FRAMES)} frames are there" in said


def test_without_the_hosts_importer_the_button_says_what_to_turn_on(scene, tmp_path):
    bpy.ops.preferences.addon_disable(module=bvh.IMPORTER)
    try:
        with pytest.raises(RuntimeError, match="Turn on Blender's BVH add-on in the preferences first"):
            brought(tmp_path / "moss.bvh")
    finally:
        bpy.ops.preferences.addon_enable(module=bvh.IMPORTER)
