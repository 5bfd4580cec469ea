"""`leapwright plan`: what it prints, what it writes, how it ends."""

import json
import math

import pytest

from tests.analysis.day import call


def test_it_prints_the_events_the_cost_the_neighbors_a_chart_and_the_heights(capsys):
    # 12 frames up are g (12 / 24)² / 2 = 1.23 m; 4 ft take 24 sqrt(2 h / g) = 11.97, and a push of 1 ft a quarter.
    assert call("plan", "--height", "4ft", "--push", "1ft", "--kind", "cat", "--start", "10") == 0
    out = capsys.readouterr().out
    lines = out.splitlines()
    assert lines[0] == "A jump of 1.22 m from a push of 0.30 m, at 24 fps on ones"
    rows = {line.split()[0]: line.split() for line in lines if line}
    assert rows["takeoff"] == ["takeoff", "13", "0.00", "m", "push", "3", "2.99"]
    assert rows["landing"] == ["landing", "37", "0.00", "m", "fall", "12", "11.97"]
    assert "Push ratio 4.00: 5.0 body weights on average over the push distance" in lines
    assert "as planned                    3        24       1.00        1.00                1.23 m" in lines
    assert max(map(len, lines)) <= 100


def test_json_stands_alone_with_an_audits_names(capsys):
    assert call("plan", "--airtime", "1s", "--push", "30cm", "--distance", "2m", "--gravity", "moon", "--json") == 0
    written = json.loads(capsys.readouterr().out)
    assert written["schema"] == "leapwright-plan/1"
    assert written["airtime_frames"] == 24 and written["gravity"] == 1.62
    assert written["jump_height"] == pytest.approx(1.62 / 8)
    assert written["takeoff"] == {"frame": 1 + written["push_frames"], "height": 0.0, "across": 0.0}
    assert written["landing"]["across"] == 2.0
    assert written["neighbors"][0]["change"] == "flight 1 frame shorter"
    assert [pose["frame"] for pose in written["poses"]] == list(range(1, written["absorbed"]["frame"] + 1))


def test_a_place_where_nothing_can_be_written_prints_nothing(tmp_path, capsys):
    assert call("plan", "--height", "4ft", "--push", "1ft", "--json", str(tmp_path / "none" / "plan.json")) == 2
    said = capsys.readouterr()
    assert said.out == "" and "cannot be written" in said.err


def test_json_goes_to_a_file_beside_the_table(tmp_path, capsys):
    path = tmp_path / "plan.json"
    assert call("plan", "--height", "1m", "--push", "40cm", "--json", path) == 0
    assert capsys.readouterr().out.startswith("A jump of 1.00 m")
    assert json.loads(path.read_text())["push_distance"] == 0.4


SAME = [
    (["--airtime", "24f"], ["--airtime", "1s"]),
    (["--height", "4ft"], ["--height", "1.2192m"]),
    (["--height", "1m", "--land-lower", "50cm"], ["--height", "1m", "--drop", "150cm"]),
    (["--height", "1m", "--land-higher", "50cm"], ["--height", "1m", "--drop", "50cm"]),
    (["--height", "1m", "--from", "standing"], ["--height", "85cm"]),
    (["--height", "1m", "--from", "standing", "--lift", "20cm"], ["--height", "80cm"]),
]


@pytest.mark.parametrize(("one", "other"), SAME)
def test_the_same_goal_said_otherwise_is_the_same_plan(one, other, capsys):
    found = []
    for words in (one, other):
        assert call("plan", *words, "--push", "35cm", "--json") == 0
        found.append({name: value for name, value in json.loads(capsys.readouterr().out).items()
                      if name.endswith(("_frames", "_height", "_speed"))})  # fmt: skip
    assert found[0] == pytest.approx(found[1])


WRONG = [
    ([], "one of the arguments --height --airtime is required"),
    (["--height", "1m", "--airtime", "24f"], "not allowed with argument --height"),
    (["--height", "1"], "a length is a number above 0 with its unit"),
    (["--airtime", "24"], "a duration is a number above 0 with f or s"),
    (["--airtime", "-3f"], "argument --airtime"),
    (["--height", "1m", "--gravity", "scene"], "must be one of mercury"),
    (["--height", "1m", "--pace", "0"], "must be a number above 0"),
    (["--height", "1m", "--fps", "nan"], "must be a number above 0"),
    (["--height", "1m", "--step", "0"], "step must be a whole number of frames"),
    (["--height", "1m", "--kind", "dragon"], "invalid choice: 'dragon'"),
    (["--height", "1m", "--land-higher", "2m"], "leapwright plan: the landing would lie 1.00 m above the apex"),
    (["--airtime", "1f"], "leapwright plan: 1 frame in the air at 24 fps is no flight"),
    (["--height", "10cm", "--from", "standing"], "above standing is no jump"),
    # 2 d / sqrt(2 g h) seconds
    (["--height", "1m", "--push", "1000000m"],
     f"leapwright plan: a push of {2e6 / math.sqrt(2 * 9.80665) * 24:.0f} frames is longer"),
    (["--height", "1m", "--absorb", "100000m"], "frames is longer than any shot"),
    (["--airtime", "24f", "--pace", "1e-5"], "frames is longer than any shot"),
    (["--height", "1m", "--start", "9" * 21], "the start frame must lie within"),
]


@pytest.mark.parametrize(("words", "sentence"), WRONG, ids=[" ".join(words) for words, _ in WRONG])
def test_what_cannot_be_planned_ends_with_2_and_writes_nothing(words, sentence, tmp_path, capsys):
    path = tmp_path / "plan.json"
    assert call("plan", "--push", "30cm", "--json", path, *words) == 2
    out, said = capsys.readouterr()
    assert out == "" and not path.exists()
    assert sentence in said


def test_a_file_that_cannot_be_written_ends_with_2(tmp_path, capsys):
    assert call("plan", "--height", "1m", "--push", "40cm", "--json", tmp_path / "gone" / "plan.json") == 2
    assert "plan.json cannot be written: there is no folder" in capsys.readouterr().err


def test_help_names_the_exit_codes_and_the_lift(capsys):
    assert call("plan", "--help") == 0
    told = capsys.readouterr().out
    assert "  2  wrong call, or a jump that cannot be: nothing written" in told
    assert "11 to 22 cm higher at takeoff (15 cm unless --lift" in told
