"""Blender for the add-on's tests: imported once, away from the user's own files, one empty file a test."""

import atexit
import os
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest

# Before bpy is imported: it reads both once, and would otherwise touch the person's own Blender.
USER_FOLDER = tempfile.mkdtemp(prefix="leapwright-blender-")
os.environ["BLENDER_USER_RESOURCES"] = USER_FOLDER
atexit.register(shutil.rmtree, USER_FOLDER, ignore_errors=True)

try:
    import bpy
except ImportError as missing:
    raise pytest.UsageError(
        f"tests/addon needs Blender as a Python package ({missing}): run `make setup`, "
        "or `make test-analysis` for the tests that need no Blender"
    ) from None


@pytest.fixture(scope="session")
def leapwright_registered() -> None:
    """Register the add-on once; unregister at exit, without which Blender 4.2 and 4.5 hang there."""
    from leapwright import addon

    addon.register()
    atexit.register(addon.unregister)


@pytest.fixture(autouse=True)
def empty_file() -> None:
    """Start each test in an empty file with factory settings."""
    # Not read_factory_settings: that would disable every enabled extension.
    bpy.ops.wm.read_homefile(use_factory_startup=True, use_empty=True)


@pytest.fixture
def scene(empty_file: None, leapwright_registered: None) -> Iterator["bpy.types.Scene"]:
    """Give the scene of a fresh empty file, with the add-on registered."""
    yield bpy.context.scene


@pytest.fixture(scope="session")
def human_rigs(tmp_path_factory: pytest.TempPathFactory, root: Path) -> Path:
    """Build the host's human, meta-rig and generated rig, once; return the file."""
    path = tmp_path_factory.mktemp("human") / "human.blend"
    command = [sys.executable, "-m", "tests.addon.human", str(path)]
    done = subprocess.run(command, cwd=root, capture_output=True, text=True, timeout=300)
    assert path.exists(), done.stdout + done.stderr
    return path
