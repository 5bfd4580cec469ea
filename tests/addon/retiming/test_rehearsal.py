"""The forecast comes from a copy that is retimed: of objects, bones, feet and bodies. What cannot be copied is
estimated."""

import bpy
import pytest
from leapwright.addon import results
from leapwright.addon.retiming import forecasts
from leapwright.addon.retiming.words import remarks

from tests.addon.key_state import file_state
from tests.addon.mismatched import FLOATY, opened

ESTIMATED = "Estimated from the path: it also follows what cannot be rehearsed"


def shown():
    return forecasts.shown_beside(bpy.context.scene, results.latest(bpy.context.scene), 0)


def there_and_back(**aim):
    """Forecast, then retime; return the forecast, and in what the audit afterward differs from it."""
    bpy.ops.leapwright.audit_jump()
    before = file_state()
    blocks = [len(getattr(bpy.data, kind)) for kind in ("objects", "actions", "armatures", "scenes")]
    assert bpy.ops.leapwright.forecast_retime(**aim) == {"FINISHED"}
    assert file_state() == before
    assert [len(getattr(bpy.data, kind)) for kind in ("objects", "actions", "armatures", "scenes")] == blocks
    promised = shown().forecast
    assert bpy.ops.leapwright.retime_jump("EXEC_DEFAULT", True, **aim) == {"FINISHED"}
    after = results.latest(bpy.context.scene).audit.jumps[0]
    return promised, after, shown().differs


def test_a_body_s_keys_are_played_whole(scene, tmp_path):
    # Its center of mass moves with the limbs, whose curves lie beside the root's.
    rig = opened(FLOATY, tmp_path, drawn="poses")
    assert bpy.ops.leapwright.weigh_body() == {"FINISHED"}
    scene = bpy.context.scene
    scene.leapwright.follow, scene.leapwright.thing = "center_of_mass", rig
    promised, after, differs = there_and_back(keep="nothing", ripple=True)
    assert promised.rehearsed and differs == () and repr(after) == repr(promised.after)


def test_keys_of_the_armature_s_data_are_played_too(scene, tmp_path):
    # In the air a driver that reads a keyed property of the rig's data lifts the rig off its feet.
    rig = opened(FLOATY, tmp_path)
    rig.leapwright_feet.reading = "off"
    rig.data["lift"] = 0.0
    rig.data.keyframe_insert('["lift"]', frame=25)
    rig.data["lift"] = 0.01
    rig.data.keyframe_insert('["lift"]', frame=51)
    driver = rig.driver_add("location", 2).driver
    variable = driver.variables.new()
    variable.targets[0].id_type = "ARMATURE"
    variable.targets[0].id = rig.data
    variable.targets[0].data_path = '["lift"]'
    driver.expression = variable.name
    promised, after, differs = there_and_back(keep="nothing", ripple=True)
    assert promised.rehearsed and differs == () and repr(after) == repr(promised.after)


def test_what_follows_the_original_in_a_circle_is_said_to_be_an_estimate(scene, tmp_path):
    # The rig is held by an empty that copies one of the rig's own bones: a copy of it would follow the original.
    rig = opened(FLOATY, tmp_path)
    holder = bpy.data.objects.new("holder", None)
    bpy.context.scene.collection.objects.link(holder)
    follow = holder.constraints.new("COPY_LOCATION")
    follow.target, follow.subtarget = rig, "tail"
    lean = rig.pose.bones["head"].constraints.new("DAMPED_TRACK")
    lean.target = holder
    rig.pose.bones["root"].constraints.new("LIMIT_LOCATION")
    bpy.ops.leapwright.audit_jump()
    assert bpy.ops.leapwright.forecast_retime(keep="flight") == {"FINISHED"}
    forecast = shown().forecast
    assert not forecast.rehearsed and ESTIMATED in remarks(forecast)


def test_a_rehearsed_forecast_is_not_called_an_estimate(scene, tmp_path):
    opened(FLOATY, tmp_path)
    bpy.ops.leapwright.audit_jump()
    bpy.ops.leapwright.forecast_retime(keep="flight")
    assert shown().forecast.rehearsed and ESTIMATED not in remarks(shown().forecast)


@pytest.mark.parametrize("hold", ["takeoff", "crouch", "landing"])
def test_the_event_that_is_held_keeps_its_keys_and_those_outside_stay(scene, tmp_path, hold):
    from leapwright.addon import host

    rig = opened(FLOATY, tmp_path, drawn="poses")
    curve = next(c for c in host.curves_of(rig.animation_data) if c.data_path.endswith('"root"].location'))
    before = [point.co.x for point in curve.keyframe_points]
    promised, _, differs = there_and_back(keep="nothing", hold=hold)
    assert promised.rehearsed and differs == ()
    curve = next(c for c in host.curves_of(rig.animation_data) if c.data_path.endswith('"root"].location'))
    after = [point.co.x for point in curve.keyframe_points]
    held = {"takeoff": 25.0, "crouch": 19.0, "landing": 51.0}[hold]
    assert held in before and held in after
    assert (before[0], before[-1]) == (after[0], after[-1])
