"""Events as markers of an OpenTimelineIO timeline, as its own library reads them back."""

import json
import sys

import opentimelineio as otio
import pytest
from leapwright.analysis.report.otio import as_otio
from leapwright.analysis.shot import Shot

from tests.analysis.day import FLOATY, call, day, hop, shot, track_file


def read(text):
    (track,) = otio.adapters.read_from_string(text, "otio_json").tracks
    return list(track)


def test_a_shot_is_a_clip_of_its_frames_and_each_event_a_marker_at_its_frame():
    gone = Shot("tq020.blend", "there is no such file")
    document = day(shot(found=(FLOATY,)), gone, shot("tq030.json", seed=2)).document
    first, second = read(as_otio(document))
    (track,) = document["shots"][0]["tracks"]
    (jump,) = track["jumps"]
    assert (first.name, second.name) == ("tq010_barge_hop", "tq030")
    assert first.source_range.start_time == otio.opentime.RationalTime(track["frame_start"], 24)
    assert first.source_range.end_time_inclusive() == otio.opentime.RationalTime(track["frame_end"], 24)
    events = ("crouch", "takeoff", "apex", "landing", "absorbed")
    name = track["name"]
    assert [(marker.name, marker.marked_range.start_time.value) for marker in first.markers] == [
        (f"{name} 1 {event}", jump[event]["frame"]) for event in events
    ]
    assert {marker.color for marker in first.markers} == {"YELLOW"}  # a check
    assert {marker.color for marker in second.markers} == {"GREEN"}  # nothing to mend
    assert first.markers[0].metadata["leapwright"]["findings"][0].startswith("check air-floaty: The flight takes 18")


def test_the_command_writes_it_again_over_its_own_and_over_no_other(tmp_path, capsys):
    track_file(tmp_path / "tq010.json", hop(1).track)
    file = tmp_path / "day.otio"
    for _ in range(2):
        assert call("audit", tmp_path / "tq010.json", "--otio", file) == 0
    (clip,) = read(file.read_text())
    assert len(clip.markers) == 5
    file.write_text(json.dumps({"OTIO_SCHEMA": "Timeline.1", "metadata": {"editor": {}}}))
    assert call("audit", tmp_path / "tq010.json", "--otio", file) == 2
    assert "no result of Leapwright's" in capsys.readouterr().err


def test_without_the_library_it_is_refused_before_a_shot_is_read(tmp_path, capsys, monkeypatch: pytest.MonkeyPatch):
    track_file(tmp_path / "tq010.json")
    monkeypatch.setitem(sys.modules, "opentimelineio", None)
    monkeypatch.setattr("leapwright.analysis.outputs.find_spec", lambda _name: None)
    assert call("audit", tmp_path / "tq010.json", "--otio", tmp_path / "day.otio") == 2
    assert "pip install 'leapwright[otio]'" in capsys.readouterr().err and not (tmp_path / "day.otio").exists()
