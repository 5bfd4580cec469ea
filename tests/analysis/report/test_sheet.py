"""The audits as rows of a spreadsheet."""

import csv
import io
from dataclasses import replace

import pytest
from leapwright.analysis.report.sheet import SHEET_COLUMNS, as_csv
from leapwright.analysis.shot import Shot

from tests.analysis.day import FLOATY, day, pinned, shot


def rows(*shots):
    return list(csv.DictReader(io.StringIO(as_csv(day(*shots).document))))


def test_a_jump_is_a_row_with_its_figures_and_findings():
    of_shot = shot(found=(FLOATY, replace(FLOATY, code="push-long", severity="note")))
    (row,) = rows(of_shot)
    jump = of_shot.audits[0].jumps[0]
    assert tuple(row) == SHEET_COLUMNS
    assert (row["path"], row["status"], row["jump"]) == (of_shot.path, "ok", "1")
    assert float(row["takeoff"]) == pytest.approx(jump.takeoff.frame)
    assert float(row["takeoff_error"]) == pytest.approx(jump.takeoff.frame_error)
    assert float(row["jump_height"]) == pytest.approx(jump.flight.height.value)
    assert (row["worst"], row["findings"]) == ("check", "air-floaty push-long")


def test_every_figure_of_the_json_has_its_column():
    from tests.analysis.report.test_data import FIGURES

    assert set(FIGURES) <= set(SHEET_COLUMNS)


def test_pinned_events_are_named_in_a_column_of_their_own():
    first, second = rows(pinned(shot(), landing=30.0, crouch=9.0), shot())
    assert (first["pinned"], first["landing"], first["landing_error"]) == ("crouch landing", "30", "0")
    assert second["pinned"] == ""


def test_what_is_not_known_is_an_empty_cell():
    of_shot = shot()
    audit = of_shot.audits[0]
    jump = replace(audit.jumps[0], crouch=None, push=None)
    (row,) = rows(replace(of_shot, audits=(replace(audit, jumps=(jump,)),)))
    assert (row["crouch"], row["crouch_error"], row["push_ratio"]) == ("", "", "")


def test_a_shot_without_a_jump_and_one_unreadable_have_a_row_each():
    still = shot()
    still = replace(still, audits=(replace(still.audits[0], jumps=(), notes=("it stands, all along",)),))
    first, second = rows(still, Shot("gone.json", "there is no such file"))
    assert (first["track"], first["jump"], first["notes"]) == ("hop 1", "", "it stands, all along")
    assert (second["status"], second["notes"]) == ("unreadable", "there is no such file")
