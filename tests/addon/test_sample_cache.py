"""A reading is kept while what it depends on stays, and read again after any change that moves a bone.

What it must equal after a change is a fresh reading of the changed scene.
"""

import bpy
import numpy as np
import pytest
from leapwright.addon import host, sample_cache
from leapwright.addon.evaluated import evaluated_origin, evaluated_points

from tests.addon.constrained import HOP, RIGS, drivers, limb, parents, strips, targets
from tests.addon.scenery import empty, key

FRAMES = np.arange(1, 31)


@pytest.fixture(autouse=True)
def nothing_kept():
    sample_cache.forget()


@pytest.fixture
def evaluations():
    """Count the frames that are evaluated anywhere."""
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


def curve_of(rig, path, index=0):
    return next(c for c in host.curves_of(rig.animation_data) if c.data_path.endswith(path) and c.array_index == index)


def move_a_key(rig):
    curve_of(rig, '"hips"].location', 1).keyframe_points[2].co_ui.y += 0.2


def move_a_handle(rig):
    point = curve_of(rig, '"hips"].location', 1).keyframe_points[2]
    point.handle_left_type = point.handle_right_type = "FREE"
    point.handle_right.y += 0.5


def step_a_key(rig):
    curve_of(rig, '"hips"].location', 1).keyframe_points[2].interpolation = "CONSTANT"


def ease_a_key(rig):
    point = curve_of(rig, '"hips"].location', 1).keyframe_points[2]
    point.interpolation, point.back = "BACK", 3.0


def mute_a_curve(rig):
    curve_of(rig, '"hips"].location', 1).mute = True


def shake_a_curve(rig):
    curve_of(rig, '"hips"].location', 1).modifiers.new("NOISE").strength = 2.0


def take_another_action(rig):
    host.play_copy(rig.animation_data, rig.animation_data.action.copy(), like=rig.animation_data)
    move_a_key(rig)


def weaken_the_reach(rig):
    rig.pose.bones["shin"].constraints["IK"].influence = 0.3


def mute_the_reach(rig):
    rig.pose.bones["shin"].constraints["IK"].mute = True


def reach_elsewhere(rig):
    rig.pose.bones["shin"].constraints["IK"].target = empty("Bollard")


def add_a_constraint(rig):
    limit = rig.pose.bones["hips"].constraints.new("LIMIT_LOCATION")
    limit.use_max_z, limit.max_z = True, 0.1


def tilt_a_bone_that_has_no_keys(rig):
    rig.pose.bones["hips"].rotation_quaternion = (0.9, 0.3, 0.0, 0.0)


def move_the_rig(rig):
    rig.location.x += 1.0


def edit_a_bone(rig):
    bpy.context.view_layer.objects.active = rig
    bpy.ops.object.mode_set(mode="EDIT")
    rig.data.edit_bones["foot"].head.x += 0.2
    bpy.ops.object.mode_set(mode="OBJECT")


def stop_inheriting(rig):
    rig.data.bones["thigh"].use_inherit_rotation = False
    tilt_a_bone_that_has_no_keys(rig)


def parent_it(rig):
    rig.parent = key(empty("Barge"))


def remap_time(_rig):
    bpy.context.scene.render.frame_map_new = 150


EDITS = (
    move_a_key, move_a_handle, step_a_key, ease_a_key, mute_a_curve, shake_a_curve, take_another_action,
    weaken_the_reach, mute_the_reach, reach_elsewhere, add_a_constraint, tilt_a_bone_that_has_no_keys, move_the_rig,
    edit_a_bone, stop_inheriting, parent_it, remap_time,
)  # fmt: skip


def assert_read_again(rig, edit, *, same=False, late=0):
    """late: frames in which the host may evaluate a driver before what it reads, as it does now and then."""
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


def a_driven_expression(rig):
    rig.animation_data.drivers[0].driver.expression = "it * 0.7"


def what_a_driver_reads(_rig):
    key(bpy.data.objects["Buoy"], [(12, (0, 3, 0))])


def a_key_of_the_scene(_rig):
    bpy.context.scene["swell"] = 4.0
    bpy.context.scene.keyframe_insert('["swell"]', frame=20)


def a_key_of_the_armature(rig):
    rig.data["stretch"] = 4.0
    rig.data.keyframe_insert('["stretch"]', frame=20)


def a_property_without_keys(rig):
    rig.animation_data_clear()
    limb_keys = [(frame, value) for frame, value in HOP]
    key(rig.pose.bones["hips"], limb_keys)
    driver = rig.pose.bones["foot"].driver_add("location", 0).driver
    variable = driver.variables.new()
    variable.name, variable.targets[0].id, variable.targets[0].data_path = "it", rig, '["tide"]'
    driver.expression = "it"
    points(rig)
    rig["tide"] = 1.25


@pytest.mark.parametrize(
    "edit",
    [a_driven_expression, what_a_driver_reads, a_key_of_the_scene, a_key_of_the_armature, a_property_without_keys],
    ids=lambda edit: edit.__name__,
)
def test_a_change_of_what_drives_it_is_read(scene, edit):
    assert_read_again(drivers(scene), edit, late=2)


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


def test_units_and_gravity_need_no_new_reading(scene, evaluations):
    crate = key(empty())
    first = evaluated_origin(scene, crate, FRAMES)
    scene.unit_settings.scale_length, scene.gravity = 0.5, (9.81, 0, 0)
    evaluations.clear()
    again = evaluated_origin(scene, crate, FRAMES)
    assert not evaluations
    np.testing.assert_allclose(again[:, 2], -0.5 * first[:, 0], atol=1e-6)


def test_the_oldest_reading_goes_first(scene, monkeypatch):
    monkeypatch.setattr(sample_cache, "MOST", 2)
    crates = [key(empty(name)) for name in ("Crate", "Buoy", "Rope")]
    for crate in crates:
        evaluated_origin(scene, crate, FRAMES)
    assert [uid for _, uid, _ in sample_cache._kept] == [crate.session_uid for crate in crates[1:]]


def test_what_is_kept_cannot_be_written_to(scene):
    crate = key(empty())
    values = sample_cache.kept(scene, crate, "x", reads=[crate], read=lambda: np.zeros(3))
    with pytest.raises(ValueError, match="read-only"):
        values[0] = 1.0
