"""With stdout, stderr or stdin closed, full, or no longer read, the command ends with the right code and no traceback.
"""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.addon.day import keyed, saved
from tests.addon.mismatched import FLOATY
from tests.quay.build import build

CALL = [sys.executable, "-c", "from leapwright.addon.command import command_line; command_line()"]
FULL = Path("/dev/full")
pytestmark = pytest.mark.skipif(os.name == "nt", reason="Windows has no such descriptors")


@pytest.fixture
def shot(tmp_path):
    keyed()
    return saved(tmp_path / "tq010.blend")


def closing(*streams: int):
    def close() -> None:
        for stream in streams:
            os.close(stream)

    return close


@pytest.mark.parametrize("streams", [(1,), (2,), (0, 1, 2)], ids=str)
def test_closed_streams_change_no_result_and_no_code(shot, tmp_path, streams):
    result, retimed = tmp_path / "audit.json", tmp_path / "new.blend"
    floaty = build(FLOATY, tmp_path)
    retime = ["retime", str(floaty), "--jump", "1", "--keep", "flight", "--out", str(retimed)]
    for words, code in (
        (["audit", str(shot), "--json", str(result)], 0),
        (["audit", str(tmp_path / "gone.blend")], 3),
        (["plan", "--height", "1m", "--push", "40cm"], 0),
        (["--help"], 0),
        (["audit"], 2),
        (["audit", str(shot), "--json", str(shot)], 2),
        (retime, 0),
    ):
        done = subprocess.run([*CALL, *words], preexec_fn=closing(*streams), capture_output=True, text=True)
        assert done.returncode == code, (words, done.stderr)
        assert "Traceback" not in done.stdout + done.stderr and "Exception" not in done.stdout + done.stderr
        assert 1 not in streams or done.stdout == ""
        assert 2 not in streams or done.stderr == ""
    assert '"status": "ok"' in result.read_text() and retimed.stat().st_size > 1000


@pytest.mark.skipif(not FULL.exists(), reason="this system has no full device")
def test_an_stderr_that_takes_nothing_changes_no_code(shot):
    with FULL.open("w") as full:
        for words, code in ((["audit", str(shot)], 0), (["audit"], 2)):
            assert subprocess.run([*CALL, *words], stdout=subprocess.DEVNULL, stderr=full).returncode == code


@pytest.mark.parametrize("words", [["audit", "SHOT"], ["plan", "--height", "1m", "--push", "40cm"], ["--help"]])
def test_whoever_stops_reading_is_left_in_peace(shot, words):
    reader, writer = os.pipe()
    os.close(reader)
    words = [str(shot) if word == "SHOT" else word for word in words]
    done = subprocess.run([*CALL, *words], stdout=writer, stderr=subprocess.PIPE, text=True)
    os.close(writer)
    assert done.returncode == 0 and "Error" not in done.stderr
