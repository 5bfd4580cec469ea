"""A day's jumps are sorted by their gravest finding, then by its size; a shot that cannot be read keeps its row."""

import math
from dataclasses import replace

import pytest
from leapwright.analysis.certainty import Certainty
from leapwright.analysis.dailies.rows import day_rows
from leapwright.analysis.report.data import shot_data
from leapwright.analysis.shot import Shot

from tests.analysis.day import FLOATY, day, shot


def rows(*shots):
    return day_rows({"shots": [shot_data(one) for one in shots]})


def found(name, **changes):
    return shot(f"day/{name}.json", found=(replace(FLOATY, **changes),))


def doubtful(of_shot):
    audit = of_shot.audits[0]
    jump = replace(audit.jumps[0], certainty=Certainty.DOUBTFUL, certainty_value=0.5)
    return replace(of_shot, audits=(replace(audit, jumps=(jump,)),))


def test_the_gravest_comes_first_then_the_one_that_is_farthest_off():
    of_day = day(
        shot("clean.json"),
        found("small", measured=13.0, expected=12.0),
        Shot("gone.blend", "there is no such file"),
        found("large", measured=4.0, expected=12.0),  # a ratio of 1/3 is farther off than a ratio of 1.5
        found("worst", severity="fix", measured=12.1),
        found("middle", measured=18.0, expected=12.0),
        doubtful(found("unsure", severity="fix")),
    )
    assert [row.label for row in of_day.rows] == [
        "worst", "gone", "large", "middle", "small", "clean", "unsure"
    ]  # fmt: skip


def test_rows_that_ask_for_nothing_keep_the_order_of_the_day():
    of_day = day(shot("b.json"), shot("a.json"), shot("c.json"))
    assert [row.label for row in of_day.rows] == ["b", "a", "c"]


def test_the_size_of_a_finding_has_no_unit_and_no_direction():
    (half,), (twice,) = rows(found("a", measured=6.0)), rows(found("b", measured=24.0))
    assert half.size == pytest.approx(twice.size) == pytest.approx(math.log(2))  # expected 12
    (without,) = rows(found("c", measured=None))
    assert without.size == 0.0


def test_shots_of_one_name_are_told_apart_by_their_folders():
    day = rows(shot("mon/tq010.json"), shot("tue/tq010.json"), shot("tq020.json"))
    assert [row.label for row in day] == ["mon/tq010.json", "tue/tq010.json", "tq020"]


def test_the_character_is_what_the_track_hangs_on():
    of_shot = shot()
    of_shot = replace(of_shot, audits=(replace(of_shot.audits[0], name="Brindle/root"),))
    assert rows(of_shot)[0].character == "Brindle"
