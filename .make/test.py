"""Run the tests once per Blender host: `test.py [X.Y …]`, or `test.py --others` for all but that of .venv.

The first host named runs everything but the benchmarks. Each further one, and each of the others, runs
tests/analysis and tests/addon on what the built zip holds. Without a name, the host of .venv runs everything.
"""

import os
import shutil
import subprocess
import sys
import time
import zipfile
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path

from environment import HOSTS, ROOT, environment_of, say
from extension import build

# Blender 4.5 as a module may wait for ever in a destructor of its own, after all else is done: leave before it.
RUN = """
import atexit, os, sys, pytest
code = pytest.main(sys.argv[1:])
atexit._run_exitfuncs()
sys.stdout.flush()
os._exit(code)
"""
EVERYTHING = ["tests", "--ignore=tests/bench"]
PER_HOST = ["tests/analysis", "tests/addon"]
AT_ONCE = 2
"""Hosts that run side by side: a test waits for a process of its own half of the time."""


@dataclass(frozen=True)
class Outcome:
    """How the tests ended in one host; lost: the test that took the host along."""

    name: str
    code: int
    seconds: float
    lost: str = ""

    def __str__(self) -> str:
        verdict = "passed" if self.code == 0 else f"FAILED (pytest ended with {self.code})"
        crash = f"; the host crashed in {self.lost}" if self.lost else ""
        return f"Blender {HOSTS[self.name].bpy}: {verdict} in {self.seconds:.0f} s{crash}"


def unpacked() -> Path:
    """Return a folder whose `leapwright` is what the built zip holds."""
    folder = ROOT / "build" / "unpacked"
    packed = build(ROOT / "build" / "leapwright", ROOT / "dist")
    shutil.rmtree(folder, ignore_errors=True)
    with zipfile.ZipFile(packed) as archive:
        archive.extractall(folder / "leapwright")
    return folder


def run(name: str, what: list[str], *, package: Path | None = None, log: Path | None = None) -> Outcome:
    """Run tests with a host, on the checkout or on another package; into a log, which is shown at the end."""
    folder = environment_of(name)
    now = ROOT / "build" / "log" / f"testing-{name}.txt"
    now.parent.mkdir(parents=True, exist_ok=True)
    say(f"Testing with Blender {HOSTS[name].bpy}{' from the zip' if package else ''}: {' '.join(what)}")
    environment = {**os.environ, "LEAPWRIGHT_TEST_NOW": str(now)}
    if package is not None:
        environment |= {"PYTHONPATH": str(package), "LEAPWRIGHT_TEST_PACKAGE": str(package)}
    started = time.monotonic()
    pytest = [str(folder / "bin" / "python"), "-c", RUN, "-q", "--durations=5", *what]
    if log is None:
        code = subprocess.run(pytest, cwd=ROOT, env=environment).returncode
    else:
        with log.open("w") as sink:
            code = subprocess.run(pytest, cwd=ROOT, env=environment, stdout=sink, stderr=sink).returncode
        say(f"\n{log.read_text(encoding='utf-8', errors='replace')}")
    lost = now.read_text(encoding="utf-8") if code < 0 else ""
    outcome = Outcome(name, code, time.monotonic() - started, lost)
    say(str(outcome))
    return outcome


def run_others(names: list[str]) -> list[Outcome]:
    """Run the add-on's tests in each host, on what the zip holds; some side by side."""
    for name in names:  # one after the other: each downloads some 500 MB
        environment_of(name)
    package = unpacked()
    logs = ROOT / "build" / "log"
    with ThreadPoolExecutor(AT_ONCE) as pool:
        started = [pool.submit(run, name, PER_HOST, package=package, log=logs / f"test-{name}.txt") for name in names]
        return [outcome.result() for outcome in started]


def main(names: list[str]) -> int:
    own = (ROOT / ".venv" / "ready").read_text(encoding="utf-8").split()[0]
    if names == ["--others"]:
        outcomes = run_others([name for name in HOSTS if name != own])
    else:
        first, *others = names or [own]
        outcomes = [run(first, EVERYTHING), *(run_others(others) if others else [])]
    say("")
    for outcome in outcomes:
        say(str(outcome))
    return max(outcome.code != 0 for outcome in outcomes)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
