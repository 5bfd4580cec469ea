"""`leapwright retime` where something goes wrong: it prints one sentence, ends with the right code and leaves nothing
behind."""

import os
import re
import signal
import subprocess
import sys
import time
from contextlib import contextmanager
from pathlib import Path

import pytest
from leapwright.addon import command

from tests.addon.mismatched import BY_NAME, FLOATY
from tests.quay.build import build

# A file may grow to so many bytes and no further, as where the disk is full (POSIX.1-2017, setrlimit).
FULL = """
import resource, sys
from leapwright.addon.command import command_line
resource.setrlimit(resource.RLIMIT_FSIZE, (int(sys.argv.pop(1)),) * 2)
command_line()
"""
CALL = [sys.executable, "-c", "from leapwright.addon.command import command_line; command_line()"]


@pytest.fixture
def floaty(tmp_path):
    (tmp_path / "out").mkdir()
    return build(FLOATY, tmp_path)


def words(shot: Path, *more: object) -> list[str]:
    new = shot.parent / "out" / "new.blend"
    return ["retime", str(shot), "--jump", "1", "--keep", "flight", "--out", str(new), *map(str, more)]


def left(shot: Path) -> list[str]:
    return sorted(path.name for path in (shot.parent / "out").iterdir())


def test_on_a_full_disk_nothing_is_written_and_it_is_said(floaty):
    assert command.main(words(floaty)) == 0
    whole = (floaty.parent / "out" / "new.blend").stat().st_size
    # When it is compressed again the file has a few bytes more or less.
    for room in (0, 1, whole // 3, whole * 49 // 50):
        (floaty.parent / "out" / "new.blend").unlink(missing_ok=True)
        call = [sys.executable, "-c", FULL, str(room), *words(floaty)]
        done = subprocess.run(call, capture_output=True, text=True)
        assert done.returncode == 2 and done.stdout == "" and left(floaty) == []
        said = r"the new file cannot be written( whole: is the disk full\?|: .+)|Blender needs a folder for .+"
        assert re.match(rf"leapwright retime: ({said})$", done.stderr), (room, done.stderr)


def children(group: int) -> list[int]:
    """Return the processes of a group that `multiprocessing` started as workers."""
    found = []
    for place in Path("/proc").glob("[0-9]*"):
        try:
            line = (place / "cmdline").read_bytes()
            if b"spawn_main" in line and os.getpgid(int(place.name)) == group:
                found.append(int(place.name))
        except (OSError, ProcessLookupError):
            continue
    return found


@pytest.mark.skipif(not Path("/proc/self/cmdline").exists(), reason="its worker is found by Linux's /proc")
@pytest.mark.parametrize("share", [0.0, 0.3, 0.6])
def test_a_crash_of_blender_is_a_sentence(floaty, share):
    new, whole = floaty.parent / "out" / "new.blend", 0.0
    if share:
        with started(floaty) as (process, _):
            begun = time.monotonic()
            process.communicate(timeout=60)
            whole = time.monotonic() - begun  # seconds that a worker runs on this machine
        new.unlink()
    with started(floaty) as (process, worker):
        time.sleep(share * whole)
        os.kill(worker, signal.SIGSEGV)
        out, said = process.communicate(timeout=60)
    assert process.returncode == 3 and out == "" and left(floaty) == []
    assert re.match(r"leapwright retime: .+\.blend: .+ \(signal 11\)\n$", said)


@contextmanager
def started(shot):
    """Yield a retiming that is running, and its worker."""
    with subprocess.Popen([*CALL, *words(shot)], start_new_session=True, stdout=subprocess.PIPE,
                          stderr=subprocess.PIPE, text=True) as process:  # fmt: skip
        until = time.monotonic() + 30
        while not (workers := children(process.pid)) and time.monotonic() < until:
            time.sleep(0.01)
        yield process, workers[0]


def test_what_takes_too_long_is_given_up(floaty, capsys):
    assert command.main(words(floaty, "--timeout", 0.01)) == 3
    assert "it was not done within 0.01 s (--timeout)" in capsys.readouterr().err and left(floaty) == []


def test_where_no_key_moves_nothing_is_written(tmp_path, capsys):
    (tmp_path / "out").mkdir()
    shot = build(BY_NAME["tq010"], tmp_path)
    assert command.main(words(shot)) == 0
    assert capsys.readouterr().out.splitlines()[-1] == "0 curves moved, nothing written" and left(shot) == []


def test_a_folder_where_nothing_may_be_written_is_a_wrong_call(floaty, capsys, monkeypatch):
    may, closed = os.access, str(floaty.parent / "out")
    # Tests may run as root, who may write to any folder.
    monkeypatch.setattr(os, "access", lambda path, how: os.fspath(path) != closed and may(path, how))
    assert command.main(words(floaty)) == 2
    assert f"--out cannot be written: no permission in {closed}" in capsys.readouterr().err


def test_links_of_the_new_file_to_others_hold_where_it_lies(floaty):
    # The new file is saved in its own folder, if under another name: paths relative to it stay right.
    import bpy

    bpy.ops.wm.open_mainfile(filepath=str(floaty))
    bpy.data.images.new("sky", 4, 4).filepath = "//sky.png"
    bpy.data.images["sky"].use_fake_user = True
    bpy.data.images["sky"].source = "FILE"
    bpy.ops.wm.save_as_mainfile(filepath=str(floaty))
    assert command.main(words(floaty)) == 0
    bpy.ops.wm.open_mainfile(filepath=str(floaty.parent / "out" / "new.blend"))
    assert Path(bpy.path.abspath(bpy.data.images["sky"].filepath)).resolve() == floaty.parent / "sky.png"
