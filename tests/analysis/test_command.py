"""`leapwright audit` on track files: what it says, what it writes, how it ends."""

import json
import os
import re
import subprocess
import sys

import pytest
from leapwright.analysis import command, settings

from tests.analysis.day import call, hop, track_file, two_shots


@pytest.fixture
def shots(tmp_path):
    return two_shots(tmp_path / "dailies")


def shot_rows(out):
    return [line for line in out.splitlines() if line.startswith("tq0") and ", jump" not in line]


def test_the_table_gives_a_row_a_jump_and_progress_goes_to_stderr(shots, capsys):
    assert call("audit", shots) == 0
    out, progress = capsys.readouterr()
    assert [row.split()[:2] for row in shot_rows(out)] == [["tq010_barge_hop", "1"], ["tq020_crate_hop", "1"]]
    assert out.splitlines()[-1].startswith("2 shots, 2 jumps")
    assert progress.splitlines() == ["[1/2] tq010_barge_hop", "[2/2] tq020_crate_hop"]


def test_a_bad_shot_is_a_row_and_the_others_are_done_and_written(shots, tmp_path, capsys):
    (shots / "tq015_broken.json").write_text("{")
    out = tmp_path / "audit.json"
    assert call("audit", shots, "--json", out) == 3
    written = json.loads(out.read_text())["shots"]
    assert [shot["status"] for shot in written] == ["ok", "unreadable", "ok"]
    assert written[1]["reason"].startswith("it is not JSON: ")
    assert "tq015_broken      unreadable: it is not JSON: " in capsys.readouterr().out


@pytest.mark.parametrize(
    ("name", "sentence"),
    [
        ("gone.json", "there is no such file"),
        ("gone.blend", "there is no such file"),
        ("zero\0.json", "there is no such file"),
        ("empty", "the folder is empty"),
        ("notes.txt", "it is not a shot: those are named .blend, .bvh, .csv, .fbx, .glb, .json"),
        ("gone", "there is no such file"),
        ("pipe.json", "it is not a file"),
    ],
)
def test_a_path_without_a_shot_is_a_row_that_says_why(name, sentence, shots, tmp_path, capsys):
    (tmp_path / "empty").mkdir()
    (tmp_path / "notes.txt").touch()
    os.mkfifo(tmp_path / "pipe.json")
    assert call("audit", tmp_path / name, shots) == 3
    out = capsys.readouterr().out
    assert f"unreadable: {sentence}" in " ".join(out.split())
    assert len(shot_rows(out)) == 2


WRONG = [
    (["judge"], 'there is no command "judge"; there are audit, merge, plan, help'),
    (["audti", "."], 'there is no command "audti"; did you mean audit?'),
    (["audit", ".", "--jsno", "a.out"], "there is no option --jsno; did you mean --json?"),
    (["audit", "--fail-onn=fix"], "there is no option --fail-onn; did you mean --fail-on?"),
    (["audit", ".", "--js", "a.out"], "there is no option --js; did you mean --json?"),
    (["plan", "--heigth", "1m"], "there is no option --heigth; did you mean --height?"),
    (["audit", ".", "-q"], "unrecognized arguments: -q"),
    (["audit"], "the following arguments are required: PATH"),
    (["audit", ".", "--gravity", "pluto"], "must be scene, one of mercury,"),
    (["audit", ".", "--gravity", "-1"], "must be scene, one of mercury,"),
    (["audit", ".", "--gravity", "nan"], "must be scene, one of mercury,"),
    (["audit", ".", "--kind", "dragon"], "invalid choice: 'dragon'"),
    (["audit", ".", "--step", "0"], "must be a whole number of frames above 0 and at most 1 000 000, not '0'"),
    (["audit", ".", "--smallest-hop", "5"], "a length is a number above 0 with its unit"),
    (["audit", ".", "--fps", "0"], "must be a number above 0 and at most 100 000, not '0'"),
    (["audit", ".", "--fps", "nan"], "must be a number above 0"),
    (["audit", ".", "--jobs", "1.5"], "must be a whole number above 0 and at most 64, not '1.5'"),
    (["audit", ".", "--timeout", "-3"], "must be a number of seconds above 0"),
    (["audit", ".", "--fail-on", "bad"], "invalid choice: 'bad'"),
    (["audit", ".", "--json", "-", "--csv", "-"], "only one of --json, --csv, --junit and --otio can go to stdout"),
    (
        ["audit", ".", "--json", "nowhere/a.json"],
        "a.json cannot be written: there is no folder nowhere",
    ),
    (["audit", ".", "--json", "a.out", "--csv", "a.out"], "a.out is named for two results"),
    (["audit", "tq010_barge_hop.json", "--json", "tq010_barge_hop.json"], "it would be written over"),
    (["audit", ".", "--json", "tq010_barge_hop.json"], "is there already, and no result of Leapwright's"),
    (["audit", ".", "--json", "tq010_barge_hop.json", "--force"], "it would be written over"),
    (["audit", ".", "--csv", "tq020_crate_hop.csv", "--force"], "it would be written over"),
    (["audit", ".", "--json", "folder"], "folder is a folder; a file is needed"),
    (
        ["audit", ".", "--report", "tq010_barge_hop.json"],
        "--report needs a folder; tq010_barge_hop.json is",
    ),
    (["audit", ".", "--report", "-"], "--report needs a folder"),
    (["audit", ""], "argument PATH: must not be empty"),
    (["audit", ".", "--json", ""], "argument --json: must not be empty"),
    (["audit", ".", "--json", "y" * 300], "cannot be written: file name too long"),
    (["audit", ".", "--json", "tq010_barge_hop.json/a"], "tq010_barge_hop.json is a file"),
    (["audit", ".", "--step", "1.5"], "must be a whole number of frames above 0"),
]


