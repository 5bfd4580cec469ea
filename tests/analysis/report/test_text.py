"""The table on the terminal."""

import io
import re
from dataclasses import replace

import pytest
from leapwright.analysis.quantity import in_meters
from leapwright.analysis.report import text as report
from leapwright.analysis.shot import Shot
from leapwright.analysis.terminal import say

from tests.analysis.day import FLOATY, day, pinned, shot

FIX = replace(FLOATY, code="push-late", severity="fix", frames=(3, 9), mend_template="")
GONE = Shot("dailies/tq090_gone.blend", "there is no such file")


def as_text(shots, **options):
    return report.as_text(day(*shots), **options)


def with_audits(of_shot, **changes):
    audits = tuple(replace(audit, **changes) for audit in of_shot.audits)
    return replace(of_shot, audits=audits)


def test_a_row_holds_the_figures_of_its_jump():
    of_shot = shot()
    jump = of_shot.audits[0].jumps[0]
    (row,) = [line for line in as_text([of_shot]).splitlines() if line.startswith("tq010")]
    figures = [float(word) for word in re.findall(r"-?\d+(?:\.\d+)?", row.removeprefix("tq010_barge_hop"))]
    assert figures == [
        1,
        pytest.approx(jump.takeoff.frame, abs=0.051),
        pytest.approx(jump.apex.frame, abs=0.051),
        pytest.approx(jump.landing.frame, abs=0.051),
        pytest.approx(jump.flight.airtime.value, abs=0.051),
        pytest.approx(jump.flight.height.value, abs=0.0051),
        pytest.approx(jump.push.ratio.value, abs=0.0051),
        pytest.approx(jump.flight.pace.value, abs=0.0051),
        pytest.approx(jump.push.agreement.value, abs=0.0051),
    ]
    assert row.endswith("none")


def test_the_gravest_finding_stands_in_the_row_and_all_below_with_their_mends():
    text = as_text([shot(found=(FIX, FLOATY))])
    assert "fix push-late +1\n" in text
    assert (
        "tq010_barge_hop, jump 1\n"
        "  fix    push-late, frames 3 to 9: The flight takes 18 frames; <real> time asks for 12\n"
        "  check  air-floaty, frames 12.4 to 30: The flight takes 18 frames; <real> time asks for 12\n"
        "       → Move the landing key from 30 to 24\n"
    ) in text


def test_what_is_pinned_is_marked_in_the_table_and_told_below():
    text = as_text([pinned(shot(), crouch=12.0, takeoff=21.0, landing=134.5), shot("tq020.json", seed=2)])
    row, other = (line for line in text.splitlines() if line.startswith(("tq010", "tq020")))
    assert " 21* " in row and " 134.5* " in row and "*" not in other
    assert "* pinned by hand in tq010_barge_hop, jump 1: crouch 12, takeoff 21, landing 134.5\n" in text
    assert "pinned" not in as_text([shot()]) and "*" not in as_text([shot()])
    far = as_text([pinned(shot(), takeoff=1000001.0)])
    assert " 1000001 " in far and "takeoff 1000001\n" in far


def test_an_unreadable_shot_one_without_a_track_and_one_without_a_jump_are_rows():
    still = with_audits(shot("tq080_still.json"), jumps=(), notes=("it never leaves the ground",))
    lines = as_text([GONE, Shot("tq095_bare.blend"), still]).splitlines()
    assert "tq090_gone    unreadable: there is no such file" in lines
    assert "tq095_bare    no track" in lines
    assert "tq080_still   no jump" in lines
    assert "Note on tq080_still: it never leaves the ground" in lines


def test_a_note_of_many_shots_is_said_once():
    shots = [with_audits(shot(f"tq0{i}0.json"), notes=("24 frames per second taken",)) for i in range(1, 6)]
    assert as_text(shots).count("24 frames per second taken") == 1
    assert "Note on tq010, tq020 and 3 more: 24 frames per second taken" in as_text(shots)


def test_shots_of_one_name_are_told_apart_by_their_folders_and_tracks_by_their_names():
    text = as_text([shot("a/tq010.json"), shot("b/tq010.json")])
    assert "a/tq010.json" in text and "b/tq010.json" in text
    both = shot("tq010.blend")
    both = replace(both, tracks=both.tracks * 2, audits=(*both.audits, replace(both.audits[0], name="Moss")))
    assert "tq010 · hop 1" in as_text([both]) and "tq010 · Moss" in as_text([both])


