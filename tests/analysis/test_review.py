"""A day's review by the command, on track files and without Blender: show file, cache, earlier days, notes, parts,
JUnit."""

import json
from pathlib import Path
from xml.etree import ElementTree

import pytest
from leapwright.analysis import Track
from leapwright.analysis.dailies.notes import ReviewNote

from tests.analysis.day import call, hop, notes_text, track_file


@pytest.fixture
def dailies(tmp_path):
    """Three shots: one that floats, two that do not."""
    folder = tmp_path / "dailies"
    folder.mkdir()
    for name, seed in (("tq010_hop", 1), ("tq030_hop", 3)):
        track_file(folder / f"{name}.json", hop(seed).track)
    track_file(folder / "tq020_float_v01.json", slowed())
    return folder


def slowed() -> Track:
    """Return a hop whose flight takes twice its frames: fitted gravity a quarter of Earth's."""
    track = hop(2).track
    return Track("Brindle", track.fps / 2.0, track.frames, track.positions)


def audited(*argv: object) -> dict:
    """Run the command; return its document."""
    out = Path(argv[0]).parent / "audit.json"
    call("audit", *argv, "--json", out)
    return json.loads(out.read_text())


def shots(document: dict) -> dict:
    return {Path(shot["path"]).stem: shot for shot in document["shots"]}


def test_a_show_file_gives_the_day_its_gravity_skips_and_name(dailies, tmp_path, capsys):
    (tmp_path / "leapwright.toml").write_text(
        'show = "Tern Quay"\ngravity = "mars"\nskip = ["*030*"]\n[shots."tq020*"]\ngravity = "moon"\nkind = "cat"\n'
    )
    document = audited(dailies, "--report", tmp_path / "report")
    found = shots(document)
    assert document["show"] == "Tern Quay" and set(found) == {"tq010_hop", "tq020_float_v01"}
    assert (found["tq010_hop"]["gravity"], found["tq020_float_v01"]["gravity"]) == (3.71, 1.62)
    assert found["tq020_float_v01"]["tracks"][0]["jumps"][0]["kind"] == "cat"
    assert "tq030_hop.json (leapwright.toml, skip" in capsys.readouterr().err
    assert "<h1>Tern Quay</h1>" in (tmp_path / "report" / "index.html").read_text()
    assert shots(audited(dailies, "--gravity", "9"))["tq010_hop"]["gravity"] == 9  # the call has the last word


def test_a_show_file_that_is_not_sound_stops_the_run_with_line_and_key(dailies, tmp_path, capsys):
    (tmp_path / "leapwright.toml").write_text('show = "Tern Quay"\nkind = "dragon"\n')
    assert call("audit", dailies, "--json", tmp_path / "a.json") == 2
    assert "leapwright.toml, line 2, kind: must be one of person" in capsys.readouterr().err
    assert not (tmp_path / "a.json").exists()


def test_explain_says_which_rule_gave_what_and_reads_nothing(dailies, tmp_path, capsys):
    (tmp_path / "leapwright.toml").write_text('[shots."tq020*"]\ngravity = "moon"\n[limits]\npush_fix = 0.6\n')
    assert call("audit", dailies / "tq020_float_v01.json", "--explain", "--kind", "cat") == 0
    lines = [" ".join(line.split()) for line in capsys.readouterr().out.splitlines()]
    assert 'gravity 1.62 m/s² (moon) leapwright.toml, line 2, [shots."tq020*"]' in lines
    assert "limits.push_fix 0.6 leapwright.toml, line 3" in lines
    assert "kind cat --kind" in lines and "step 1 default" in lines


def test_a_second_run_takes_what_did_not_change_from_the_cache(dailies, tmp_path, monkeypatch):
    first = audited(dailies)
    track_file(dailies / "tq030_hop.json", hop(4).track)
    read = []
    monkeypatch.setattr("leapwright.analysis.day.read_track", _counting(read))
    second = audited(dailies)
    assert read == ["tq030_hop"]
    assert second["shots"][:2] == first["shots"][:2] and second["shots"][2] != first["shots"][2]
    read.clear()
    audited(dailies, "--gravity", "moon")
    assert len(read) == 3
    read.clear()
    audited(dailies, "--no-cache")
    assert len(read) == 3


def _counting(read: list):
    from leapwright.analysis import day

    real = day.read_track

    def read_track(path, way):
        read.append(path.stem)
        return real(path, way)

    return read_track


