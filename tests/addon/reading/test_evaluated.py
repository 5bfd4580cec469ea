"""Evaluated bones and objects are what the host shows, and reading them leaves everything as it was.

The outside reference is the host: `frame_set` in the user's scene, and the evaluated pose, frame by frame.
"""

import bpy
import numpy as np
import pytest
from leapwright.addon.reading import sample_cache
from leapwright.addon.reading.evaluated import evaluated_frames, evaluated_origin, evaluated_points
from leapwright.analysis.errors import SourceError

from tests.addon.constrained import RIGS, footprint, limb
from tests.addon.scenery import armature, empty, key, read_out

FRAMES = np.arange(-3, 34)
PARTS = np.array([2.25, 7.5, 19.875])


def shown(thing, bones, frames):
    """Return heads and tails by the host, meters, z up, of a scene in meters.

    The median of three passes: about once in two thousand frames the host evaluates a driver of `drivers` before the
    scene's property that it reads, so that a frame here and there is not what it shows the next time.
    """
    return np.median([_once(thing, bones, frames) for _ in range(3)], axis=0)


def read(rig, bones, frames, reading=evaluated_points):
    """Return our reading, the median of three fresh ones as well, since it asks the same host."""
    passes = []
    for _ in range(3):
        sample_cache.forget()
        passes.append(reading(bpy.context.scene, rig, bones, frames))
    return np.median(passes, axis=0)


def _once(thing, bones, frames):
    scene = bpy.context.scene
    rows = []
    for frame in frames:
        scene.frame_set(int(np.floor(frame)), subframe=frame % 1)
        seen = thing.evaluated_get(bpy.context.evaluated_depsgraph_get())
        ends = [(seen.pose.bones[name].head, seen.pose.bones[name].tail) for name in bones]
        rows.append([[seen.matrix_world @ end for end in pair] for pair in ends])
    return np.array(rows)


@pytest.mark.parametrize("build", RIGS, ids=lambda build: build.__name__)
def test_bones_are_where_the_host_shows_them_and_nothing_else_changes(scene, build):
    rig = build(scene)
    frames = np.concatenate((FRAMES, PARTS))
    expected = shown(rig, rig.pose.bones.keys(), frames)
    assert np.ptp(expected[:, :, 0], axis=0).max() > 0.1
    scene.frame_set(5, subframe=0.5)
    rig.pose.bones[0].rotation_mode = "XYZ"
    bpy.context.view_layer.update()
    before = footprint()
    points = read(rig, rig.pose.bones.keys(), frames)
    assert footprint() == before
    np.testing.assert_allclose(points, expected, atol=1e-5)


@pytest.mark.parametrize("build", RIGS, ids=lambda build: build.__name__)
def test_each_bone_asked_for_alone_is_where_it_is_among_all(scene, build):
    rig = build(scene)
    names = rig.pose.bones.keys()
    expected = shown(rig, names, FRAMES)
    for number, name in enumerate(names):
        np.testing.assert_allclose(read(rig, [name], FRAMES)[:, 0], expected[:, number], atol=1e-5)
        ends = read(rig, [name], FRAMES, evaluated_frames)[:, 0, :2]
        np.testing.assert_allclose(ends, expected[:, number], atol=1e-5)


@pytest.mark.skipif(bpy.app.version < (4, 5), reason="4.2 saves no file twice with the same bytes")
@pytest.mark.parametrize("build", RIGS, ids=lambda build: build.__name__)
def test_the_file_is_saved_with_the_same_bytes(scene, tmp_path, build):
    rig = build(scene)
    scene.frame_set(5, subframe=0.5)
    bpy.context.view_layer.update()
    bpy.ops.wm.save_as_mainfile(filepath=str(tmp_path / "before.blend"), copy=True)
    evaluated_points(scene, rig, rig.pose.bones.keys(), FRAMES)
    bpy.ops.wm.save_as_mainfile(filepath=str(tmp_path / "after.blend"), copy=True)
    assert (tmp_path / "before.blend").read_bytes() == (tmp_path / "after.blend").read_bytes()


