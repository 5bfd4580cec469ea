"""Documents are read back from JSON and from pages; what is not sound is refused; parts make the whole again."""

import json

import pytest
from leapwright.analysis import SettingsError
from leapwright.analysis.dailies.document import as_json, merged, read_document
from leapwright.analysis.report.page import Head, as_page

from tests.analysis.day import FLOATY, alike, day, shot


@pytest.fixture
def report(tmp_path):
    (tmp_path / "report").mkdir()
    of_day = day(shot("<script>.json", found=(FLOATY,)), shot("tq020.json", seed=2))
    (tmp_path / "report" / "index.html").write_text(as_page(of_day, Head("0.1.0")), encoding="utf-8")
    (tmp_path / "audit.json").write_text(as_json(of_day.document), encoding="utf-8")
    return tmp_path


def test_json_page_and_folder_hold_the_same_day(report):
    documents = [read_document(report / name) for name in ("audit.json", "report/index.html", "report")]
    assert alike(documents[0], documents[1]) and documents[1] == documents[2] and len(documents[0]["shots"]) == 2


def test_what_is_no_day_is_refused(report, tmp_path):
    for name, text, said in (
        ("a.json", "{", "it is not JSON"),
        ("b.json", "[]", "it holds no audit"),
        ("c.json", '{"schema": "leapwright-audit/2", "shots": []}', "it holds no audit"),
        ("d.json", '{"schema": "leapwright-audit/1"}', "it lacks leapwright, shots"),
        ("e.html", "<html>", "it is no page of Leapwright's"),
        ("gone.json", None, "cannot be read: no such file"),
    ):
        if text is not None:
            (tmp_path / name).write_text(text)
        with pytest.raises(SettingsError, match=said):
            read_document(tmp_path / name)


@pytest.mark.parametrize(
    "harm",
    [
        lambda shot: shot.pop("path"),
        lambda shot: shot.update(status="fine"),
        lambda shot: shot.update(tracks={}),
        lambda shot: shot["tracks"][0].pop("name"),
        lambda shot: shot["tracks"][0]["jumps"][0].pop("takeoff"),
        lambda shot: shot["tracks"][0]["jumps"][0].update(air_pace="<b>"),
        lambda shot: shot["tracks"][0]["jumps"][0]["findings"][0].update(severity="<b>"),
        lambda shot: shot["tracks"][0]["jumps"][0]["findings"][0].update(frames=["x", 1]),
        lambda shot: shot["tracks"][0]["jumps"][0].update(landing={"frame": -5, "height": 0}),
    ],
)
def test_a_document_that_lacks_what_is_read_is_refused_before_it_is(report, harm):
    path = report / "audit.json"
    document = json.loads(path.read_text())
    harm(document["shots"][0])
    path.write_text(json.dumps(document))
    with pytest.raises(SettingsError, match="its audit is not sound"):
        read_document(path)


def part(number, count, *paths, **head):
    shots = [{"path": path, "status": "ok", "tracks": []} for path in paths]
    return {"schema": "leapwright-audit/1", "leapwright": "0.1.0", **head, "shard": [number, count], "shots": shots}


def test_parts_come_together_in_their_order():
    whole = merged([part(2, 3, "c", "d"), part(1, 3, "a", "b"), part(3, 3)])
    assert [shot["path"] for shot in whole["shots"]] == ["a", "b", "c", "d"] and "shard" not in whole


@pytest.mark.parametrize(
    ("parts", "said"),
    [
        ([part(1, 3, "a"), part(3, 3, "c")], "the day lacks part 2 of 3"),
        ([part(2, 3, "b")], "the day lacks parts 1, 3 of 3"),
        ([part(1, 2, "a"), part(1, 2, "a")], "part 1 of 2 is there twice"),
        ([part(1, 2, "a"), part(2, 3, "a")], "parts of 3 and of 2"),
        ([part(1, 2, "a"), part(2, 2, "b", show="other")], "several versions, or with several settings"),
        ([{"schema": "leapwright-audit/1", "shots": []}], "no part of a day"),
    ],
)
def test_parts_that_make_no_whole_are_refused(parts, said):
    with pytest.raises(SettingsError, match=said):
        merged(parts)
