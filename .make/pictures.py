"""Take the manual's pictures in a windowed Blender: `pictures.py BLENDER [SESSION …]`, all sessions if none is named.

Needs a display. SCREENSHOT="import -window root" has another program take the pictures, on a display that the window
fills. Builds the extension and the shots, starts the Blender once a session with settings of its own, and
writes what is to be shown of each window, small, to addon/manual/pictures.
"""

import json
import os
import subprocess
import sys
import tempfile
from pathlib import Path

import bpy
import numpy as np
from environment import ROOT, say
from extension import build as extension
from small_png import png

from tests.addon.filmed import film
from tests.quay.build import build
from tests.quay.flawed import FLAWED
from tests.quay.shots import SHOTS

PICTURES = ROOT / "addon" / "manual" / "pictures"
MOST = 60_000
"""Bytes that no picture is to pass."""
SESSIONS = ("audits", "plans", "retimes", "compares", "details", "setups", "keys", "findings")
SIZE = "1600", "900"
LONGEST = 900
"""Seconds that a session may take."""


def shots(folder: Path) -> None:
    """Build what is shown, and write where to look for each finding."""
    looks = {}
    for shot in {shot.name: shot for shot in (*SHOTS, *FLAWED.values())}.values():
        build(shot, folder)
    for code, shot in FLAWED.items():
        keys = shot.motion().keys
        xs, zs = [key.x for key in keys], [key.z for key in keys]
        left, right, low, high = min(xs), max(xs), min(zs), max(zs)
        looks[code] = {"name": shot.name, "x": (left + right) / 2, "z": (low + high) / 2,
                       "wide": right - left + 1.7, "high": high - low + 0.5}  # fmt: skip
        if code.startswith("contact"):  # with the ground that the hooves are on
            looks[code] |= {"z": (low + high) / 2 - 0.4, "high": high - low + 1.3}
    (folder / "findings.json").write_text(json.dumps(looks), encoding="utf-8")
    bpy.ops.wm.read_homefile(use_factory_startup=True, use_empty=True)
    film(folder)
    bpy.ops.wm.save_as_mainfile(filepath=str(folder / "footage.blend"))


def cut(path: Path) -> None:
    """Write what is to be shown of one window."""
    left, bottom, wide, high = json.loads(path.with_suffix(".json").read_text(encoding="utf-8"))
    image = bpy.data.images.load(str(path))
    across, up = image.size
    pixels = np.array(image.pixels, dtype=np.float32).reshape(up, across, 4)[bottom : bottom + high, left : left + wide]
    data = png(np.clip(pixels[::-1, :, :3] * 255 + 0.5, 0, 255).astype(np.uint8))
    (PICTURES / path.name).write_bytes(data)
    say(f"{path.name:<28} {wide} × {high}, {len(data) / 1e3:.0f} kB{' (too large)' * (len(data) > MOST)}")


def main(blender: str, sessions: tuple[str, ...]) -> int:
    """Take the pictures; return 1 where a session came to no end."""
    PICTURES.mkdir(exist_ok=True)
    work = ROOT / "build" / "pictures"
    work.mkdir(parents=True, exist_ok=True)
    packed = extension(work / "leapwright", work)
    say("Building the shots")
    (work / "shots").mkdir(exist_ok=True)
    shots(work / "shots")
    failed = 0
    for session in sessions:
        out = work / session
        out.mkdir(exist_ok=True)
        for old in out.iterdir():
            old.unlink()
        words = [session, str(packed), str(work / "shots"), str(out)]
        with tempfile.TemporaryDirectory(dir=work) as user:
            call = [blender, "--factory-startup", "--offline-mode", "--window-geometry", "0", "0", *SIZE]
            call += ["--python", str(ROOT / ".make" / "window" / "inside.py"), "--", *words]
            done = subprocess.run(call, env={**os.environ, "BLENDER_USER_RESOURCES": user}, timeout=LONGEST)
        if done.returncode or not (out / f"{session}.done").exists():
            say(f"The session {session} came to no end (exit {done.returncode})")
            failed = 1
        for path in sorted(out.glob("*.png")):
            cut(path)
    return failed


if __name__ == "__main__":
    if len(sys.argv) < 2 or not sys.argv[1]:
        raise SystemExit("Say which Blender, one with windows: make pictures WINDOWED=/path/to/blender")
    sys.exit(main(sys.argv[1], tuple(sys.argv[2:]) or SESSIONS))
