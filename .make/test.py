"""Run the tests once per Blender host: `test.py [X.Y …]`, or `test.py --others` for all but that of .venv.

The first host named runs everything but the benchmarks, and each further one tests/analysis and tests/addon on what
the built zip holds; the others run tests/addon so. Without a name, the host of .venv runs everything.
"""

import shutil
import sys
import time
import zipfile
from concurrent.futures import ThreadPoolExecutor
from contextlib import nullcontext
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from environment import HOSTS, ROOT, environment_of, say
from extension import build
from hosted import Run, run_tests

EVERYTHING = ["tests", "--ignore=tests/bench"]
ADDON = ["tests/addon"]
PER_HOST = ["tests/analysis", *ADDON]
AT_ONCE = 2
"""Hosts that run side by side: a test waits for a process of its own half of the time."""


@dataclass(frozen=True)
class Outcome:
    """How the tests ended in one host."""

    name: str
    run: Run
    seconds: float

    def __str__(self) -> str:
        verdict = "passed" if self.run.code == 0 else f"FAILED (pytest ended with {self.run.code})"
        crash = f"; the host went down in {', '.join(self.run.lost)}" if self.run.lost else ""
        return f"Blender {HOSTS[self.name].bpy}: {verdict}, {self.run.ended} tests in {self.seconds:.0f} s{crash}"


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
    python = environment_of(name) / "bin" / "python"
    record = ROOT / "build" / "log" / f"record-{name}.txt"
    say(f"Testing with Blender {HOSTS[name].bpy}{' from the zip' if package else ''}: {' '.join(what)}")
    own = {"PYTHONPATH": str(package), "LEAPWRIGHT_TEST_PACKAGE": str(package)} if package else {}
    started = time.monotonic()
    words = ["-q", "--durations=5", *what]
    with log.open("w", encoding="utf-8") if log else nullcontext() as sink:
        ended = run_tests(python, words, record, folder=ROOT, environment=own, log=sink, tell=partial(_tell, name))
    if log is not None:
        say(f"\n{log.read_text(encoding='utf-8', errors='replace')}")
    outcome = Outcome(name, ended, time.monotonic() - started)
    say(str(outcome))
    return outcome


def _tell(name: str, ended: int) -> None:
    say(f"  … Blender {HOSTS[name].bpy}: {ended} tests so far")


def run_others(names: list[str], what: list[str]) -> list[Outcome]:
    """Run tests in each host, on what the zip holds; some hosts side by side."""
    for name in names:  # one after the other: each downloads some 500 MB
        environment_of(name)
    package = unpacked()
    logs = ROOT / "build" / "log"
    with ThreadPoolExecutor(AT_ONCE) as pool:
        started = [pool.submit(run, name, what, package=package, log=logs / f"test-{name}.txt") for name in names]
        return [outcome.result() for outcome in started]


def main(names: list[str]) -> int:
    own = (ROOT / ".venv" / "ready").read_text(encoding="utf-8").split()[0]
    if names == ["--others"]:
        outcomes = run_others([name for name in HOSTS if name != own], ADDON)
    else:
        first, *others = names or [own]
        outcomes = [run(first, EVERYTHING), *(run_others(others, PER_HOST) if others else [])]
    say("")
    for outcome in outcomes:
        say(str(outcome))
    return max(outcome.run.code != 0 for outcome in outcomes)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