def test_against_an_earlier_day_says_what_became_better(dailies, tmp_path, capsys):
    call("audit", dailies, "--report", tmp_path / "monday")
    (dailies / "tq020_float_v01.json").unlink()
    track_file(dailies / "tq020_float_v02.json", Track("Brindle", 24, *_parts(hop(2).track)))
    call("audit", dailies, "--report", tmp_path / "tuesday", "--against", tmp_path / "monday")
    page = (tmp_path / "tuesday" / "index.html").read_text()
    assert page.count('data-change="better"') == 1 and page.count('data-change="same"') == 2
    assert "<b>better</b> since tq020_float_v01" in page and "<path class=past " in page


def _parts(track: Track):
    return track.frames, track.positions


def test_what_is_meant_does_not_fail_the_day(dailies, tmp_path):
    path = dailies / "tq020_float_v01.json"
    report = tmp_path / "report"
    assert call("audit", path, "--report", report, "--json", tmp_path / "a.json", "--fail-on", "note") == 1
    (jump,) = shots(json.loads((tmp_path / "a.json").read_text()))["tq020_float_v01"]["tracks"][0]["jumps"]
    codes = tuple(finding["code"] for finding in jump["findings"])
    assert "air-floaty" in codes
    frames = (jump["takeoff"]["frame"], jump["landing"]["frame"])
    note = ReviewNote("tq020_float_v01", "Brindle", frames, "meant", "a dream", codes)
    (report / "notes.json").write_text(notes_text([note]))
    assert call("audit", path, "--report", report, "--fail-on", "note") == 0
    assert '"word": "meant", "text": "a dream"' in (report / "index.html").read_text()
    (report / "notes.json").write_text(
        notes_text([ReviewNote(note.shot, note.track, note.frames, "meant", "", codes[1:])])
    )
    assert call("audit", path, "--report", report, "--fail-on", "note") == 1


def test_notes_of_the_earlier_day_are_carried(dailies, tmp_path):
    call("audit", dailies, "--report", tmp_path / "monday", "--json", tmp_path / "a.json")
    (jump,) = shots(json.loads((tmp_path / "a.json").read_text()))["tq010_hop"]["tracks"][0]["jumps"]
    frames = (jump["takeoff"]["frame"], jump["landing"]["frame"])
    note = ReviewNote("tq010_hop", "hop 1", frames, "approved", "good")
    (tmp_path / "monday" / "notes.json").write_text(notes_text([note]))
    call("audit", dailies, "--report", tmp_path / "tuesday", "--against", tmp_path / "monday")
    assert '"word": "approved", "text": "good"' in (tmp_path / "tuesday" / "index.html").read_text()


def test_parts_of_a_day_make_the_same_day(dailies, tmp_path):
    whole = tmp_path / "whole.json"
    call("audit", dailies, "--json", whole)
    for part in (1, 2):
        call("audit", dailies, "--shard", f"{part}/2", "--json", tmp_path / f"part{part}.json")
    merged = tmp_path / "merged.json"
    assert call("merge", tmp_path / "part2.json", tmp_path / "part1.json", "--json", merged) == 0
    assert merged.read_bytes() == whole.read_bytes()  # the seconds are equal too, since the parts came from the cache


def test_findings_as_tests_for_a_build_server(dailies, tmp_path):
    call("audit", dailies, "--junit", tmp_path / "tests.xml", "--fail-on", "note")
    root = ElementTree.parse(tmp_path / "tests.xml").getroot()
    assert (root.get("tests"), root.get("errors")) == ("3", "0") and int(root.get("failures")) >= 1


def test_the_last_line_says_where_the_page_is(dailies, tmp_path, capsys, monkeypatch):
    opened = []
    monkeypatch.setattr("webbrowser.open", lambda address: opened.append(address) or True)
    call("audit", dailies, "--report", tmp_path / "report")
    page = tmp_path / "report" / "index.html"
    assert capsys.readouterr().out.splitlines()[-1] == f"Page: {page} (open it in a browser, or add --open)"
    call("audit", dailies, "--report", tmp_path / "report", "--open")
    assert capsys.readouterr().out.splitlines()[-1] == f"Page: {page}" and opened == [page.as_uri()]


@pytest.mark.parametrize("words", [("--shard", "3/2"), ("--shard", "x"), ("--sort", "luck"), ("--against", "gone")])
def test_a_wrong_call_is_refused_before_anything_is_read(dailies, tmp_path, words):
    assert call("audit", dailies, *words, "--json", tmp_path / "a.json") == 2
    assert not (tmp_path / "a.json").exists()
