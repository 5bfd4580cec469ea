"""`leapwright audit` told to end in the middle of a day: nothing is left behind, and the exit code is the shell's."""

import os
import shutil
import signal
import subprocess
import sys

import pytest

from tests.addon.day import keyed, saved

# A child of a shell in the background ignores Ctrl-C; the test is about one that does not.
CALL = """
import signal, sys
signal.signal(signal.SIGINT, signal.default_int_handler)
from leapwright.addon.command import main
raise SystemExit(main(sys.argv[1:]))
"""


@pytest.fixture
def day(tmp_path):
    """More shots than are read before a signal arrives."""
    (tmp_path / "dailies").mkdir()
    keyed()
    first = saved(tmp_path / "dailies" / "tq000.blend")
    for number in range(1, 200):
        shutil.copy(first, first.with_name(f"tq{number:03}.blend"))
    return tmp_path / "dailies"


@pytest.mark.skipif(os.name == "nt", reason="Windows ends a process without asking it")
@pytest.mark.parametrize("asked", ["SIGTERM", "SIGINT", "SIGHUP"])
def test_ended_midway_it_takes_its_workers_and_their_folders_along(day, tmp_path, asked):
    number, temporary = getattr(signal, asked), tmp_path / "temporary"
    temporary.mkdir()
    command = [sys.executable, "-c", CALL, "audit", str(day), "--jobs", "1"]
    environment = {**os.environ, "TMPDIR": str(temporary)}
    with subprocess.Popen(
        command, env=environment, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    ) as process:
        assert process.stderr.readline().startswith("[1/200]")
        assert list(temporary.iterdir())  # what is to be gone afterwards
        process.send_signal(number)
        out, _ = process.communicate(timeout=60)
    assert process.returncode == 128 + number
    assert out == "" and list(temporary.iterdir()) == []


def test_an_audit_that_runs_to_its_end_leaves_nothing_either(tmp_path):
    (tmp_path / "temporary").mkdir()
    keyed()
    path = saved(tmp_path / "tq010.blend")
    command = [sys.executable, "-c", CALL, "audit", str(path)]
    environment = {**os.environ, "TMPDIR": str(tmp_path / "temporary")}
    assert subprocess.run(command, env=environment, capture_output=True, timeout=120).returncode == 0
    assert list((tmp_path / "temporary").iterdir()) == []
