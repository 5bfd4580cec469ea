"""Sampling: NLA, units, rate, gravity, keys; and a sentence for whatever is left out.

The outside reference is the host: `frame_set` and the evaluated matrix, frame by frame.
"""

import bpy
import numpy as np
import pytest
from leapwright.addon import host
from leapwright.addon.reading import sampling
from leapwright.addon.scene import frame_rate
from leapwright.analysis.errors import SourceError

from tests.addon.constrained import limb
from tests.addon.scenery import assert_evaluated, assert_same, empty, key


def test_unit_scale_and_fps_base_are_taken_along(scene):
    scene.unit_settings.scale_length = 0.01
    scene.render.fps, scene.render.fps_base = 24, 1.001
    track = assert_same(key(empty()))
    assert track.fps == pytest.approx(24 / 1.001, rel=1e-6)
    assert track.heights.max() == pytest.approx(0.011, abs=1e-4)


def test_up_is_against_the_scene_gravity(scene):
    scene.gravity = (9.81, 0, 0)
    track = assert_same(key(empty(), [(1, (0, 0, 0)), (10, (-2, 0, 0))]))
    assert track.heights[-1] == pytest.approx(2, abs=1e-6)


def test_time_remapping_moves_the_keys(scene):
    scene.render.frame_map_old, scene.render.frame_map_new = 100, 200
    track = assert_same(key(empty()))
    assert track.key_frames.tolist() == [2, 15, 24, 40, 60]
    assert track.fps == frame_rate(scene)


@pytest.mark.parametrize(
    "strip_settings",
    [{}, {"scale": 1.7}, {"frame_end": 70.25, "frame_start": 41.25}, {"use_reverse": True}, {"blend_type": "ADD"}],
)
def test_an_action_held_by_one_nla_strip_is_read_as_shown(scene, strip_settings):
    thing = key(empty())
    push_down(thing, strip_settings)
    track = assert_same(thing)
    assert track.key_frames is not None and len(track.key_frames) == 5


def push_down(thing, settings=None):
    data = thing.animation_data
    action = data.action
    strip = data.nla_tracks.new().strips.new("hop", 11, action)
    data.action = None
    for name, value in (settings or {}).items():
        setattr(strip, name, value)
    return strip


def test_an_action_over_the_nla_has_the_last_word(scene):
    thing = key(empty())
    push_down(thing)
    key(thing, [(1, (0, 0, 0)), (9, (1, 1, 1)), (20, (2, 2, 0))])
    assert_same(thing)


def test_two_strips_are_evaluated(scene):
    thing = key(empty())
    strip = push_down(thing)
    thing.animation_data.nla_tracks.new().strips.new("wobble", 60, strip.action)
    assert_evaluated(thing)


@pytest.mark.parametrize("kind", ["CONSTANT", "LINEAR"])
def test_interpolation_of_all_keys_comes_along(scene, kind):
    thing = key(empty())
    for curve in host.curves_of(thing.animation_data):
        for point in curve.keyframe_points:
            point.interpolation = kind
    track = assert_same(thing)
    assert track.interpolation == kind.lower()


def test_muted_curves_are_not_read(scene):
    thing = key(empty())
    next(c for c in host.curves_of(thing.animation_data) if c.array_index == 2).mute = True
    thing.location.z = 0.25
    track = sampling.sample_object(scene, thing)
    assert np.ptp(track.heights) == 0 and track.heights[0] == pytest.approx(0.25)


def test_what_cannot_be_read_from_curves_is_evaluated(scene):
    parent = key(empty("Barge"))
    thing = key(empty(parent=parent))
    thing.constraints.new("LIMIT_LOCATION").use_max_x = True
    thing.driver_add("location", 2).driver.expression = "frame * 0.1"
    assert_evaluated(thing)


def invalid(target, path, index=2):
    curve = target.driver_add(path, index)
    curve.driver.expression = "unheard_of +"
    bpy.context.view_layer.update()
    assert not curve.driver.is_valid


def test_an_invalid_driver_of_what_it_depends_on_is_named(scene):
    thing = key(empty(parent=key(empty("Barge"))))
    invalid(thing.parent, "scale")
    said = 'the driver of scale of "Barge" is invalid: Blender does not evaluate it'
    assert_same(thing, notes=(sampling.EVALUATED, said))
    thing.parent.animation_data.drivers[0].mute = True
    assert_evaluated(thing)


