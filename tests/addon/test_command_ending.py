"""The command is told to end at any moment: it leaves nothing behind and nothing half written, and ends with the
shell's code."""

import json
import os
import shutil
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from tests.addon.day import keyed, saved
from tests.addon.mismatched import FLOATY
from tests.quay.build import build

# A child of a background shell ignores Ctrl-C, and a child of nohup ignores SIGHUP; these tests are about a child that
# ignores neither. The "." says that Python has started: what happens before the command's first line is not ours.
CALL = """
import os, signal, sys
signal.signal(signal.SIGINT, signal.default_int_handler)
signal.signal(signal.SIGHUP, signal.{hangup})
from leapwright.addon.command import command_line
signal.pthread_sigmask(signal.SIG_BLOCK, [signal.SIGINT, signal.SIGTERM, signal.SIGHUP])
os.write(2, b".")
command_line()
"""
pytestmark = pytest.mark.skipif(os.name == "nt", reason="Windows ends a process without asking it")
MOMENTS = 20
"""Number of moments at which each of two commands is ended."""


@pytest.fixture
def temporary(tmp_path):
    (tmp_path / "temporary").mkdir()
    return tmp_path / "temporary"


@pytest.fixture
def day(tmp_path):
    """Return more shots than can be read before a signal arrives."""
    (tmp_path / "dailies").mkdir()
    keyed()
    first = saved(tmp_path / "dailies" / "tq000.blend")
    for number in range(1, 200):
        shutil.copy(first, first.with_name(f"tq{number:03}.blend"))
    return tmp_path / "dailies"


def started(words: list[object], temporary: Path, hangup: str = "SIG_DFL") -> subprocess.Popen[str]:
    """Start the command in a process group of its own; return once Python has started."""
    call = [sys.executable, "-c", CALL.format(hangup=hangup), *map(str, words)]
    process = subprocess.Popen(call, env={**os.environ, "TMPDIR": str(temporary)}, start_new_session=True,
                               stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)  # fmt: skip
    assert process.stderr.read(1) == "."
    return process


def alone(group: int) -> bool:
    """Tell whether no process of a group is left, after a moment for them to end."""
    until = time.monotonic() + 20
    while time.monotonic() < until:
        try:
            os.killpg(group, 0)
        except ProcessLookupError:
            return True
        time.sleep(0.02)
    return False


def ended_after(seconds: float, asked: int, words: list[object], temporary: Path) -> int:
    """End a command after so many seconds, check what it left, and return its exit code."""
    process = started(words, temporary)
    time.sleep(seconds)
    os.killpg(process.pid, asked)  # as a terminal does: the workers get the signal too
    out, said = process.communicate(timeout=60)
    assert process.returncode in (0, 128 + asked), (seconds, process.returncode, said)
    assert "Traceback" not in said and "Exception" not in said, (seconds, said)
    partly = words[0] == "audit" and asked == signal.SIGINT  # what is done by then is written
    assert out == "" or process.returncode == 0 or partly  # what was written stays
    assert alone(process.pid) and list(temporary.iterdir()) == [], seconds
    return process.returncode


