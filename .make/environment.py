"""Set up one virtual environment per Blender host: `environment.py [FOLDER [X.Y]]`; without a folder, of every host.

Runs under any Python 3.9 or newer, with the standard library alone. A second run is instant: the folder
keeps a stamp of everything that went into it.
"""

from __future__ import annotations

import hashlib
import os
import queue
import shutil
import subprocess
import sys
import threading
import time
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
QUIET_SECONDS = 15


@dataclass(frozen=True)
class Host:
    """One Blender release as a Python package, and the numpy that its official build brings."""

    python: str
    bpy: str
    numpy: str


# numpy: build_environment/cmake/versions.cmake of each Blender release.
HOSTS = {
    "4.2": Host("3.11", "4.2.23", "1.24.3"),
    "4.5": Host("3.11", "4.5.15", "1.26.4"),
    "5.0": Host("3.11", "5.0.1", "1.26.4"),
    "5.2": Host("3.13", "5.2.3", "2.3.4"),
}
DEFAULTS = ("5.0", "5.2")
SCIPY = "1.15.3"  # the one release that takes every numpy above


def say(text: str) -> None:
    print(text, flush=True)


def interpreters(version: str) -> list[str]:
    """List the places where Python `version` may be, best first; some may be shims that fail."""
    name = f"python{version}"
    places = [os.environ.get("PYTHON", ""), shutil.which(name) or ""]
    pyenv = Path(os.environ.get("PYENV_ROOT", Path.home() / ".pyenv")) / "versions"
    places += [str(path) for path in sorted(pyenv.glob(f"{version}.*/bin/{name}"), reverse=True)]
    for folder in ("/usr/local/bin", "/usr/bin", "/opt/homebrew/bin"):
        places.append(str(Path(folder) / name))
    framework = "/Library/Frameworks/Python.framework/Versions"
    places += [f"{framework}/{version}/bin/{name}", sys.executable]
    places += [shutil.which("python3") or "", shutil.which("python") or ""]
    return [place for place in dict.fromkeys(places) if place]


def works(python: str, version: str) -> bool:
    check = f"import sys, venv; sys.exit('%d.%d' % sys.version_info[:2] != '{version}')"
    try:
        return subprocess.run([python, "-c", check], capture_output=True, timeout=60).returncode == 0
    except (OSError, subprocess.TimeoutExpired):
        return False


def find_python(version: str) -> str | None:
    return next((python for python in interpreters(version) if works(python, version)), None)


def choose_host(wanted: str | None) -> tuple[str, str]:
    """Return the host's name and a Python that runs it; when none is named, the first default that can run."""
    if wanted and wanted not in HOSTS:
        raise SystemExit(f"Unknown host {wanted}: choose from {', '.join(HOSTS)}")
    for name in [wanted] if wanted else DEFAULTS:
        python = find_python(HOSTS[name].python)
        if python:
            return name, python
    needed = HOSTS[wanted].python if wanted else " or ".join(HOSTS[name].python for name in DEFAULTS)
    raise SystemExit(
        f"No working Python {needed} found. Blender comes as a package for exactly that Python.\n"
        f"Install it, or name one: PYTHON=/path/to/python{needed.split()[0]} make setup"
    )


def stamp_of(name: str) -> str:
    """Digest everything an environment is made from."""
    digest = hashlib.sha256(repr((name, HOSTS[name], SCIPY, str(ROOT))).encode())
    digest.update((ROOT / "pyproject.toml").read_bytes())
    return f"{name} {digest.hexdigest()}\n"


def readable(line: str) -> str | None:
    """Keep what tells a person where pip is; drop the rest."""
    words = line.split()
    if not words:
        return None
    if words[0] == "Downloading" and len(words) > 1:
        return f"downloading {Path(words[1]).name} {' '.join(words[2:])}"
    if line.startswith("Using cached"):
        return f"from cache  {Path(words[2]).name}"
    if line.startswith("Installing collected"):
        return f"unpacking   {len(words) - 3} packages"
    return line.strip() if line.startswith(("ERROR", "Successfully")) else None


class Progress:
    """Turn pip's raw byte counts into a line per fifth of a large download."""

    def __init__(self) -> None:
        self.fifth = 0

    def of(self, line: str) -> str | None:
        done, total = (int(word) for word in line.split() if word.isdigit())
        fifth = 5 * done // max(total, 1)
        started, self.fifth = fifth > self.fifth, fifth
        if total < 20_000_000 or not started:
            return None
        return f"            {done / 1e6:.0f} of {total / 1e6:.0f} MB"