def test_of_many_invalid_drivers_three_are_named(scene):
    rig = limb(scene)
    for bone in rig.pose.bones[:3]:
        for path in ("rotation_quaternion", "rotation_euler"):
            invalid(bone, path)
    bpy.context.view_layer.update()
    _, said = sampling.sample_bone(scene, rig, "shin").notes
    assert said == (
        'the drivers of rotation_quaternion of "Moss/hips", rotation_euler of "Moss/hips", '
        'rotation_quaternion of "Moss/thigh" and 3 more are invalid: Blender does not evaluate them'
    )


def test_what_is_moved_without_keys_of_its_own_is_evaluated(scene):
    thing = empty()
    follow = thing.constraints.new("COPY_LOCATION")
    follow.target = key(empty("Buoy"))
    track = assert_evaluated(thing)
    assert track.frames[[0, -1]].tolist() == [1, 30] and track.key_frames is None


def test_what_nothing_moves_is_refused_although_it_could_be_evaluated(scene):
    thing = empty()
    thing.constraints.new("COPY_LOCATION").target = empty("Buoy")
    with pytest.raises(SourceError, match='"Crate" has no location keys'):
        sampling.sample_object(scene, thing)


def test_an_action_without_a_slot_is_what_is_missing_not_its_keys(scene):
    action = key(empty()).animation_data.action
    if not hasattr(action, "slots"):
        pytest.skip("actions have slots from 4.4 on")
    barge = empty("Barge")
    barge.animation_data_create().action = action
    barge.animation_data.action_slot = None
    with pytest.raises(SourceError, match='"Barge" plays nothing of its action "CrateAction": choose a slot of it'):
        sampling.sample_object(scene, barge)


def test_its_own_keys_come_along_only_where_they_shape_the_path(scene):
    thing = key(empty(parent=empty("Barge")))
    thing.constraints.new("LIMIT_LOCATION").use_min_z = True
    thing.constraints[0].min_z = -5
    assert assert_evaluated(thing).key_frames.tolist() == [1, 7.5, 12, 20, 30]
    key(thing.parent)
    assert assert_evaluated(thing).key_frames is None


def test_evaluated_frames_end_with_the_scene_but_keep_its_own_keys(scene):
    thing = key(empty(parent=key(empty("Barge"), [(-40, (0, 0, 0)), (400, (9, 9, 9))])))
    scene.frame_start, scene.frame_end = 10, 60
    assert assert_evaluated(thing).frames[[0, -1]].tolist() == [1, 60]
    scene.render.frame_map_new = 200
    assert assert_evaluated(thing).frames[[0, -1]].tolist() == [2, 60]


def test_of_a_long_take_only_the_scene_s_frames_are_evaluated(scene, monkeypatch):
    thing = key(empty(parent=key(empty("Barge"))), [(-500, (0, 0, 0)), (12, (0, 0, 1)), (900, (0, 0, 0))])
    monkeypatch.setattr(sampling, "MOST_EVALUATED", 1000)
    scene.frame_start, scene.frame_end = 1, 40
    assert assert_evaluated(thing).frames[[0, -1]].tolist() == [1, 40]
    scene.frame_start, scene.frame_end = 3, 5
    with pytest.raises(SourceError, match="keyed over 1401 frames: set the scene's frame range"):
        sampling.sample_object(scene, thing)


def test_two_keys_close_together_are_refused(scene):
    thing = key(empty(), [(1, (0, 0, 0)), (3, (0, 0, 1))])
    with pytest.raises(SourceError, match="keyed over 3 frames only"):
        sampling.sample_object(scene, thing)


def test_sampling_sets_no_frame(scene):
    thing = key(empty())
    scene.frame_set(17)
    calls = []
    bpy.app.handlers.frame_change_post.append(lambda *_: calls.append(1))
    try:
        sampling.sample_object(scene, thing)
    finally:
        bpy.app.handlers.frame_change_post.clear()
    assert not calls and scene.frame_current == 17
    assert scene.frame_subframe == 0
