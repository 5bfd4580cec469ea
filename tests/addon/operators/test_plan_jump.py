"""Plan Jump lays into the scene what the panel shows, in one undo step, and changes nothing when it cannot."""

import bpy
import pytest
from leapwright.addon.planning.settings import FIELDS, PlanFields, goal_of, plan_of

from tests.addon.plan_fields import active, fields, keys_of, lay, whole
from tests.addon.scenery import empty, key
from tests.addon.walker import walker


def test_it_lays_what_the_panel_shows_unless_told_otherwise(scene):
    fields(height=1.0, start_frame=30)
    lay()
    assert [m.frame for m in scene.timeline_markers] == [k.frame for k in plan_of(scene).keys]
    lay(start_frame=100, use_guide=False)
    assert scene.timeline_markers[0].frame == 100
    assert len(scene.objects) == 1


def test_a_second_plan_for_the_same_replaces_the_first_ones_guide_and_markers(scene):
    crate = active(empty("Crate"))
    fields(start_frame=10, use_keys=False)
    lay()
    first = scene.objects["Jump Guide"]
    scene.timeline_markers[4].frame = 77  # a marker moved by hand no longer belongs to the plan
    lay(start_frame=40, height=0.9)
    guides = [thing for thing in scene.objects if thing.name.startswith("Jump Guide")]
    frames = sorted(marker.frame for marker in scene.timeline_markers)
    assert len(guides) == 1 and len(bpy.data.curves) == 1
    assert len(frames) == 6 and 77 in frames and frames[0] == 40
    with pytest.raises(ReferenceError):
        first.name  # noqa: B018 (the first guide is gone)
    active(empty("Barrel"))
    lay(start_frame=200)
    assert sum(thing.name.startswith("Jump Guide") for thing in scene.objects) == 2, "the crate keeps its own"
    assert len(scene.timeline_markers) == 11 and crate.name in scene.objects


def test_keys_are_laid_by_default_where_something_can_be_keyed(scene):
    crate = active(empty("Crate"))
    lay()
    assert keys_of(crate)
    light = bpy.data.objects.new("Lamp", bpy.data.lights.new("Lamp", "POINT"))
    scene.collection.objects.link(light)
    scene.leapwright.follow = "center_of_mass"
    assert lay(start_frame=100) == {"FINISHED"}, "nothing that can be keyed is followed: the rest is laid"
    scene.leapwright.follow = "active"
    barrel = active(empty("Barrel"))
    fields(use_keys=False)
    lay(start_frame=200)
    assert not keys_of(barrel), "what the panel says is kept"


@pytest.mark.parametrize("start", [1_048_560, -1_048_575, 2_000_000])
def test_frames_that_no_time_line_has_are_refused(scene, start):
    with pytest.raises(RuntimeError, match=r"past the last one|within ±1 048 574"):
        lay(start_frame=start)
    assert not scene.timeline_markers


def test_the_guide_stands_where_the_root_is_of_an_armature_in_object_mode(scene):
    rig = active(walker())
    rig.location = (2.0, 1.0, 0.0)
    fields(start_frame=300, use_keys=False)
    lay()
    bpy.context.view_layer.update()
    root = rig.matrix_world @ rig.pose.bones["root"].head
    assert scene.objects["Jump Guide"].location[:] == pytest.approx(root[:], abs=1e-6)


def test_all_of_it_is_one_undo_step_that_leaves_every_key_as_it_was(scene):
    crate = active(key(empty(), [(1, (0, 0, 1)), (12, (0.2, 0, 1)), (300, (0, 0, 1))]))
    crate.select_set(True)
    scene.frame_set(7)
    fields(use_keys=True, use_replace=True, distance=1.0)
    bpy.ops.ed.undo_push(message="before")
    before = whole(scene)
    assert lay(undo=True) == {"FINISHED"}
    scene = bpy.context.scene
    assert whole(scene) != before
    assert whole(scene)[4:] == before[4:]
    bpy.ops.ed.undo()
    assert whole(bpy.context.scene) == before


def test_a_goal_that_cannot_be_says_why_and_changes_nothing(scene):
    fields(height=0.3, landing_height=0.5)
    before = whole(scene)
    with pytest.raises(RuntimeError, match=r"The landing would lie 0\.20 m above the apex"):
        lay()
    assert whole(scene) == before


def test_nothing_to_lay_is_said(scene, capfd):
    assert lay(use_markers=False, use_guide=False, use_keys=False) == {"CANCELLED"}
    assert "Warning: Nothing to lay: choose markers, a guide or keys" in capfd.readouterr().out


def test_keys_need_something_to_follow(scene):
    with pytest.raises(RuntimeError, match="Select an object or pose bone"):
        lay(use_keys=True)
    assert not scene.timeline_markers


def test_lengths_are_in_the_scenes_units_and_gravity_in_its_own(scene):
    scene.unit_settings.scale_length = 0.01
    scene.render.fps, scene.leapwright.gravity = 30, "moon"
    scene.leapwright.step, scene.leapwright.kind = "2", "cat"
    asked = fields(height=120.0, push_distance=40.0, distance=200.0, landing_height=-30.0, use_absorb=True)
    goal = goal_of(asked, scene)
    assert (goal.height, goal.push_distance, goal.distance, goal.landing_height) == pytest.approx((1.2, 0.4, 2.0, -0.3))
    assert (goal.fps, goal.world.gravity, goal.world.step, goal.world.kind) == (30.0, 1.62, 2, "cat")
    assert goal.absorb_distance == pytest.approx(0.004)
    fields(size_from="airtime", airtime=24)
    assert (goal_of(asked, scene).airtime_frames, goal_of(asked, scene).height) == (24, None)


def test_each_field_describes_itself(scene):
    for name in FIELDS:
        for holder in (scene.leapwright_plan.bl_rna, bpy.ops.leapwright.plan_jump.get_rna_type()):
            described = holder.properties[name].description
            assert described and not described.endswith("."), name
    assert set(FIELDS) == set(PlanFields.__annotations__)
