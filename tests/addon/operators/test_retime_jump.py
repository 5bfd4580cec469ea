"""Retime Jump mends the finding as its forecast says, in one step that can be undone to the last bit."""

import bpy
import numpy as np
import pytest
from leapwright.addon import host, results
from leapwright.addon.marks import marks
from leapwright.addon.retiming import forecasts
from leapwright.analysis import Marks

from tests.addon.key_state import file_state
from tests.addon.mismatched import FLOATY, LATE, MISMATCHED, ON_TWOS, RUSHED, opened

PUSH, AIR = {"push-long", "push-short", "push-speed"}, {"air-floaty", "air-snappy"}
DRAWN = {
    "curves": {"drawn": "arcs"},
    "own handles": {"drawn": "poses"},
    "stepped": {"drawn": "poses", "stepped": True},
}
every_mend = pytest.mark.parametrize("keep", ["flight", "push", "nothing"])
# Poses held on twos round the short push of this leap away: nothing is found there, so nothing is to mend.
SHOWN = [(shot, name) for shot in MISMATCHED for name in DRAWN if (shot, name) != (RUSHED, "stepped")]
every_mismatch = pytest.mark.parametrize(("shot", "drawing"), SHOWN, ids=[f"{s.name}, {name}" for s, name in SHOWN])


def audited():
    assert bpy.ops.leapwright.audit_jump() == {"FINISHED"}
    return results.latest(bpy.context.scene)


def retimed(*, ripple=True, **chosen):
    """Retime the first jump as a click does, with its undo step, and return what the panel then shows."""
    assert bpy.ops.leapwright.retime_jump("EXEC_DEFAULT", True, ripple=ripple, **chosen) == {"FINISHED"}
    return forecasts.shown_beside(bpy.context.scene, results.latest(bpy.context.scene), 0)


def ranks(jump):
    return {finding.code: finding.rank for finding in jump.findings}


@every_mismatch
@every_mend
def test_the_finding_it_was_meant_to_mend_is_gone_and_no_other_comes(scene, tmp_path, shot, drawing, keep):
    opened(shot, tmp_path, **DRAWN[drawing])
    before = ranks(audited().audit.jumps[0])
    assert before.keys() & PUSH
    shown = retimed(keep=keep)
    after = ranks(results.latest(bpy.context.scene).audit.jumps[0])
    assert shown.done and shown.differs == ()
    assert not after.keys() & PUSH
    worse = {code for code, rank in after.items() if rank > before.get(code, -1)}
    # A flight that is fitted to its push takes on the push's pace; where that is not real time, a note says so.
    assert worse <= (AIR if keep == "push" else set())
    assert all(after[code] == 0 for code in worse)
    if keep == "nothing":
        assert not after.keys() & AIR


@every_mend
def test_poses_on_twos_go_to_whole_frames_and_land_as_forecast(scene, tmp_path, keep):
    bpy.context.scene.leapwright.step = "2"
    rig = opened(ON_TWOS, tmp_path, drawn="poses", stepped=True)
    bpy.context.scene.leapwright.step = "2"
    audited()
    shown = retimed(keep=keep)
    assert shown.differs == () and not ranks(results.latest(bpy.context.scene).audit.jumps[0]).keys() & PUSH
    assert (np.diff(shown.forecast.time_map.new) % 2 == 0).all()
    frames = {point.co.x for curve in host.curves_of(rig.animation_data) for point in curve.keyframe_points
              if curve.data_path.endswith("location")}  # fmt: skip
    assert {frame % 2 for frame in frames} == {1.0}


@pytest.mark.parametrize("drawing", [*DRAWN.values(), {"drawn": "twos"}], ids=[*DRAWN, "twos"])
def test_undo_brings_every_bit_back(scene, tmp_path, drawing):
    opened(LATE if drawing["drawn"] != "twos" else ON_TWOS, tmp_path, **drawing)
    rig = bpy.data.objects["Brindle"]
    bpy.context.scene.timeline_markers.new("landing", frame=37)
    rig.animation_data.action.pose_markers.new("apex").frame = 32
    for curve in host.curves_of(rig.animation_data):
        curve.keyframe_points[1].select_left_handle = True
        curve.modifiers.new("NOISE").strength = 0.0
        if drawing["drawn"] != "arcs":
            curve.keyframe_points[2].easing = "EASE_OUT"
    audited()
    # An undo makes Blender compute automatic handles anew, so the state to compare with is the one after a first undo.
    bpy.ops.ed.undo_push(message="Built")
    before = file_state()
    bpy.ops.leapwright.retime_jump(
        "EXEC_DEFAULT", True, keep="nothing", pace=1.3, markers=True, shape_keys=True, ripple=True
    )
    moved = file_state()
    assert moved != before
    bpy.ops.ed.undo()
    assert file_state() == before
    bpy.ops.ed.redo()
    assert file_state() == moved