def run_pip(command: list[str], log: Path) -> None:
    """Run pip, show each step as it happens and a sign of life when it is long silent."""
    log.parent.mkdir(parents=True, exist_ok=True)
    started, progress = time.monotonic(), Progress()
    process = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, cwd=ROOT)
    lines: queue.Queue[str | None] = queue.Queue()

    def read() -> None:
        for line in process.stdout:
            lines.put(line)
        lines.put(None)

    threading.Thread(target=read, daemon=True).start()
    with log.open("a", encoding="utf-8") as record:
        while True:
            try:
                line = lines.get(timeout=QUIET_SECONDS)
            except queue.Empty:
                say(f"  … still at it after {time.monotonic() - started:.0f} s")
                continue
            if line is None:
                break
            if line.startswith("Progress "):
                text = progress.of(line)
            else:
                record.write(line)
                text = readable(line)
            if text:
                say(f"  {text}")
    if process.wait():
        tail = log.read_text(encoding="utf-8").splitlines()[-15:]
        raise SystemExit("\n".join([*tail, f"pip failed; the whole log is {log}"]))


def create(folder: Path, python: str, log: Path) -> Path:
    """Make the environment with pip in it, also where the system's Python comes without ensurepip."""
    inside = folder / "bin" / "python"
    if not inside.exists():
        whole = subprocess.run([python, "-c", "import ensurepip"], capture_output=True).returncode == 0
        say(f"  making {folder} with {python}")
        subprocess.run([python, "-m", "venv", *([] if whole else ["--without-pip"]), str(folder)], check=True)
        if not whole:
            run_pip([python, "-m", "pip", "--python", str(inside), "install", "pip"], log)
    # pip 24.1 is the first with progress that a program can read.
    run_pip([str(inside), "-m", "pip", "install", "--disable-pip-version-check", "pip>=24.1"], log)
    return inside


def set_up(folder: Path, wanted: str | None = None) -> str:
    """Make `folder` the environment of a host, unless it is so already; return the host's name."""
    stamp = folder / "ready"
    had = stamp.read_text(encoding="utf-8") if stamp.exists() else ""
    known = had.split()[0] if had else None
    if known in HOSTS and wanted in (None, known) and had == stamp_of(known):
        say(f"Ready: {folder.name} (Blender {HOSTS[known].bpy}, Python {HOSTS[known].python})")
        return known
    name, python = choose_host(wanted)
    host = HOSTS[name]
    say(f"Setting up {folder.name}: Blender {host.bpy}, Python {host.python} (about 500 MB the first time)")
    inside = folder / "bin" / "python"
    if inside.exists() and not works(str(inside), host.python):
        shutil.rmtree(folder)
    log = ROOT / "build" / "log" / f"setup-{name}.txt"
    log.unlink(missing_ok=True)
    pip = [str(create(folder, python, log)), "-m", "pip", "install", "--progress-bar", "raw"]
    run_pip([*pip, f"bpy=={host.bpy}", f"numpy=={host.numpy}", f"scipy=={SCIPY}", "setuptools>=77"], log)
    pins = [f"numpy=={host.numpy}", f"scipy=={SCIPY}"]
    run_pip([*pip, "--no-build-isolation", "--editable", ".[dev]", *pins], log)
    stamp.write_text(stamp_of(name), encoding="utf-8")
    say(f"Ready: {folder.name}")
    return name


def environment_of(name: str) -> Path:
    """Return the folder of a host's environment, set up; .venv serves its own host."""
    if name not in HOSTS:
        raise SystemExit(f"Unknown host {name}: choose from {', '.join(HOSTS)}")
    main = ROOT / ".venv"
    if (main / "ready").read_text(encoding="utf-8").split()[0] == name:
        return main
    folder = ROOT / "build" / "hosts" / name
    set_up(folder, name)
    return folder


def installed() -> dict[str, Path]:
    """Return the Python of each host that is set up."""
    folders = [ROOT / ".venv", *sorted((ROOT / "build" / "hosts").glob("*"))]
    ready = [folder for folder in folders if (folder / "ready").exists()]
    return {(folder / "ready").read_text(encoding="utf-8").split()[0]: folder / "bin" / "python" for folder in ready}


if __name__ == "__main__":
    if sys.argv[1:]:
        set_up(ROOT / sys.argv[1], *sys.argv[2:3])
    else:
        for each in HOSTS:  # one after the other: each downloads some 500 MB
            environment_of(each)
