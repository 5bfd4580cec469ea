"""What an audit writes, where the place it is to go to takes nothing."""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from leapwright.analysis.outputs import Outputs

from tests.analysis.day import call, two_shots

FULL = Path("/dev/full")
CALL = "from leapwright.addon.command import main; import sys; sys.exit(main())"
needs_full_device = pytest.mark.skipif(not FULL.exists(), reason="this system has no full device")


@pytest.fixture
def shots(tmp_path):
    return two_shots(tmp_path / "dailies")


@needs_full_device
def test_a_result_that_cannot_be_written_does_not_take_the_others_along(shots, tmp_path, capsys):
    assert call("audit", shots, "--json", FULL, "--csv", tmp_path / "day.csv") == 2
    out, said = capsys.readouterr()
    assert out.splitlines()[-1].startswith("2 shots, 2 jumps") and (tmp_path / "day.csv").read_text().count("\n") == 3
    assert "/dev/full cannot be written: no space left on device" in said


@needs_full_device
@pytest.mark.parametrize("words", [["audit", "tq010_barge_hop.json"], ["plan", "--height", "1m", "--push", "40cm"]])
def test_a_stdout_that_takes_nothing_is_told_and_one_that_is_closed_is_not(words, shots):
    command_line = [sys.executable, "-c", CALL, *words]
    with FULL.open("w") as full:
        done = subprocess.run(command_line, cwd=shots, stdout=full, stderr=subprocess.PIPE, text=True)
    assert done.returncode == 2 and "Traceback" not in done.stderr
    assert "stdout cannot be written: no space left on device" in done.stderr
    reader, writer = os.pipe()
    os.close(reader)
    done = subprocess.run(command_line, cwd=shots, stdout=writer, stderr=subprocess.PIPE, text=True)
    os.close(writer)
    assert done.returncode == 0 and "Error" not in done.stderr


def test_a_pipe_named_for_a_result_is_not_waited_for_before_the_work(tmp_path):
    os.mkfifo(tmp_path / "audit.json")
    assert Outputs(None, tmp_path / "audit.json", None).earlier() == []