def test_markers_go_along_only_where_asked(scene, tmp_path):
    rig = opened(FLOATY, tmp_path)
    bpy.context.scene.timeline_markers.new("landing", frame=51)
    rig.animation_data.action.pose_markers.new("apex").frame = 38
    audited()
    retimed(keep="flight")
    assert (bpy.context.scene.timeline_markers[0].frame, rig.animation_data.action.pose_markers[0].frame) == (51, 38)
    opened(FLOATY, tmp_path)
    rig = bpy.data.objects["Brindle"]
    bpy.context.scene.timeline_markers.new("landing", frame=51)
    rig.animation_data.action.pose_markers.new("apex").frame = 38
    audited()
    retimed(keep="flight", markers=True, hold="crouch")
    assert (bpy.context.scene.timeline_markers[0].frame, rig.animation_data.action.pose_markers[0].frame) == (55, 42)


def test_the_forecast_changes_nothing_and_leaves_nothing_behind(scene, tmp_path):
    opened(FLOATY, tmp_path, drawn="poses")
    audited()
    before, data = file_state(), (len(bpy.data.actions), len(bpy.data.objects), len(bpy.data.scenes))
    assert bpy.ops.leapwright.forecast_retime(keep="flight") == {"FINISHED"}
    assert file_state() == before
    assert (len(bpy.data.actions), len(bpy.data.objects), len(bpy.data.scenes)) == data
    shown = forecasts.shown_beside(bpy.context.scene, results.latest(bpy.context.scene), 0)
    assert not shown.done and "push-short" in shown.forecast.goes


def test_a_jump_that_is_right_is_left_alone_without_an_undo_step(scene, tmp_path):
    opened(FLOATY, tmp_path)
    audited()
    retimed(keep="nothing")
    before = file_state()
    assert bpy.ops.leapwright.retime_jump(keep="nothing") == {"CANCELLED"}
    assert file_state() == before


def test_keeping_the_times_moves_no_key(scene, tmp_path):
    opened(FLOATY, tmp_path)
    audited()
    before = file_state()
    assert bpy.ops.leapwright.retime_jump(keep="times") == {"CANCELLED"}
    assert file_state() == before


def test_what_is_refused_is_said_and_changes_nothing(scene, tmp_path):
    rig = opened(FLOATY, tmp_path)
    audited()
    host.curves_of(rig.animation_data)[3].lock = True
    before = file_state()
    with pytest.raises(RuntimeError, match="is locked: unlock its channel"):
        bpy.ops.leapwright.retime_jump(keep="flight")
    assert file_state() == before


def test_the_audited_thing_is_retimed_whatever_is_active_by_then(scene, tmp_path):
    opened(FLOATY, tmp_path)
    audited()
    other = bpy.data.objects.new("Moss", None)
    bpy.context.scene.collection.objects.link(other)
    other.keyframe_insert("location", frame=1)
    bpy.context.view_layer.objects.active = other
    assert bpy.ops.leapwright.retime_jump(keep="flight") == {"FINISHED"}
    assert results.latest(bpy.context.scene).audit.name == "Brindle/root"


def test_what_was_audited_and_is_gone_is_not_retimed(scene, tmp_path):
    rig = opened(FLOATY, tmp_path)
    audited()
    bpy.data.objects.remove(rig)
    with pytest.raises(RuntimeError, match="Brindle/root is no longer in the scene"):
        bpy.ops.leapwright.retime_jump(keep="flight")


def test_without_an_audit_the_button_is_gray(scene):
    assert not bpy.ops.leapwright.retime_jump.poll()
    assert not bpy.ops.leapwright.forecast_retime.poll()


def test_events_pinned_by_hand_go_along(scene, tmp_path):
    opened(FLOATY, tmp_path)
    pinned = Marks(takeoff=25.0, landing=51.0)
    marks.put(bpy.context.scene, "Brindle/root", (pinned,))
    audited()
    shown = retimed(keep="flight", hold="crouch")
    assert shown.differs == ()
    (after,) = marks.of_track(bpy.context.scene, "Brindle/root")[0]
    assert after == Marks(takeoff=29.0, landing=55.0)
    assert results.latest(bpy.context.scene).audit.jumps[0].takeoff.pinned
