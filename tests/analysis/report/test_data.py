"""The audit's JSON keeps the promise of its schema."""

import json
from dataclasses import replace

import pytest
from leapwright.analysis import Settings
from leapwright.analysis.dailies.document import as_json
from leapwright.analysis.figures import flat
from leapwright.analysis.report.data import jump_data
from leapwright.analysis.shot import Reading, Shot, audit_reading

from tests.analysis.day import FLOATY, day, hop, shot

# Word for word the names and the order others rely on; more may come after or between, none may go.
SHOT = ["path", "status", "fps", "gravity", "seconds", "tracks"]
TRACK = ["name", "source", "frame_start", "frame_end", "notes", "jumps"]
EVENTS = ["crouch", "takeoff", "apex", "landing", "absorbed"]
EVENT = ["frame", "frame_error", "height"]
FIGURES = [
    "push_distance",
    "jump_height",
    "drop_height",
    "absorb_distance",
    "push_ratio",
    "absorb_ratio",
    "push_frames",
    "push_frames_expected",
    "rise_frames",
    "rise_frames_expected",
    "fall_frames",
    "fall_frames_expected",
    "airtime_frames",
    "fitted_gravity",
    "fitted_gravity_error",
    "air_pace",
    "push_pace",
    "agreement",
    "push_shape",
    "residual_rms",
    "top_quarter_share",
    "travel_speed",
    "travel_spread",
    "distance",
]
FINDING = ["code", "severity", "frames", "message", "mend"]


def kept(data, names):
    return [name for name in data if name in names]


def written(*shots):
    return json.loads(as_json(day(*shots).document))


def test_names_and_their_order_are_those_of_the_schema():
    document = written(shot(found=(FLOATY,)))
    assert list(document) == ["schema", "leapwright", "shots"]
    assert (document["schema"], document["leapwright"]) == ("leapwright-audit/1", "0.1.0")
    (of_shot,) = document["shots"]
    (track,) = of_shot["tracks"]
    jump = track["jumps"][0]
    assert kept(of_shot, SHOT) == SHOT
    assert kept(track, TRACK) == TRACK
    assert kept(jump, [*EVENTS, *FIGURES, "findings"]) == [*EVENTS, *FIGURES, "findings"]
    assert all(list(jump[event]) == EVENT for event in EVENTS)
    assert kept(jump["findings"][0], FINDING) == FINDING


def test_figures_are_those_of_the_audit():
    of_shot = shot()
    jump, data = of_shot.audits[0].jumps[0], written(of_shot)["shots"][0]["tracks"][0]["jumps"][0]
    assert {name: data[name] for name in FIGURES} == {
        name: None if value is None else pytest.approx(value, rel=1e-8)
        for name in FIGURES
        for value in [flat(jump)[name]]
    }
    assert data["takeoff"]["height"] == pytest.approx(jump.takeoff.height, rel=1e-8)


def test_a_finding_is_filled_in():
    (finding,) = written(shot(found=(FLOATY,)))["shots"][0]["tracks"][0]["jumps"][0]["findings"]
    assert finding == {
        "code": "air-floaty",
        "severity": "check",
        "frames": [12.4, 30],
        "message": "The flight takes 18 frames; <real> time asks for 12",
        "mend": "Move the landing key from 30 to 24",
        "measured": 18,
        "expected": 12,
    }


def test_an_unreadable_shot_has_a_reason_and_no_tracks():
    (data,) = written(Shot("gone.blend", "there is no such file"))["shots"]
    assert data["status"] == "unreadable" and data["reason"] == "there is no such file"
    assert data["tracks"] == [] and data["fps"] is None
    assert "reason" not in written(shot())["shots"][0]


def test_what_is_not_known_or_not_finite_is_null():
    jump = shot().audits[0].jumps[0]
    endless = replace(jump.push.agreement, value=float("inf"))
    push = replace(jump.push, ratio=replace(jump.push.ratio, value=float("nan")), agreement=endless)
    jump = replace(jump, absorbed=None, push=push)
    data = jump_data(jump)
    assert (data["absorbed"], data["push_ratio"], data["agreement"]) == (None, None, None)


def test_a_mark_by_hand_shows():
    jump = shot().audits[0].jumps[0]
    assert "pinned" not in jump_data(jump)["apex"]
    assert jump_data(replace(jump, apex=replace(jump.apex, pinned=True)))["apex"]["pinned"] is True


def test_why_a_track_was_taken_stands_beside_it():
    reading = Reading((hop().track,), ("keyed object without a parent",), 3.71, ("it holds 2 scenes",))
    (data,) = written(audit_reading("a.blend", reading, Settings()))["shots"]
    assert data["tracks"][0]["reason"] == "keyed object without a parent"
    assert (data["gravity"], data["notes"]) == (3.71, ["it holds 2 scenes"])


def test_no_shot_at_all_and_a_name_no_encoding_knows_are_json_too():
    assert written()["shots"] == []
    assert written(Shot("caf\udce9.json", "é"))["shots"][0]["path"] == "caf\udce9.json"
