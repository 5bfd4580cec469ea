"""A plan that is laid into a scene follows its parabola between frames too, whatever carries it."""

import bpy
import numpy as np
import pytest
from leapwright.addon import host
from leapwright.addon.planning.settings import plan_of
from leapwright.analysis.planning.path import path_at

from tests.addon.plan_fields import JUMP, active, assert_on_the_path, fields, keys_of, lay, shown
from tests.addon.scenery import armature, empty, key, turn


def test_an_object_flies_the_parabola_between_frames_too(scene):
    crate = active(empty())
    fields(use_keys=True, **JUMP)
    assert lay() == {"FINISHED"}
    assert_on_the_path(crate)


def test_so_does_one_under_turned_parents_in_a_scene_of_feet_that_falls_sideways(scene):
    scene.unit_settings.scale_length = 0.3048
    scene.gravity = (0.0, -9.81, 0.0)
    crate = active(empty(parent=turn(empty("Cart", parent=turn(empty("Barge"))))))
    turn(crate).delta_location = (0.3, 0.2, -0.1)
    fields(use_keys=True, **JUMP)
    assert lay() == {"FINISHED"}
    assert_on_the_path(crate, atol=1e-5)


def test_so_does_a_bone_of_a_turned_rig(scene):
    rig = active(turn(armature()))
    rig.data.bones.active = rig.data.bones["root"]
    bpy.ops.object.mode_set(mode="POSE")
    fields(use_keys=True, **JUMP)
    assert lay() == {"FINISHED"}
    assert {path for path, _ in keys_of(rig)} == {'pose.bones["root"].location'}
    assert_on_the_path(rig, "root", atol=1e-5)


def test_a_remapped_time_is_the_timelines(scene):
    scene.render.frame_map_old, scene.render.frame_map_new = 100, 200
    crate = active(empty())
    fields(use_keys=True, **JUMP)
    lay()
    plan, curves = plan_of(scene), host.curves_of(crate.animation_data)
    assert [point.co.x for point in curves[0].keyframe_points] == pytest.approx([k.frame / 2 for k in plan.keys])


def test_keys_lie_on_whole_frames_and_only_where_something_moves(scene):
    crate = active(empty())
    fields(use_keys=True, height=0.5)
    lay()
    (curve,) = host.curves_of(crate.animation_data)
    assert (curve.data_path, curve.array_index) == ("location", 2)
    assert [point.co.x for point in curve.keyframe_points] == [k.frame for k in plan_of(scene).keys]
    assert {point.interpolation for point in curve.keyframe_points} == {"BEZIER"}


def test_keys_around_are_kept_and_those_between_replaced_when_asked(scene):
    crate = active(key(empty(), [(frame, (0, 0, 1)) for frame in (1, 9, 12, 20, 400)]))
    fields(use_keys=True, use_replace=True, **JUMP)
    lay()
    curve = next(c for c in host.curves_of(crate.animation_data) if c.array_index == 2)
    frames = [point.co.x for point in curve.keyframe_points]
    assert frames == [1, 9, *(k.frame for k in plan_of(scene).keys), 400]
    assert_on_the_path(crate)


@pytest.mark.parametrize("how", ["travels on", "stands elsewhere"])
def test_a_keyed_channel_that_the_plan_does_not_move_is_keyed_to_stand(scene, how):
    # A standing jump: without keys of its own, X would move on from frame 1 to frame 100 during it.
    crate = active(key(empty(), [(1, (0, 0, 1)), (100, (3.0 if how == "travels on" else 0.0, 0, 1))]))
    scene.frame_set(30)
    fields(use_keys=True, height=0.6, push_distance=0.4, start_frame=30)
    assert lay() == {"FINISHED"}
    plan = plan_of(scene)
    seen = shown(crate, None, np.linspace(plan.keys[0].frame, plan.keys[-1].frame, 41))
    assert np.ptp(seen[:, 0]) == pytest.approx(0.0, abs=1e-5)
    assert np.ptp(seen[:, 1]) == pytest.approx(0.0, abs=1e-5)


def test_a_driven_channel_is_left_and_said(scene, capfd):
    crate = active(empty())
    crate.driver_add("location", 0).driver.expression = "frame * 0.01"
    fields(use_keys=True, height=0.6, push_distance=0.4)
    assert lay() == {"FINISHED"}
    assert 'location X of "' in (said := capfd.readouterr().out) and "is driven, and not part of the path" in said


def test_markers_carry_the_events_names_and_are_not_doubled(scene):
    for _ in range(2):
        lay()
    events = [(k.event.capitalize(), k.frame) for k in plan_of(scene).keys]
    assert [(marker.name, marker.frame) for marker in scene.timeline_markers] == events


def test_the_guide_is_the_arc_with_a_tick_a_frame_and_is_not_rendered(scene):
    fields(**JUMP)
    scene.cursor.location = (3.0, -2.0, 1.0)
    lay()
    guide, plan = scene.objects["Jump Guide"], plan_of(scene)
    assert guide.hide_render and not guide.select_get()
    assert guide.location[:] == (3.0, -2.0, 1.0)
    arc, *ticks = guide.data.splines
    assert len(ticks) == plan.timing.airtime_frames + 1
    heights, across = path_at(plan.keys, np.arange(plan.keys[1].frame, plan.keys[3].frame + 1))
    middles = np.array([[np.array(point.co[:3]) for point in tick.points] for tick in ticks]).mean(axis=1)
    np.testing.assert_allclose(middles[:, 2], heights, atol=1e-6)
    np.testing.assert_allclose(np.hypot(middles[:, 0], middles[:, 1]), across, atol=1e-6)
    # Its own bezier: halfway in time, the cubic through both ends lies on the parabola.
    first, last = arc.bezier_points
    parts = (first.co, first.handle_right, last.handle_left, last.co)
    middle = sum(np.array(part[:]) * n for part, n in zip(parts, (1, 3, 3, 1), strict=True)) / 8
    half = path_at(plan.keys, [(plan.keys[1].frame + plan.keys[3].frame) / 2])[0]
    assert middle[2] == pytest.approx(half[0], abs=1e-6)


def test_a_guide_that_goes_nowhere_ticks_both_ways(scene):
    lay()
    _, *ticks = scene.objects["Jump Guide"].data.splines
    sides = [np.array(tick.points[1].co[:3]) - np.array(tick.points[0].co[:3]) for tick in ticks]
    assert sides[1][0] * sides[-2][0] < 0.0
    assert min(np.linalg.norm(side) for side in sides) > 1e-3


def test_a_strip_that_is_tweaked_is_keyed_in_its_own_time(scene):
    crate = active(key(empty(), [(1, (0, 0, 0)), (200, (0, 0, 0))]))
    data = crate.animation_data
    action = data.action
    strip = data.nla_tracks.new().strips.new("hop", 41, action)
    data.action = None
    data.nla_tracks.active, strip.select = data.nla_tracks[0], True
    data.use_tweak_mode = True
    if not data.use_tweak_mode:
        pytest.fail("the host did not enter tweak mode")
    fields(use_keys=True, use_replace=True, **{**JUMP, "start_frame": 60})
    assert lay() == {"FINISHED"}
    data.use_tweak_mode = False
    assert_on_the_path(crate)


def test_what_is_not_taken_along_is_said(scene, capfd):
    barge = key(empty("Barge"))
    active(empty(parent=barge))
    fields(use_keys=True)
    assert lay() == {"FINISHED"}
    assert 'laid with its parent "Barge" held where it stands' in capfd.readouterr().out
