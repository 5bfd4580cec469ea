"""A result never replaces a file that somebody would miss."""

import os

import pytest
from leapwright.analysis.errors import SettingsError
from leapwright.analysis.targets import check_targets, is_ours

from tests.analysis.day import call, hop, track_file


@pytest.fixture
def shots(tmp_path, monkeypatch):
    folder = tmp_path / "dailies"
    folder.mkdir()
    track_file(folder / "tq010.json", hop(1).track)
    track_file(folder / "tq020.csv", hop(2).track)
    monkeypatch.chdir(folder)
    return folder


def content(folder):
    return {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()}


@pytest.mark.parametrize("option", ["--csv", "--json"])
@pytest.mark.parametrize("name", ["tq030.blend", "new.BLEND", "tq030.bvh", "tq030.fbx", "tq030.glb"])
def test_a_name_that_ends_like_a_shot_is_refused_even_by_force(shots, capsys, option, name):
    # leapwright audit --csv *.blend: the shell makes the first shot the file to be written.
    if name.islower():
        (shots / name).write_bytes(b"BLENDER")
    before = content(shots)
    for force in ([], ["--force"]):
        assert call("audit", option, name, "tq010.json", *force) == 2
        assert f"{name} ends like a shot" in capsys.readouterr().err
    assert content(shots) == before
    assert call("plan", "--height", "1m", "--push", "40cm", "--json", name) == 2
    assert content(shots) == before


def test_a_shot_by_another_of_its_names_is_a_shot(shots, capsys):
    os.link(shots / "tq010.json", shots.parent / "hard.json")
    (shots.parent / "soft.json").symlink_to(shots / "tq010.json")
    (shots / "inside").mkdir()
    before = content(shots.parent)
    for name in ("../hard.json", "../soft.json", "./inside/../tq010.json", shots / "tq010.json"):
        for given in ("tq010.json", "."):
            assert call("audit", given, "--json", name, "--force") == 2
            assert "is one of the files to read: it would be written over" in capsys.readouterr().err
    assert content(shots.parent) == before


def test_the_disk_decides_whether_two_names_are_one(shots, monkeypatch):
    # Stands for a disk that knows no case: the name is another, the file is the same.
    os.link(shots / "tq010.json", shots / "TQ010.JSON")
    with pytest.raises(SettingsError, match="is one of the files to read"):
        check_targets([shots / "TQ010.JSON"], [shots / "tq010.json"], force=True)


@pytest.mark.parametrize("words", [["--json", "notes.txt"], ["--csv", "notes.txt"], ["--report", "web"]])
def test_what_leapwright_did_not_write_stays_unless_forced(shots, capsys, words):
    (shots / "web").mkdir()
    (shots / "web" / "index.html").write_text("<!DOCTYPE html><html><head><title>Tern Quay</title>")
    (shots / "notes.txt").write_text("Brindle was late again\n")
    before = content(shots)
    assert call("audit", "tq010.json", *words) == 2
    assert "is there already, and no result of Leapwright's" in capsys.readouterr().err
    assert content(shots) == before
    for _ in range(2):  # first by force, then because the file is ours
        assert call("audit", "tq010.json", *words, "--force") == 0
        assert call("audit", "tq010.json", *words) == 0


def test_a_plan_is_written_by_the_same_rule(shots, capsys):
    words = ["plan", "--height", "1m", "--push", "40cm", "--json"]
    assert call(*words, "plan.out") == call(*words, "plan.out") == 0
    assert is_ours(shots / "plan.out")
    assert call(*words, "tq010.json") == 2
    assert "is there already" in capsys.readouterr().err
    assert call(*words, "tq010.json", "--force") == 0


def test_an_empty_file_is_nothing_to_lose(shots):
    (shots / "made_by_mktemp").touch()
    assert call("audit", "tq010.json", "--json", "made_by_mktemp") == 0


def test_a_folder_where_nothing_may_be_written_is_a_wrong_call(shots, capsys, monkeypatch):
    may = os.access
    # Tests may run as root, for whom no folder is closed.
    monkeypatch.setattr(os, "access", lambda path, how: os.fspath(path) != str(shots.parent) and may(path, how))
    assert call("audit", "tq010.json", "--json", shots.parent / "audit.out") == 2
    assert f"no permission in {shots.parent}" in capsys.readouterr().err