@pytest.mark.parametrize(("words", "sentence"), WRONG, ids=[" ".join(words) for words, _ in WRONG])
def test_a_wrong_call_ends_with_2_says_why_and_writes_nothing(words, sentence, shots, monkeypatch, capsys):
    (shots / "folder").mkdir()
    monkeypatch.chdir(shots)
    before = {path: path.read_bytes() for path in shots.iterdir() if path.is_file()}
    assert call(*words) == 2
    out, said = capsys.readouterr()
    assert sentence in said and out == ""
    assert {path: path.read_bytes() for path in shots.iterdir() if path.is_file()} == before


def test_results_of_an_earlier_run_are_written_again_and_never_read_as_shots(shots):
    results = ["--json", shots / "audit.json", "--csv", shots / "audit.csv", "--report", shots / "report"]
    for _ in range(2):
        assert call("audit", shots, *results) == 0
        assert len(json.loads((shots / "audit.json").read_text())["shots"]) == 2
    assert "<h1>Jumps of the day</h1>" in (shots / "report" / "index.html").read_text()


def test_json_on_stdout_stands_alone(shots, capsys):
    assert call("audit", shots, "--json", "-") == 0
    out, said = capsys.readouterr()
    assert len(json.loads(out)["shots"]) == 2
    assert said.splitlines()[-1].startswith("2 shots, 2 jumps")


def test_fail_on_turns_a_finding_into_exit_1_and_an_unreadable_shot_comes_before(tmp_path, capsys):
    # On Jupiter a hop drawn for Earth floats: 9.81 / 24.79 of the gravity asked for.
    track_file(tmp_path / "tq010.json")
    for severity, code in (("note", 1), ("fix", 0), (None, 0)):
        asked = ["--fail-on", severity] if severity else []
        assert call("audit", tmp_path, "--gravity", "jupiter", *asked) == code
    assert call("audit", tmp_path, tmp_path / "gone.json", "--gravity", "jupiter", "--fail-on", "note") == 3


def test_gravity_is_earths_for_a_track_and_whatever_is_asked_for(shots, tmp_path):
    found = {}
    for gravity in (None, "scene", "moon", "9.81"):
        asked = ["--gravity", gravity] if gravity else []
        assert call("audit", shots, "--json", tmp_path / "a.json", *asked) == 0
        shot = json.loads((tmp_path / "a.json").read_text())["shots"][0]
        found[gravity] = shot["gravity"], shot["notes"]
    assert found == {
        None: (9.80665, []),
        "scene": (9.80665, ["the file has no gravity: Earth's taken"]),
        "moon": (1.62, []),
        "9.81": (9.81, []),
    }