def test_an_audit_may_be_ended_at_any_moment(day, temporary, tmp_path):
    codes = []
    (tmp_path / "out").mkdir()
    for number in range(MOMENTS):
        result = tmp_path / "out" / "audit.json"
        words = ["audit", day, "--no-cache", "--jobs", 1 + number % 2, "--json", result]
        asked = (signal.SIGINT, signal.SIGTERM)[number // 2 % 2]
        codes.append(ended_after(0.002 + 1.4 * (number / MOMENTS) ** 1.5, asked, words, temporary))
        left = [path.name for path in result.parent.iterdir()]
        assert left == ["audit.json"] * (codes[-1] == 0) or (left == ["audit.json"] and asked == signal.SIGINT)
        if left:
            shots = json.loads(result.read_text())["shots"]
            assert len(shots) == 200 if codes[-1] == 0 else 0 < len(shots) < 200
            assert all(shot["status"] == "ok" for shot in shots)
            result.unlink()
    assert codes.count(0) < MOMENTS / 2


def test_a_retiming_may_be_ended_at_any_moment(temporary, tmp_path):
    shot, codes = build(FLOATY, tmp_path), []
    before, new = shot.read_bytes(), tmp_path / "out" / "new.blend"
    words = ["retime", shot, "--jump", 1, "--keep", "flight", "--out", new]
    new.parent.mkdir()
    begun = time.monotonic()
    started(words, temporary).communicate(timeout=60)
    whole = time.monotonic() - begun  # on this machine the command has ended by then
    new.unlink()
    for number in range(MOMENTS):
        asked = (signal.SIGINT, signal.SIGTERM)[number // 2 % 2]
        codes.append(ended_after(0.002 + whole * number / MOMENTS, asked, words, temporary))
        assert [path.name for path in new.parent.iterdir()] == ["new.blend"] * (codes[-1] == 0)
        new.unlink(missing_ok=True)
    assert shot.read_bytes() == before and codes.count(0) < MOMENTS


@pytest.mark.parametrize("command", ["retime", "audit"])
def test_what_is_written_stands_and_so_does_its_code(command, temporary, tmp_path):
    shot, result = build(FLOATY, tmp_path), tmp_path / ("new.blend" if command == "retime" else "audit.json")
    words = {
        "retime": ["retime", shot, "--jump", 1, "--keep", "flight", "--out", result, "--fail-on", "note"],
        "audit": ["audit", shot, "--json", result, "--fail-on", "note"],
    }[command]
    # The signal comes with the first word on stdout: by then the file has its name.
    told = "class Out:\n def write(self, text):\n  os.kill(os.getpid(), signal.SIGTERM)\n def flush(self): pass\n"
    call = CALL.format(hangup="SIG_DFL").replace("command_line()\n", "sys.stdout = Out()\ncommand_line()\n")
    assert call.count("Out()") == 1
    done = subprocess.run([sys.executable, "-c", told + call, *map(str, words)], capture_output=True, text=True,
                          env={**os.environ, "TMPDIR": str(temporary)})  # fmt: skip
    assert done.returncode == 1 and result.exists(), done.stderr
    assert "interrupted" not in done.stderr and list(temporary.iterdir()) == []


@pytest.mark.parametrize(("asked", "twice"), [("SIGTERM", False), ("SIGINT", True), ("SIGHUP", False)])
def test_ended_midway_it_takes_its_workers_and_their_folders_along(day, temporary, asked, twice):
    number = getattr(signal, asked)
    process = started(["audit", day, "--no-cache", "--jobs", 1], temporary)
    assert process.stderr.readline().startswith("[1/200]")
    assert list(temporary.iterdir())  # what is to be gone afterward
    for _ in range(1 + twice):
        process.send_signal(number)
    out, _ = process.communicate(timeout=60)
    assert process.returncode == 128 + number
    assert (out == "" or asked == "SIGINT") and alone(process.pid) and list(temporary.iterdir()) == []


def test_where_the_closing_of_the_terminal_is_ignored_it_goes_on(day, temporary):
    for surplus in list(day.iterdir())[20:]:
        surplus.unlink()
    process = started(["audit", day, "--no-cache", "--jobs", 1], temporary, hangup="SIG_IGN")  # as nohup starts it
    assert process.stderr.readline().startswith("[1/20]")
    process.send_signal(signal.SIGHUP)
    out, _ = process.communicate(timeout=60)
    assert process.returncode == 0 and out.splitlines()[-1].startswith("20 shots")


def test_an_audit_that_runs_to_its_end_leaves_nothing_either(temporary, tmp_path):
    keyed()
    process = started(["audit", saved(tmp_path / "tq010.blend")], temporary)
    process.communicate(timeout=120)
    assert process.returncode == 0 and alone(process.pid) and list(temporary.iterdir()) == []
