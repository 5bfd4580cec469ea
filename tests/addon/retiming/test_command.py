"""`leapwright retime` writes a new shot, never over one, and says what it did."""

import hashlib
from pathlib import Path

import bpy
import pytest
from leapwright.addon import command
from leapwright.addon.shots.shot import read_shot
from leapwright.analysis import Settings, World
from leapwright.analysis.shot import audit_reading

from tests.addon.mismatched import BY_NAME, FLOATY
from tests.quay.build import build

PUSH = {"push-long", "push-short", "push-speed"}


def retime(*argv: object) -> int:
    return command.main(["retime", *map(str, argv)])


def found(path: Path) -> list[set[str]]:
    shot = audit_reading(str(path), read_shot(path), Settings(World()))
    return [{finding.code for jump in audit.jumps for finding in jump.findings} for audit in shot.audits]


@pytest.fixture
def floaty(tmp_path):
    return build(FLOATY, tmp_path)


def test_a_shot_is_retimed_into_another_file(floaty, tmp_path, capsys):
    out, before = tmp_path / "tq020_v02.blend", hashlib.sha256(floaty.read_bytes()).digest()
    assert retime(floaty, "--jump", 1, "--keep", "flight", "--out", out) == 0
    said = capsys.readouterr()
    assert said.err == ""
    assert said.out.splitlines()[0].split() == ["Brindle/root,", "jump", "1", "before", "after", "asked", "for"]
    assert ["Push", "Frames", "6.0", "10.0", "10.0"] in [line.split() for line in said.out.splitlines()]
    assert "gone: push short, push speed" in said.out and "new:" not in said.out
    assert hashlib.sha256(floaty.read_bytes()).digest() == before
    assert found(floaty) == [{"air-floaty", "push-short", "push-speed"}] and found(out) == [{"air-floaty"}]


def test_the_new_file_keeps_what_the_shot_has(floaty, tmp_path):
    bpy.ops.wm.open_mainfile(filepath=str(floaty))
    was = {name: len(getattr(bpy.data, name)) for name in ("objects", "meshes", "actions", "screens", "workspaces")}
    assert retime(floaty, "--jump", 1, "--keep", "nothing", "--pace", 1.2, "--out", tmp_path / "new.blend") == 0
    bpy.ops.wm.open_mainfile(filepath=str(tmp_path / "new.blend"))
    assert {name: len(getattr(bpy.data, name)) for name in was} == was


def test_the_exit_code_tells_what_is_still_off(floaty, tmp_path):
    asked = (floaty, "--jump", 1, "--keep", "flight", "--fail-on")
    assert retime(*asked, "note", "--out", tmp_path / "a.blend") == 1
    assert retime(*asked, "check", "--out", tmp_path / "b.blend") == 0


def test_keeping_the_times_says_what_they_fit(floaty, capsys):
    assert retime(floaty, "--jump", 1, "--keep", "times") == 0
    # 13 frames of rise at 24 a second: h = 9.81 (13/24)² / 2 = 1.44 m.
    assert "fits a jump of 1.44 m from a push of" in capsys.readouterr().out


def test_nothing_is_ever_written_over(floaty, tmp_path, capsys):
    link, other = tmp_path / "link.blend", tmp_path / "other.blend"
    link.symlink_to(floaty)
    other.write_bytes(b"")
    before = floaty.read_bytes()
    for out, reason in (
        (floaty, "--out is the shot itself"),
        (link, "--out is the shot itself"),
        (other, "--out exists already"),
        (tmp_path / "new.txt", "--out must be a .blend file"),
        (tmp_path / "nowhere" / "new.blend", "folder does not exist"),
        (tmp_path / f"{'y' * 300}.blend", "--out cannot be written: file name too long"),
    ):
        assert retime(floaty, "--jump", 1, "--keep", "flight", "--out", out) == 2
        assert reason in capsys.readouterr().err
    assert floaty.read_bytes() == before and other.read_bytes() == b""


@pytest.mark.parametrize(
    ("argv", "reason"),
    [
        (("--jump", 1, "--keep", "flight"), "--out is needed"),
        (("--jump", 2, "--keep", "flight", "--out", "new.blend"), "no jump 2: Brindle/root has 1 (frames 25 to 51)"),
        (("--jump", 0, "--keep", "flight", "--out", "new.blend"), "counted from 1"),
        (("--jump", 1, "--keep", "push", "--pace", 2, "--out", "new.blend"), "cannot keep the push"),
        (("--jump", 1, "--keep", "times", "--out", "new.blend"), "moves no key"),
        (("--jump", 1, "--keep", "flight", "--track", "Nobody", "--out", "new.blend"), 'has no "Nobody"'),
        (("--jump", 1, "--keep", "flight", "--gravity", "heavy", "--out", "new.blend"), "--gravity"),
    ],
)
def test_a_wrong_call_says_why_and_writes_nothing(floaty, tmp_path, monkeypatch, capsys, argv, reason):
    monkeypatch.chdir(tmp_path)
    code = retime(floaty, *argv)
    assert reason in capsys.readouterr().err and not Path("new.blend").exists()
    assert code == (3 if "Nobody" in argv else 2)


def test_a_shot_that_cannot_be_read_is_told_apart_from_a_wrong_call(tmp_path, capsys):
    asked = ("--jump", 1, "--keep", "flight", "--out", tmp_path / "new.blend")
    assert retime(tmp_path / "gone.blend", *asked) == 3
    assert "there is no such file" in capsys.readouterr().err
    (tmp_path / "text.blend").write_text("Brindle jumps\n")
    assert retime(tmp_path / "text.blend", *asked) == 3
    assert "its content is no .blend file" in capsys.readouterr().err


def test_of_two_that_jump_one_must_be_named(tmp_path, capsys):
    shot = build(BY_NAME["tq120"], tmp_path)
    asked = ("--jump", 1, "--keep", "nothing", "--pace", 0.8)
    assert retime(shot, *asked, "--out", tmp_path / "new.blend") == 2
    assert "name one by --track, Brindle/root, Moss" in capsys.readouterr().err
    assert retime(shot, *asked, "--track", "Moss", "--out", tmp_path / "new.blend") == 0


def test_keys_that_may_not_be_moved_are_refused(floaty, tmp_path, capsys):
    bpy.ops.wm.open_mainfile(filepath=str(floaty))
    from leapwright.addon import host

    host.curves_of(bpy.data.objects["Brindle"].animation_data)[4].mute = True
    bpy.ops.wm.save_as_mainfile(filepath=str(tmp_path / "muted.blend"))
    out = tmp_path / "new.blend"
    assert retime(tmp_path / "muted.blend", "--jump", 1, "--keep", "flight", "--out", out) == 2
    assert "is muted: unmute its channel" in capsys.readouterr().err and not out.exists()