def test_fps_is_for_tracks_that_have_none(shots, tmp_path):
    assert call("audit", shots, "--fps", "30", "--json", tmp_path / "a.json") == 0
    found = json.loads((tmp_path / "a.json").read_text())["shots"]
    assert [shot["fps"] for shot in found] == [24, 30]
    assert [shot["notes"] for shot in found] == [["--fps 30 is not used: the file has its own rate, 24"], []]


def test_a_hop_under_the_smallest_is_no_jump(tmp_path, capsys):
    track_file(tmp_path / "tq010.json")
    assert call("audit", tmp_path, "--smallest-hop", "9ft") == 0
    assert "tq010   no jump" in capsys.readouterr().out


def test_a_track_is_asked_for_by_name(shots, capsys):
    assert call("audit", shots, "--track", "hop 1") == 3
    assert 'it holds no track "hop 1"; it has "tq020_crate_hop"' in " ".join(capsys.readouterr().out.split())


def test_a_fault_of_our_own_is_a_row_and_shows_its_traceback(shots, capsys, monkeypatch):
    def broken(*_args, **_kwargs):
        raise ZeroDivisionError("half a goat")

    monkeypatch.setattr("leapwright.analysis.audit.audit_track", broken)
    assert call("audit", shots) == 3
    out, said = capsys.readouterr()
    reason = "a fault in Leapwright, please report it: ZeroDivisionError: half a goat"
    assert " ".join(out.split()).count(reason) == 2
    assert "Traceback (most recent call last)" in said


@pytest.mark.parametrize("words", [[], ["help"], ["--help"]])
def test_the_command_alone_says_what_each_command_is_for_with_an_example(words, capsys):
    assert call(*words) == 0
    told = capsys.readouterr().out
    for name in ("audit", "merge", "plan"):
        assert re.search(rf"^  leapwright {name} +[a-z].*\n      leapwright {name} .*-", told, re.MULTILINE)
    assert "not for training, medical or safety decisions" in told


def test_help_of_a_command_is_its_own(capsys):
    assert call("help", "plan") == call("plan", "--help") == 0
    told = capsys.readouterr().out
    assert told[: len(told) // 2] == told[len(told) // 2 :] and "--height" in told


def test_help_names_the_exit_codes_and_gives_examples(capsys):
    assert command.main(["audit", "--help"]) == 0
    told = capsys.readouterr().out
    for line in ("  0  done", "  2  wrong call", "  leapwright audit tq010_barge_hop.blend"):
        assert line in told
    assert command.main(["--version"]) == 0
    assert capsys.readouterr().out.startswith("leapwright 0.")


def test_two_hundred_tracks_are_audited_in_one_run(tmp_path):
    folder = tmp_path / "dailies"
    folder.mkdir()
    for seed in range(20):
        track = hop(seed, leaps=3).track
        for copy in range(10):
            track_file(folder / f"tq{seed:02}{copy}.json", track)
    code = "import sys; from leapwright.addon.command import main; sys.exit(main())"
    arguments = [sys.executable, "-c", code, "audit", str(folder), "--json", str(tmp_path / "audit.json")]
    before = os.times().children_user
    assert subprocess.run(arguments, capture_output=True).returncode == 0
    spent = os.times().children_user - before
    written = json.loads((tmp_path / "audit.json").read_text())["shots"]
    assert len(written) == 200
    assert all(shot["status"] == "ok" for shot in written)
    jumps = [jump for shot in written for jump in shot["tracks"][0]["jumps"]]
    assert sum(jump["certainty"] != "doubtful" for jump in jumps) == 600
    assert spent < 20  # processor seconds for 600 jumps, with room for a slow machine


def test_a_track_file_needs_neither_blender_nor_scipy(tmp_path):
    track_file(tmp_path / "tq010.json")
    code = (
        "import sys; from leapwright.addon.command import main; code = main(sys.argv[1:]); "
        "print(code, sorted({name.split('.')[0] for name in sys.modules} & {'bpy', 'scipy'}))"
    )
    arguments = [sys.executable, "-c", code, "audit", str(tmp_path), "--json", str(tmp_path / "a.out")]
    done = subprocess.run(arguments, capture_output=True, text=True, check=True)
    assert done.stdout.splitlines()[-1] == "0 []"


def test_settings_are_untouched_by_a_run(shots):
    before = settings.Settings()
    call("audit", shots, "--gravity", "moon", "--smallest-hop", "10cm")
    assert settings.Settings() == before