def test_the_headings_are_whole_and_names_are_cut_in_the_middle_only_where_room_is_short():
    long = shot("tq010_a_long_name_of_a_shot_end.json", found=(FIX,))
    wide, narrow = (as_text([long], width=width).splitlines() for width in (200, 110))
    for head, row in (wide[:2], narrow[:2]):
        assert re.split(r"  +", head)[-1] == "findings" and "push ratio air pace agreement" in head
        assert row.endswith("fix push-late")
    assert wide[1].startswith("tq010_a_long_name_of_a_shot_end ") and as_text([long]).splitlines()[:2] == wide[:2]
    assert re.match(r"tq010\S+…\S+end +1 ", narrow[1]) and len(narrow[1]) <= 110


def test_the_order_is_that_of_the_page():
    shots = [shot("b.json"), shot("a.json", found=(FLOATY,), seed=2), shot("c.json", found=(FIX,), seed=3)]
    def names(**options):
        return [line.split()[0] for line in report.as_text(day(*shots, **options)).splitlines()[1:4]]

    assert names() == ["c", "a", "b"] and names(order="shot") == ["a", "b", "c"]
    heights = {one.path[0]: one.audits[0].jumps[0].flight.height.value for one in shots}
    assert names(order="height") == sorted(heights, key=heights.get)


def test_no_line_is_wider_than_the_terminal_however_long_the_names():
    long = replace(FLOATY, template="a word too many " * 20, mend_template="mend " * 50, code="o" * 30)
    shots = [shot("tq010_" + "long_" * 40 + ".json", found=(long, FIX)), replace(GONE, reason="never " * 60)]
    shots[0] = with_audits(shots[0], notes=("a note " * 40,))
    lines = as_text(shots, width=120).splitlines()
    assert max(map(len, lines)) <= 120
    assert max(map(len, lines[3:])) <= report.SENTENCE_COLUMNS == 100  # wider ones are hard to read
    assert any(re.match(r"tq010\S*…\S*long_", line) for line in lines)


def test_figures_far_off_still_stand_apart():
    of_shot = shot()
    jump = of_shot.audits[0].jumps[0]
    far = replace(
        jump,
        takeoff=replace(jump.takeoff, frame=10001.6),
        apex=replace(jump.apex, frame=10011.6),
        landing=replace(jump.landing, frame=99999.4),
        push=None,
        flight=replace(jump.flight, height=in_meters(123.456, 0.1)),
    )
    row = as_text([with_audits(of_shot, jumps=(far,))]).splitlines()[1]
    assert row.split()[1:9] == ["1", "10002", "10012", "99999", *row.split()[5:6], "123.46", "m", "–"]


def test_color_is_only_where_it_is_asked_for_and_changes_no_letter():
    plain, colored = (as_text([shot(found=(FIX, FLOATY))], color=color) for color in (False, True))
    assert "\x1b" not in plain and "\x1b[1;31mfix" in colored
    assert re.sub(r"\x1b\[[\d;]*m", "", colored) == plain


def test_nothing_in_a_name_reaches_the_terminal_as_a_command():
    named = with_audits(shot("tq\x1b[2J.json"), notes=("a\x07b\nc",))
    text = as_text([named, replace(GONE, reason="x\x1b]0;y")])
    assert not [letter for letter in text if letter != "\n" and not letter.isprintable()]


def test_the_last_line_counts():
    shots = [shot(found=(FIX, FLOATY)), shot("b.json", found=(replace(FIX, severity="note"),)), GONE]
    assert as_text(shots).splitlines()[-1] == "3 shots, 2 jumps, 1 to fix, 1 with a note, 1 unreadable"
    assert as_text([shot()]).splitlines()[-1] == "1 shot, 1 jump, 1 fine"


def test_a_terminal_that_knows_only_ascii_gets_ascii():
    stream = io.TextIOWrapper(io.BytesIO(), encoding="ascii")
    say(as_text([shot("tq010_" + "long_" * 9 + "é.json", found=(FLOATY,))]), stream)
    stream.seek(0)
    assert "> Move the landing key" in stream.read()
