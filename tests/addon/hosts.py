"""The Python interpreters that have a Blender, by release; a test may start each of them."""

import sys
from pathlib import Path

import bpy

from tests.house import ROOT

OWN = ".".join(map(str, bpy.app.version[:2]))


def _hosts() -> dict[str, Path]:
    """Return this host and, in the checkout's own environment, every other one that is set up."""
    others = sorted((ROOT / "build" / "hosts").glob("*/ready")) if Path(sys.prefix) == ROOT / ".venv" else []
    return {stamp.parent.name: stamp.parent / "bin" / "python" for stamp in others} | {OWN: Path(sys.executable)}


HOSTS = _hosts()
