"""Names and notes that come from files: printable wherever they go, and never a program for whoever reads them."""

import csv
import io
import json
import re
import time
from dataclasses import replace

import pytest
from leapwright.analysis import Track
from leapwright.analysis.errors import SourceError
from leapwright.analysis.report.sheet import as_csv
from leapwright.analysis.shot import LONGEST_NOTE, Reading, audit_reading, unreadable
from leapwright.analysis.sources.track_json import json_object, track_from

from tests.analysis.day import call, day, document, hop, shot, track_file

ESCAPES = "\x1b[2J\x1b]0;goat\x07\u202e\x9b31m\x7f\x00\r"
"""Clears the screen, names the window, turns the writing round, colors it (ECMA-48; Unicode bidirectional override)."""
CONTROL = re.compile(r"[\x00-\x08\x0b-\x1f\x7f-\x9f\u202e]")


def test_escapes_in_names_reach_no_terminal_table_or_page(tmp_path, capsys):
    track = hop(1).track
    name = f"goat{ESCAPES}"
    file = tmp_path / f"tq{ESCAPES.replace(chr(0), '')}.json"
    file.write_text(json.dumps({**document(track), "name": name, ESCAPES: 1}))
    (tmp_path / "bad\x1b[31m.json").write_text(f'{{"\x1b[31m{ESCAPES}": ')
    words = ["--csv", tmp_path / "a.out", "--report", tmp_path / "report", "--json", tmp_path / "b.out"]
    assert call("audit", tmp_path, *words) == 3
    assert call("audit", file, "--track", f"no{ESCAPES.replace(chr(0), '')}") == 3
    assert call("audit", file, "--json", tmp_path / "c\x1b[31m" / "a") == 2
    out, said = capsys.readouterr()
    page = (tmp_path / "report" / "index.html").read_text()
    for text in (out, said, (tmp_path / "a.out").read_text(), page, (tmp_path / "b.out").read_text()):
        assert "goat" in text or text is said
        found = CONTROL.search(text)
        assert not found, repr(text[found.start() - 150 : found.end() + 20])
    assert json.loads((tmp_path / "b.out").read_text())["shots"][1]["tracks"][0]["name"] == name  # as it is


@pytest.mark.parametrize("start", ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1"])
def test_what_a_spreadsheet_would_work_out_is_a_text(start):
    track = Track(f"{start}", 24, hop(1).track.frames, hop(1).track.positions)
    found = audit_reading(f"{start}.json", Reading((track,), notes=(f"{start} is noted",)), shot_settings())
    (row,) = csv.DictReader(io.StringIO(as_csv(day(found).document)))
    for name in ("path", "track", "notes"):
        assert row[name].startswith("'") and row[name][2:].startswith(start[1:3])
    assert float(row["jump_height"]) > 0  # figures stay figures


def shot_settings():
    from leapwright.analysis import Settings

    return Settings()


def test_notes_and_reasons_have_an_end():
    reading = Reading((hop(1).track,), notes=("x" * 10_000,))
    assert len(audit_reading("a.json", reading, shot_settings()).notes[0]) == LONGEST_NOTE
    assert unreadable("a.json", "x" * 10_000).reason.endswith("x…")
    assert replace(shot(), reason="short").reason == "short"
    with pytest.raises(SourceError, match="name has 256 letters; it may have 255"):
        track_from({**document(hop(1).track), "name": "x" * 256})


def test_a_key_that_occurs_twice_among_many_is_found_in_time_that_grows_with_them():
    def seconds(count: int) -> float:
        text = "{" + ", ".join(f'"{i}": 0' for i in [*range(count), count - 1]) + "}"
        began = time.process_time()
        with pytest.raises(SourceError, match=f'"{count - 1}" occurs twice'):
            json_object(text)
        return time.process_time() - began

    # 4 times as many: 4 times as long, and 16 times where each key is looked for among all others.
    assert min(seconds(80_000) for _ in range(3)) < 8 * min(seconds(20_000) for _ in range(3))


def test_a_track_file_that_takes_too_long_is_given_up(tmp_path):
    from leapwright.addon.command import main

    rows = "".join(f"{frame},0,0,{frame % 7}\n" for frame in range(100_000))
    (tmp_path / "long.csv").write_text(f"frame,x,y,z\n{rows}")
    track_file(tmp_path / "tq010.json")
    words = ["audit", str(tmp_path), "--timeout", "0.1", "--json", str(tmp_path / "a.out")]
    assert main(words) == 3
    found = {entry["path"].rpartition("/")[2]: entry for entry in json.loads((tmp_path / "a.out").read_text())["shots"]}
    assert found["long.csv"]["reason"] == "it was not done within 0.1 s (--timeout)"
    assert main([*words[:3], "60", *words[4:]]) == 0
