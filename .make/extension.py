"""Build the extension for Blender: `extension.py [all | PLATFORM …]`; without a name, for this machine.

Lays the extension's folder out, adds scipy's wheels, and lets the host's own builder validate and pack it.
"""

import argparse
import platform
import shutil
import subprocess
import sys
import sysconfig
import tomllib
from pathlib import Path

from environment import HOSTS, ROOT, SCIPY, run_pip, say

WHEELS = ROOT / "build" / "wheels"
FILES = ["LICENSE", "addon", "analysis"]
# By Blender's name of the platform: the tag of scipy's wheel. One macOS wheel a platform: of two that fit,
# Blender takes the greater file name, whatever the system's version.
PLATFORMS = {
    "linux-x64": "manylinux2014_x86_64",
    "macos-arm64": "macosx_12_0_arm64",
    "macos-x64": "macosx_10_13_x86_64",
    "windows-x64": "win_amd64",
}
ENTRY = "from .addon import register, unregister  # noqa: F401\n"
PYTHONS = sorted({host.python for host in HOSTS.values()})


def this_platform() -> str:
    system = {"darwin": "macos", "win32": "windows"}.get(sys.platform, sys.platform)
    machine = {"x86_64": "x64", "amd64": "x64", "aarch64": "arm64"}
    kind = platform.machine().lower()
    name = f"{system}-{machine.get(kind, kind)}"
    if name not in PLATFORMS:
        raise SystemExit(f"No wheel of scipy {SCIPY} is known for {name}: name one of {', '.join(PLATFORMS)}")
    return name


def wheel_of(name: str, python: str) -> Path:
    """Return scipy's wheel for a platform and a Python, downloaded once."""
    tag = f"cp{python.replace('.', '')}"
    pattern = f"scipy-{SCIPY}-{tag}-*.whl"
    wanted = ["--python-version", python, "--abi", tag, "--platform", PLATFORMS[name]]
    folder = WHEELS / name
    if not list(folder.glob(pattern)):
        say(f"Fetching scipy {SCIPY} for {name}, Python {python}")
        pip = [sys.executable, "-m", "pip", "download", "--no-deps", "--only-binary=:all:", *wanted]
        log = ROOT / "build" / "log" / "wheels.txt"
        run_pip([*pip, "--progress-bar", "raw", "--dest", str(folder), f"scipy=={SCIPY}"], log)
    return next(folder.glob(pattern))


def manifest(names: list[str], wheels: list[str]) -> str:
    """Return the manifest with the platforms and wheels of this build, ahead of its first table."""
    text = (ROOT / "blender_manifest.toml").read_text(encoding="utf-8")
    head, table, tail = text.partition("[permissions]")
    head = head.rpartition("\n#")[0]
    listed = "".join(f'  "./wheels/{wheel}",\n' for wheel in sorted(wheels))
    quoted = ", ".join(f'"{name}"' for name in names)
    return f"{head}\nplatforms = [{quoted}]\nwheels = [\n{listed}]\n\n{table}{tail}"


def stage(folder: Path, names: list[str]) -> None:
    """Lay out what Blender packs: its root is a package, the repository's is not."""
    wheels = [wheel_of(name, python) for name in names for python in PYTHONS]
    shutil.rmtree(folder, ignore_errors=True)
    (folder / "wheels").mkdir(parents=True)
    for wheel in wheels:
        shutil.copy2(wheel, folder / "wheels")
    for name in FILES:
        if (ROOT / name).is_dir():
            shutil.copytree(ROOT / name, folder / name, ignore=shutil.ignore_patterns("__pycache__"))
        else:
            shutil.copy2(ROOT / name, folder / name)
    (folder / "__init__.py").write_text(ENTRY, encoding="utf-8")
    listed = manifest(names, [wheel.name for wheel in wheels])
    (folder / "blender_manifest.toml").write_text(listed, encoding="utf-8")


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


def build(names: list[str], folder: Path, output: Path) -> list[Path]:
    """Lay the extension out in `folder`, validate it, and return its zips in `output`."""
    names = list(PLATFORMS) if names == ["all"] else names or [this_platform()]
    unknown = [name for name in names if name not in PLATFORMS]
    if unknown:
        raise SystemExit(f"Unknown platform {', '.join(unknown)}: choose all or from {', '.join(PLATFORMS)}")
    version = tomllib.loads((ROOT / "blender_manifest.toml").read_text(encoding="utf-8"))["version"]
    say(f"Laying out Leapwright {version} for {', '.join(names)} in {folder}")
    stage(folder, names)
    output.mkdir(parents=True, exist_ok=True)
    say("Validating and packing with Blender's own builder")
    blender("validate", str(folder))
    blender("build", "--source-dir", str(folder), "--split-platforms", "--output-dir", str(output))
    packed = [output / f"leapwright-{version}-{name.replace('-', '_')}.zip" for name in names]
    for path in packed:
        blender("validate", str(path))
        say(f"{path}: {path.stat().st_size / 1e6:.1f} MB")
    return packed


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("platforms", nargs="*", metavar="PLATFORM")
    parser.add_argument("--folder", type=Path, default=ROOT / "build" / "leapwright")
    parser.add_argument("--output", type=Path, default=ROOT / "dist")
    given = parser.parse_args()
    build(given.platforms, given.folder, given.output)
