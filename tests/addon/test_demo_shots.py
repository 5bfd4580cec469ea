"""The demo's shots, built by the oldest host there is, open in every host there is."""

import json
import subprocess
from pathlib import Path

import pytest

from tests.addon.hosts import HOSTS

OLDEST = min(HOSTS)
AUDIT = "from leapwright.addon.command import command_line; command_line()"


@pytest.fixture(scope="module")
def shots(root: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("shots")
    names = ["tq010_barge_hop", "tq120_moss_rides"]
    build = [str(HOSTS[OLDEST]), "-m", "tests.quay.build", str(folder), *names]
    done = subprocess.run(build, cwd=root, capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    return folder


@pytest.mark.parametrize("host", HOSTS)
def test_the_demos_shots_open_in_every_host(host: str, shots: Path, tmp_path: Path) -> None:
    result = tmp_path / "audit.json"
    call = [str(HOSTS[host]), "-c", AUDIT, "audit", str(shots), "--json", str(result)]
    done = subprocess.run(call, cwd=tmp_path, capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr
    found = json.loads(result.read_text(encoding="utf-8"))["shots"]
    assert [len(track["jumps"]) > 0 for shot in found for track in shot["tracks"]] == [True, True, True]
