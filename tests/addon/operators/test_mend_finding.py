"""A finding's mend is shown before it is done, and changes nothing until then."""

from dataclasses import replace

import bpy
import pytest
from leapwright.addon import results
from leapwright.addon.choosing import FollowedFor, Why
from leapwright.addon.overlay import arcs
from leapwright.addon.overlay.geometry import Kind
from leapwright.addon.retiming import forecasts, operator, retiming
from leapwright.addon.retiming.mending import keeps_for
from leapwright.analysis.errors import RetimeError

from tests.addon.mismatched import BY_NAME, FLOATY, opened
from tests.addon.scene_state import state


@pytest.fixture
def audited(scene, tmp_path):
    opened(FLOATY, tmp_path)
    bpy.ops.leapwright.audit_jump()
    return bpy.context.scene


def shown():
    now = bpy.context.scene
    return forecasts.shown_beside(now, results.latest(now), 0)


def test_a_preview_changes_nothing_and_draws_its_ghost(audited):
    before = state(audited)
    assert bpy.ops.leapwright.mend_finding(jump=1, finding=0) == {"FINISHED"}
    assert state(audited) == before
    assert "air-floaty" in shown().forecast.goes
    assert Kind.GHOST in arcs.drawing_in(audited).dots
    bpy.ops.leapwright.drop_forecast()
    assert shown() is None and Kind.GHOST not in arcs.drawing_in(audited).dots


def test_the_finding_decides_what_is_kept(audited):
    assert bpy.ops.leapwright.mend_finding(jump=1, finding=1) == {"FINISHED"}  # the push is short
    assert bpy.context.window_manager.leapwright_retime.keep == "flight"
    assert shown().forecast.after.flight.airtime.value == shown().forecast.before.flight.airtime.value
    jump = shown().forecast.before
    assert keeps_for(jump, "air-floaty")[0] == "nothing" and keeps_for(jump, "landing-stiff") == ()
    planned = {mend.keep: dict(mend.frames) for mend in jump.mends}["flight"]
    assert {move.event: move.new for move in shown().forecast.moves if move.event in planned} == planned


def refusing(monkeypatch, *kept):
    """Refuse what keeps any of these, as where whole frames would leave the jump worse."""

    def prepare(*asked, aim, **told):
        if aim.keep in kept:
            raise RetimeError(f"it cannot keep the {aim.keep}")
        return retiming.prepare(*asked, aim=aim, **told)

    monkeypatch.setattr(operator, "prepare", prepare)


def test_where_the_nearest_mend_is_refused_the_next_one_is_shown(audited, monkeypatch):
    assert keeps_for(results.latest(audited).audit.jumps[0], "push-short")[:2] == ("flight", "nothing")
    refusing(monkeypatch, "flight")
    assert bpy.ops.leapwright.mend_finding(jump=1, finding=1) == {"FINISHED"}
    assert bpy.context.window_manager.leapwright_retime.keep == "nothing"
    assert "push-short" in shown().forecast.goes


def test_where_all_mends_are_refused_the_nearest_says_why(audited, monkeypatch):
    refusing(monkeypatch, "flight", "push", "nothing")
    with pytest.raises(RuntimeError, match="It cannot keep the flight"):
        bpy.ops.leapwright.mend_finding(jump=1, finding=1)
    assert shown() is None and bpy.context.window_manager.leapwright_retime.keep == "flight"


def test_what_is_no_longer_in_the_scene_is_not_offered_to_be_moved(audited):
    assert bpy.ops.leapwright.mend_finding.poll() and bpy.ops.leapwright.retime_jump.poll()
    for thing in list(bpy.data.objects):
        bpy.data.objects.remove(thing)
    assert not bpy.ops.leapwright.mend_finding.poll() and not bpy.ops.leapwright.retime_jump.poll()
    with pytest.raises(RuntimeError, match="is no longer in the scene"):
        bpy.ops.leapwright.retime_jump(jump=1)


def test_a_preview_keeps_why_its_track_is_followed(audited):
    result = results.latest(audited)
    results.keep(audited, replace(result, basis=replace(result.basis, why=Why(FollowedFor.NO_BODY))))
    bpy.ops.leapwright.mend_finding(jump=1, finding=0)
    assert results.latest(audited).basis.why.choice is FollowedFor.NO_BODY


def test_what_moving_keys_in_time_does_not_mend_is_said(scene, tmp_path):
    opened(BY_NAME["tq070"], tmp_path)
    bpy.ops.leapwright.audit_jump()
    assert results.latest(bpy.context.scene).audit.jumps[0].findings[0].code == "landing-stiff"
    assert bpy.ops.leapwright.mend_finding(jump=1, finding=0) == {"CANCELLED"}


def test_without_a_preview_there_is_none_to_drop(audited):
    with pytest.raises(RuntimeError, match="Nothing is previewed"):
        bpy.ops.leapwright.drop_forecast()
