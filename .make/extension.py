"""Build the extension for Blender: one zip for every system and every Python.

Lays the extension's folder out and lets the host's own builder validate and pack it. It brings no wheels: what
it needs besides itself is the numpy that every Blender has.
"""

import argparse
import shutil
import subprocess
import sys
import sysconfig
import tomllib
from pathlib import Path

from environment import ROOT, say

FILES = ["LICENSE", "blender_manifest.toml", "addon", "analysis"]
ENTRY = "from .addon import register, unregister  # noqa: F401\n"


def stage(folder: Path) -> None:
    """Lay out what Blender packs: its root is a package, the repository's is not."""
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir(parents=True)
    for name in FILES:
        if (ROOT / name).is_dir():
            shutil.copytree(ROOT / name, folder / name, ignore=shutil.ignore_patterns("__pycache__"))
        else:
            shutil.copy2(ROOT / name, folder / name)
    (folder / "__init__.py").write_text(ENTRY, encoding="utf-8")


def builder() -> list[str]:
    """Return the command of the builder that comes inside the host's package."""
    packages = Path(sysconfig.get_path("purelib")) / "bpy"
    found = sorted(packages.glob("*/scripts/addons_core/bl_pkg/cli/blender_ext.py"))
    if not found:
        raise SystemExit(f"No extension builder under {packages}: is Blender installed in this environment?")
    return [sys.executable, str(found[-1])]


def blender(*words: str) -> None:
    done = subprocess.run([*builder(), *words], capture_output=True, text=True)
    if done.returncode:
        raise SystemExit(f"{done.stdout}{done.stderr}Blender's builder refused: {' '.join(words)}")


def build(folder: Path, output: Path) -> Path:
    """Lay the extension out in `folder`, validate it, and return its zip in `output`."""
    version = tomllib.loads((ROOT / "blender_manifest.toml").read_text(encoding="utf-8"))["version"]
    say(f"Laying out Leapwright {version} in {folder}")
    stage(folder)
    output.mkdir(parents=True, exist_ok=True)
    packed = output / f"leapwright-{version}.zip"
    say("Validating and packing with Blender's own builder")
    blender("validate", str(folder))
    blender("build", "--source-dir", str(folder), "--output-filepath", str(packed))
    blender("validate", str(packed))
    say(f"{packed}: {packed.stat().st_size / 1e3:.0f} kB, for every system and every Python of Blender 4.2 and newer")
    return packed


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--folder", type=Path, default=ROOT / "build" / "leapwright")
    parser.add_argument("--output", type=Path, default=ROOT / "dist")
    given = parser.parse_args()
    build(given.folder, given.output)
