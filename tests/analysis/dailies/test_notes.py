"""Notes are found again on the jump that they belong to. "As intended" holds for the findings of that time alone."""

import json

import pytest
from leapwright.analysis import SettingsError
from leapwright.analysis.dailies.notes import ReviewNote, is_meant, notes_on, read_notes

from tests.analysis.day import notes_text

from .rowing import jump, rows, shot

NOTE = ReviewNote("tq010_v01", "Brindle/root", (10.0, 26.0), "meant", "he floats here", ("air-floaty",))


def test_notes_come_back_as_they_were_written(tmp_path):
    path = tmp_path / "notes.json"
    path.write_text(
        notes_text([NOTE, ReviewNote("a", "b", (1.0, 2.0))]), encoding="utf-8"
    )  # the second note has no text
    assert read_notes(path) == (NOTE,)
    assert read_notes(tmp_path / "none.json") == ()


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("{", "it is not JSON"),
        ("[]", "it holds no notes"),
        (json.dumps({"schema": "leapwright-notes/1", "notes": [{"shot": "a"}]}), "note 1 lacks shot, track or frames"),
        (json.dumps({"schema": "leapwright-notes/1", "notes": [
            {"shot": "a", "track": "b", "frames": [1, 2], "word": "fine"}]}), 'note 1 says "fine"'),
        ("[" * 100_000, "it is not JSON"),
    ],
)  # fmt: skip
def test_what_is_no_file_of_notes_is_refused(tmp_path, text, said):
    path = tmp_path / "notes.json"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(SettingsError, match=said):
        read_notes(path)


def test_a_note_is_found_on_the_nearest_jump_of_the_same_take_or_of_another():
    day = rows(shot("tue/tq010_v02.blend", jump(14, 28), jump(60, 76)))
    assert notes_on(day, [NOTE]) == {"tq010_v02 · Brindle/root · 1": NOTE}
    same = rows(shot("tq010_v01.blend", jump(14, 28)))
    nearer = ReviewNote("tq010_v02", "Brindle/root", (14.0, 28.0), "approved")
    assert notes_on(same, [nearer, NOTE])["tq010_v01 · Brindle/root · 1"] == NOTE  # its own take comes first
    assert notes_on(rows(shot("tq010_v01.blend", jump(100, 116))), [NOTE]) == {}
    assert notes_on(rows(shot("tq020.blend", jump(10, 26))), [NOTE]) == {}


def test_meant_covers_the_findings_it_was_said_of():
    assert is_meant(NOTE, "air-floaty") and not is_meant(NOTE, "push-short") and not is_meant(None, "air-floaty")
    assert not is_meant(ReviewNote("a", "b", (1, 2), "approved", findings=("air-floaty",)), "air-floaty")
