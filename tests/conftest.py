"""Fixtures for all tests: the recorded motions, and the built extension."""

import os
import subprocess
import sys
import tempfile
from pathlib import Path

import leapwright.analysis
import pytest

ROOT = Path(__file__).resolve().parent.parent
CACHES = tempfile.TemporaryDirectory(prefix="leapwright-caches-")
os.environ["XDG_CACHE_HOME"] = CACHES.name  # the caches of the person who runs the tests stay untouched


def pytest_sessionstart() -> None:
    """Make sure that the package under test is the one that was asked for."""
    wanted = os.environ.get("LEAPWRIGHT_TEST_PACKAGE")
    found = Path(leapwright.analysis.__file__)
    if not found.is_relative_to(wanted or ROOT):
        pytest.exit(f"leapwright was found in {found}, not in {wanted or ROOT}", 2)


@pytest.fixture(scope="session")
def root() -> Path:
    """Return the folder of the checkout."""
    return ROOT


@pytest.fixture(scope="session")
def recorded_motions() -> Path:
    """Return the folder of pybullet's recorded motions; fail, never skip, where they are missing."""
    folder = ROOT / "build" / "data" / "pybullet_data" / "motions"
    if not (folder / "ready").exists():
        pytest.fail(f"No recorded motions in {folder}: run `make data`", pytrace=False)
    return folder


@pytest.fixture(scope="session")
def extension_zip(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the extension, built and validated by the host's own builder."""
    folder = tmp_path_factory.mktemp("extension")
    build = [sys.executable, str(ROOT / ".make" / "extension.py")]
    build += ["--folder", str(folder / "leapwright"), "--output", str(folder)]
    done = subprocess.run(build, capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr
    (packed,) = folder.glob("leapwright-*.zip")
    return packed
