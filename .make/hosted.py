"""Run tests in one Blender host through its crashes: the test is named, and the rest goes on in a fresh process."""

import os
import subprocess
import sys
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import IO

RECORDED = Path(__file__).with_name("recorded.py")
MOST = 4
"""Crashes after which a host is given up."""
SILENT = 900.0
"""Seconds without a word from a test after which its process is taken for hung."""
LEAVING = 30.0
"""Seconds that a host may take to end once its verdict is known."""
MINUTE = 60.0
NOTHING_RUN = 5
"""Pytest's own code for no test at all: here, none that was left to run."""


@dataclass(frozen=True)
class Run:
    """How the tests of one host ended: pytest's code (0: passed), how many ended, and where the host went down."""

    code: int
    ended: int
    lost: list[str] = field(default_factory=list)


def run_tests(
    python: Path,
    what: Sequence[str],
    record: Path,
    *,
    folder: Path,
    environment: dict[str, str] | None = None,
    log: IO[str] | None = None,
    silent: float = SILENT,
    tell: Callable[[int], None] | None = None,
) -> Run:
    """Run pytest with a host's Python until it has a verdict; a test that takes the host down twice has failed.

    What pytest says goes into the log; then `tell` is called each minute with how many tests have ended.
    """
    record.parent.mkdir(parents=True, exist_ok=True)
    record.unlink(missing_ok=True)
    command = [str(python), str(RECORDED), str(record), *what]
    own = {**os.environ, **(environment or {})}
    lost: list[str] = []
    while True:
        process = subprocess.Popen(command, cwd=folder, env=own, stdout=log, stderr=log)
        _wait(process, record, silent, tell if log else None)
        lines = _lines(record)
        verdict = next((int(line.split()[1]) for line in lines if line.startswith("verdict ")), None)
        ended = _ended(lines)
        if verdict is not None:
            failed = any(line.startswith("failed ") for line in lines)
            kept = 0 if verdict == NOTHING_RUN and ended else verdict
            return Run(kept or int(failed), ended, lost)
        lost.append(_running(lines))
        print(f"The host went down in {lost[-1]}", file=log or sys.stdout, flush=True)
        if lost.count(lost[-1]) > 1 or len(lost) > MOST:
            return Run(process.returncode or 1, ended, lost)


def _lines(record: Path) -> list[str]:
    return record.read_text(encoding="utf-8").splitlines() if record.exists() else []


def _ended(lines: list[str]) -> int:
    return sum(line.startswith("ended ") for line in lines)


def _running(lines: list[str]) -> str:
    """Name the test that had begun and not ended."""
    if lines and lines[-1].startswith(("began ", "failed ")):
        return lines[-1].split(" ", 1)[1]
    return "no test, but between two or before the first"


def _wait(
    process: "subprocess.Popen[bytes]", record: Path, silent: float, tell: Callable[[int], None] | None
) -> None:
    """Wait for the process; kill it when it is silent for too long, or does not leave after its verdict."""
    started = told = time.time()
    while process.poll() is None:
        time.sleep(0.2)
        last = max(started, record.stat().st_mtime) if record.exists() else started
        over = any(line.startswith("verdict ") for line in _lines(record)[-1:])
        if time.time() - last > (LEAVING if over else silent):
            process.kill()
            process.wait()
        if tell is not None and time.time() - told > MINUTE:
            told = time.time()
            tell(_ended(_lines(record)))
