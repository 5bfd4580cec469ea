"""Plan Jump lays what the panel shows, in one undo step, and leaves everything when it cannot."""

import bpy
import pytest
from leapwright.addon.planning.settings import FIELDS, PlanFields, plan_of, wish_of

from tests.addon.plan_fields import active, fields, lay, whole
from tests.addon.scenery import empty, key


def test_it_lays_what_the_panel_shows_unless_told_otherwise(scene):
    fields(height=1.0, start_frame=30)
    lay()
    assert [m.frame for m in scene.timeline_markers] == [k.frame for k in plan_of(scene).keys]
    lay(start_frame=100, use_guide=False)
    assert scene.timeline_markers[5].frame == 100
    assert len(scene.objects) == 1


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


def test_a_wish_that_cannot_be_says_why_and_changes_nothing(scene):
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
    wished = fields(height=120.0, push_distance=40.0, distance=200.0, landing_height=-30.0, use_absorb=True)
    wish = wish_of(wished, scene)
    assert (wish.height, wish.push_distance, wish.distance, wish.landing_height) == pytest.approx((1.2, 0.4, 2.0, -0.3))
    assert (wish.fps, wish.world.gravity, wish.world.step, wish.world.kind) == (30.0, 1.62, 2, "cat")
    assert wish.absorb_distance == pytest.approx(0.004)
    fields(size_from="airtime", airtime=24)
    assert (wish_of(wished, scene).airtime_frames, wish_of(wished, scene).height) == (24, None)


def test_each_field_describes_itself(scene):
    for name in FIELDS:
        for holder in (scene.leapwright_plan.bl_rna, bpy.ops.leapwright.plan_jump.get_rna_type()):
            described = holder.properties[name].description
            assert described and not described.endswith("."), name
    assert set(FIELDS) == set(PlanFields.__annotations__)
