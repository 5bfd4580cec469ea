"""The Pythons with a Blender in them that a test may start, by release."""

import sys
from pathlib import Path

import bpy

from tests.house import ROOT

OWN = ".".join(map(str, bpy.app.version[:2]))


def _hosts() -> dict[str, Path]:
    """This host, and from the checkout's own environment every other that is set up."""
    others = sorted((ROOT / "build" / "hosts").glob("*/ready")) if Path(sys.prefix) == ROOT / ".venv" else []
    return {stamp.parent.name: stamp.parent / "bin" / "python" for stamp in others} | {OWN: Path(sys.executable)}


HOSTS = _hosts()
