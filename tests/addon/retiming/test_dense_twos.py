"""With a pose on every second frame, push and flight are mended although all keys between the events must move too."""

import bpy
import pytest
from leapwright.addon import host, results
from leapwright.addon.retiming import forecasts
from leapwright.addon.retiming.words import remarks

from tests.addon.key_state import file_state
from tests.addon.mismatched import LATE_ON_TWOS, ON_TWOS, RUSHED_ON_TWOS, opened

PUSH, AIR = {"push-long", "push-short", "push-speed"}, {"air-floaty", "air-snappy"}
HELD, LINEAR, BEZIER = {"drawn": "twos"}, {"drawn": "twos", "joined": "LINEAR"}, {"drawn": "twos", "joined": "BEZIER"}
MENDS = ({"keep": "flight"}, {"keep": "push"}, {"keep": "nothing"}, {"keep": "nothing", "pace": 0.7})
FITS = [
    *((RUSHED_ON_TWOS, HELD, mend) for mend in (MENDS[0], MENDS[3])),
    *((LATE_ON_TWOS, way, mend) for way in (BEZIER, LINEAR) for mend in (*MENDS[:2], MENDS[3])),
    *((RUSHED_ON_TWOS, LINEAR, mend) for mend in (MENDS[0], *MENDS[2:])),
    *((LATE_ON_TWOS, HELD, mend) for mend in (MENDS[0], {"keep": "nothing", "pace": 1.4})),
]
"""Shot, how its poses are joined, and what is kept."""


def named(case):
    shot, way, mend = case
    return f"{shot.name}, {way.get('joined', 'held')}, {', '.join(map(str, mend.values()))}"


def audited(shot, tmp_path, way):
    rig = opened(shot, tmp_path, **way)
    bpy.context.scene.leapwright.step = "2"
    assert bpy.ops.leapwright.audit_jump() == {"FINISHED"}
    return rig, ranks()


def ranks():
    return {finding.code: finding.rank for finding in results.latest(bpy.context.scene).audit.jumps[0].findings}


def retimed(**aim):
    assert bpy.ops.leapwright.retime_jump("EXEC_DEFAULT", True, ripple=True, **aim) == {"FINISHED"}
    return forecasts.shown_beside(bpy.context.scene, results.latest(bpy.context.scene), 0)


def frames_of(rig):
    return [[point.co.x for point in curve.keyframe_points] for curve in host.curves_of(rig.animation_data)]


@pytest.mark.parametrize("case", FITS, ids=map(named, FITS))
def test_the_finding_is_gone_and_every_key_has_a_whole_frame_of_its_own(scene, tmp_path, case):
    shot, way, mend = case
    rig, before = audited(shot, tmp_path, way)
    assert before.keys() & PUSH
    counts = [len(frames) for frames in frames_of(rig)]
    shown, after = retimed(**mend), ranks()
    assert shown.differs == () and not after.keys() & PUSH
    worse = {code: rank for code, rank in after.items() if rank > before.get(code, -1)}
    # Straight lines between poses on twos blur a push's ratio: it may be noted, never more.
    assert worse.keys() <= AIR | ({"push-beyond"} if way is LINEAR else set())
    assert not any(worse.values())
    for frames, count in zip(frames_of(rig), counts, strict=True):
        assert len(set(frames)) == count and all(frame % 1 == 0 for frame in frames)


def test_poses_that_leave_twos_are_told_in_the_forecast(scene, tmp_path):
    audited(ON_TWOS, tmp_path, HELD)
    shown = retimed(keep="push")
    # 14 frames up and down become 8 each: seven poses a side no longer fit on twos.
    assert "Frames 27 to 43: 1 to 2 frames a pose, not 2" in remarks(shown.forecast)


def test_poses_that_stay_on_twos_are_no_remark(scene, tmp_path):
    rig, _ = audited(LATE_ON_TWOS, tmp_path, LINEAR)
    shown = retimed(keep="nothing", pace=0.7)
    assert remarks(shown.forecast)[:1] == ["Frames 29 to 61: 4 frames a pose, not 2"]
    assert {frame % 2 for frames in frames_of(rig) for frame in frames} == {1.0}


@pytest.mark.parametrize("mend", (MENDS[1], MENDS[3]), ids=lambda mend: "-".join(map(str, mend.values())))
def test_held_poses_that_would_stand_too_long_to_show_a_jump_are_refused(scene, tmp_path, mend):
    audited(LATE_ON_TWOS, tmp_path, HELD)
    before = file_state()
    with pytest.raises(RuntimeError, match="would no longer be found: keep something else, or add poses"):
        bpy.ops.leapwright.retime_jump(ripple=True, **mend)
    assert file_state() == before
