"""A reading is kept while what it depends on stays the same, and is read again after any change that moves a bone.

What it must equal after a change is a fresh reading of the changed scene.
"""

import bpy
import numpy as np
import pytest
from leapwright.addon.reading import sample_cache
from leapwright.addon.reading.evaluated import evaluated_origin, evaluated_points

from tests.addon.constrained import RIGS, drivers, limb, parents, strips, targets
from tests.addon.edits import EDITS, OF_DRIVEN, move_a_key, what_a_driver_reads
from tests.addon.scenery import empty, key

FRAMES = np.arange(1, 31)


@pytest.fixture(autouse=True)
def nothing_kept():
    sample_cache.forget()


@pytest.fixture
def evaluations():
    """Count the frames that are evaluated, in any scene."""
    frames = []
    bpy.app.handlers.frame_change_pre.append(lambda scene, *_: frames.append(scene.frame_current))
    yield frames
    bpy.app.handlers.frame_change_pre.clear()


def points(rig):
    return evaluated_points(bpy.context.scene, rig, rig.pose.bones.keys(), FRAMES)


@pytest.mark.parametrize("build", RIGS, ids=lambda build: build.__name__)
def test_a_second_reading_evaluates_nothing_whatever_frame_is_shown(scene, build, evaluations):
    rig = build(scene)
    scene.frame_set(3)
    first = points(rig)
    scene.frame_set(22)
    evaluations.clear()
    assert np.array_equal(points(rig), first)
    assert not evaluations


def assert_read_again(rig, edit, *, same=False, late=0):
    """Compare with a fresh reading. late: frames in which the host may evaluate a driver before what it reads, as it
    sometimes does."""
    before = points(rig)
    edit(rig)
    after = points(rig)
    sample_cache.forget()
    assert _frames_apart(after, points(rig)) <= late
    assert same or np.abs(after - before).max() > 1e-3
    assert same or _frames_apart(after, before) > late


def _frames_apart(one, other):
    return int((one != other).any(axis=(1, 2, 3)).sum())


@pytest.mark.parametrize("edit", EDITS, ids=lambda edit: edit.__name__)
def test_a_change_of_the_rig_is_read(scene, edit):
    assert_read_again(limb(scene), edit)


@pytest.mark.parametrize("edit", OF_DRIVEN, ids=lambda edit: edit.__name__)
def test_a_change_of_what_drives_it_is_read(scene, edit):
    assert_read_again(drivers(scene), edit, late=10)


def test_a_change_of_the_parent_s_rig_and_of_how_it_is_held_is_read(scene):
    rig = parents(scene)
    assert_read_again(rig, lambda _: move_a_key(bpy.data.objects["Brindle"]))
    assert_read_again(rig, lambda _: setattr(rig, "matrix_parent_inverse", rig.matrix_parent_inverse.inverted()))
    assert_read_again(rig, lambda _: setattr(rig.parent, "parent_bone", "foot"))


def test_a_change_of_targets_and_of_a_path_is_read(scene):
    rig = targets(scene)

    def bend(_rig):
        bpy.data.curves["Rope"].splines[0].points[1].co.z = 3.0

    assert_read_again(rig, bend)
    assert_read_again(rig, lambda _: setattr(rig.constraints["Damped Track"], "subtarget", "foot"))
    assert_read_again(rig, lambda _: what_a_driver_reads(rig))


def test_a_change_of_strips_is_read(scene):
    rig = strips(scene)
    tracks = rig.animation_data.nla_tracks
    assert_read_again(rig, lambda _: setattr(tracks[1].strips[0], "blend_in", 0.0))
    assert_read_again(rig, lambda _: setattr(tracks[1].strips[0], "scale", 0.9))
    assert_read_again(rig, lambda _: setattr(tracks[1], "mute", True))
    assert_read_again(rig, lambda _: setattr(rig.animation_data, "use_nla", False))


def test_what_scripts_drive_is_read_every_time(scene, evaluations):
    crate = empty()
    crate.driver_add("location", 2).driver.expression = "max([frame, 3]) * 0.1"
    first = evaluated_origin(scene, crate, FRAMES)
    evaluations.clear()
    assert np.array_equal(evaluated_origin(scene, crate, FRAMES), first)
    assert len(evaluations) == len(FRAMES)


def test_a_driver_that_blender_has_found_invalid_since_is_noticed(scene):
    crate = empty()
    crate.driver_add("location", 2).driver.expression = "1 / (frame - 50)"
    before = evaluated_origin(scene, crate, FRAMES)
    scene.frame_set(50)
    after = evaluated_origin(scene, crate, FRAMES)
    assert not np.array_equal(after, before)
    sample_cache.forget()
    assert np.array_equal(evaluated_origin(scene, crate, FRAMES), after)


def test_units_and_gravity_need_no_new_reading(scene, evaluations):
    crate = key(empty())
    first = evaluated_origin(scene, crate, FRAMES)
    scene.unit_settings.scale_length, scene.gravity = 0.5, (9.81, 0, 0)
    evaluations.clear()
    again = evaluated_origin(scene, crate, FRAMES)
    assert not evaluations
    np.testing.assert_allclose(again[:, 2], -0.5 * first[:, 0], atol=1e-6)


def test_the_oldest_reading_goes_first(scene, monkeypatch):
    monkeypatch.setattr(sample_cache, "MOST_READINGS", 2)
    crates = [key(empty(name)) for name in ("Crate", "Buoy", "Rope")]
    for crate in crates:
        evaluated_origin(scene, crate, FRAMES)
    assert [uid for _, uid, _ in sample_cache._kept] == [crate.session_uid for crate in crates[1:]]


def test_what_is_kept_cannot_be_written_to(scene):
    crate = key(empty())
    values = sample_cache.kept(scene, crate, "x", reads=[crate], read=lambda: np.zeros(3))
    with pytest.raises(ValueError, match="read-only"):
        values[0] = 1.0