@pytest.mark.parametrize("build", RIGS, ids=lambda build: build.__name__)
def test_undo_and_redo_go_on_where_they_were(scene, build):
    rig = build(scene)
    name = rig.name
    bpy.ops.ed.undo_push(message="before")
    rig.location.x = 5.0
    bpy.ops.ed.undo_push(message="moved")
    evaluated_points(scene, rig, rig.pose.bones.keys(), FRAMES)
    bpy.ops.ed.undo()
    assert bpy.data.objects[name].location.x == 0.0
    bpy.ops.ed.redo()
    assert bpy.data.objects[name].location.x == 5.0 and len(bpy.data.scenes) == 1


@pytest.mark.parametrize("build", RIGS, ids=lambda build: build.__name__)
def test_a_hidden_rig_is_read_all_the_same(scene, build):
    rig = build(scene)
    expected = shown(rig, rig.pose.bones.keys(), FRAMES)
    rig.hide_viewport = True
    scene.frame_set(12)
    np.testing.assert_allclose(read(rig, rig.pose.bones.keys(), FRAMES), expected, atol=1e-5)


def test_an_origin_under_animated_parents_and_a_constraint_is_where_the_host_shows_it(scene):
    barge = key(empty("Barge"))
    crate = key(empty("Crate", parent=barge))
    crate.constraints.new("LIMIT_LOCATION").use_max_z = True
    scene.unit_settings.scale_length, scene.gravity = 0.01, (9.81, 0, 0)
    expected = read_out(crate, frames=FRAMES)
    before = footprint()
    np.testing.assert_allclose(evaluated_origin(scene, crate, FRAMES), expected, atol=1e-7)
    assert footprint() == before


def test_a_pose_that_is_not_keyed_yet_survives(scene):
    rig = limb(scene)
    scene.frame_set(5)
    rig.pose.bones["hips"].location = (0.4, 0.3, 0.2)
    evaluated_points(scene, rig, ["hips"], FRAMES)
    assert rig.pose.bones["hips"].location[:] == pytest.approx((0.4, 0.3, 0.2))


def test_selection_and_mode_survive(scene):
    rig = limb(scene)
    bpy.context.view_layer.objects.active = rig
    bpy.ops.object.mode_set(mode="POSE")
    names = {thing.name: thing.select_get() for thing in scene.objects}
    evaluated_points(scene, rig, ["shin"], FRAMES)
    assert bpy.context.mode == "POSE" and bpy.context.view_layer.objects.active == rig
    assert {thing.name: thing.select_get() for thing in scene.objects} == names


def test_edit_mode_and_an_unknown_bone_are_refused(scene):
    rig = armature()
    with pytest.raises(SourceError, match='"Brindle" has no bone "tail"'):
        evaluated_points(scene, rig, ["root", "tail"], FRAMES)
    bpy.context.view_layer.objects.active = rig
    bpy.ops.object.mode_set(mode="EDIT")
    with pytest.raises(SourceError, match="Edit Mode"):
        evaluated_points(scene, rig, ["root"], FRAMES)
    bpy.ops.object.mode_set(mode="OBJECT")


def test_nothing_is_left_behind_when_a_frame_cannot_be_shown(scene):
    rig = limb(scene)
    before = footprint()
    with pytest.raises(ValueError, match="cannot convert float NaN"):
        evaluated_points(scene, rig, ["shin"], [1.0, np.nan])
    assert footprint() == before


def driven(scene, *, path):
    """Return a keyed object whose height a driver sets from a property of the scene."""
    thing = key(empty())
    driver = thing.driver_add("location", 2).driver
    variable = driver.variables.new()
    variable.name, driver.expression = "a", "a"
    variable.targets[0].id_type, variable.targets[0].id, variable.targets[0].data_path = "SCENE", scene, path
    bpy.context.view_layer.update()
    return thing, driver


def test_a_driver_that_blender_found_invalid_stays_so(scene):
    # The driver was evaluated once without its property. Blender does not look again, and an audit may not make it do
    # so.
    thing, driver = driven(scene, path='["tide"]')
    assert not driver.is_valid
    scene["tide"] = 5.0
    bpy.context.view_layer.update()
    before = thing.location.z
    heights = evaluated_origin(scene, thing, [1, 7, 20])[:, 2]
    bpy.context.view_layer.update()
    assert not driver.is_valid and thing.location.z == before
    assert 5.0 not in heights, "it reads what Blender shows"
    assert driver.variables[0].targets[0].id == scene
