"""The demo's shots are built by the oldest host that is set up; they open, and are judged alike, in every host."""

import json
import subprocess
from pathlib import Path
from typing import Any

import pytest

from tests.addon.hosts import HOSTS
from tests.quay.shots import SHOTS

OLDEST = min(HOSTS)
AUDIT = "from leapwright.addon.command import command_line; command_line()"
Verdict = list[tuple[str, list[list[str]]]]


def audited(host: str, shots: Path, folder: Path) -> Verdict:
    """Audit the shots in a host as the command does; return for each shot the finding codes of each of its jumps."""
    result = folder / f"audit-{host}.json"
    call = [str(HOSTS[host]), "-c", AUDIT, "audit", str(shots), "--no-cache", "--json", str(result)]
    done = subprocess.run(call, cwd=folder, capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr
    found = json.loads(result.read_text(encoding="utf-8"))["shots"]
    return [(Path(shot["path"]).stem, _codes(shot)) for shot in found]


def _codes(shot: dict[str, Any]) -> list[list[str]]:
    jumps = [jump for track in shot["tracks"] for jump in track["jumps"]]
    return [[finding["code"] for finding in jump["findings"]] for jump in jumps]


@pytest.fixture(scope="module")
def shots(root: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("shots")
    build = [str(HOSTS[OLDEST]), "-m", "tests.quay.build", str(folder)]
    done = subprocess.run(build, cwd=root, capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    return folder


@pytest.fixture(scope="module")
def at_home(shots: Path, tmp_path_factory: pytest.TempPathFactory) -> Verdict:
    """Return what the host that built them says."""
    return audited(OLDEST, shots, tmp_path_factory.mktemp("home"))


@pytest.mark.parametrize("host", HOSTS)
def test_the_demos_shots_open_in_every_host(host: str, shots: Path, at_home: Verdict, tmp_path: Path) -> None:
    assert [name for name, _ in at_home] == sorted(shot.name for shot in SHOTS)
    assert audited(host, shots, tmp_path) == at_home
