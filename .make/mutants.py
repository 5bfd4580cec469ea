"""Run tests on a tree that changes between runs: quickly, those first that have failed most.

Every run is a fork of one process that has loaded what does not change, so that it starts in no time. A run that
takes far longer than it should is ended; the test that it was at counts as failed.
"""

from __future__ import annotations

import os
import signal
import sys
from collections import Counter
from pathlib import Path

import numpy  # noqa: F401 - loaded here once, before any run
import pytest

SLOW, GRACE = 3.0, 10.0
"""A run may take so many times its own seconds, and so many more, of the processor's time: others may be at work."""
RARE = 0.2
"""Kills that a test is credited with before its first: what comes first is what kills most a second (ours)."""


class Watch:
    """A plugin of pytest for one run: put the tests in order, report each by a line in a pipe."""

    def __init__(self, order: dict[str, int], pipe: int) -> None:
        self.order, self.pipe = order, pipe

    def pytest_collection_modifyitems(self, items: list[pytest.Item]) -> None:
        items[:] = [item for item in items if not self.order or item.nodeid in self.order]
        items.sort(key=lambda item: self.order.get(item.nodeid, 0))

    def pytest_runtest_logstart(self, nodeid: str) -> None:
        self.tell("began", nodeid, 0.0)

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        self.tell("failed" if report.failed else "passed", report.nodeid, report.duration)

    def pytest_collectreport(self, report: pytest.CollectReport) -> None:
        if report.failed:
            self.tell("failed", report.nodeid, 0.0)

    def tell(self, what: str, test: str, seconds: float) -> None:
        os.write(self.pipe, f"{what}\t{seconds}\t{test}\n".encode())


class Stage:
    """A number of tests, run until one fails."""

    def __init__(self, tests: tuple[str, ...], tree: Path, path: Path, *, longest: float = float("inf")) -> None:
        self.tests, self.tree, self.path, self.longest = tests, tree, path, longest
        self.seconds: dict[str, float] = {}
        self.kills: Counter[str] = Counter()
        self.whole = 0.0

    def measure(self) -> str | None:
        """Take each test's time on the tree as it is, and leave out the long ones; return one that fails there."""
        failed, took = self._run()
        self.whole = sum(took.values())
        self.seconds = {test: seconds for test, seconds in took.items() if seconds <= self.longest}
        return failed

    def killer(self) -> str | None:
        """Return the test that fails, hangs or crashes on the tree as it is now; None when all pass."""
        failed, took = self._run()
        if failed:
            self.kills[failed] += 1
            # What tests share, the first of them pays for.
            self.seconds[failed] = max(self.seconds.get(failed, 0.0), took.get(failed, 0.0))
        return failed

    def _run(self) -> tuple[str | None, dict[str, float]]:
        reading, writing = os.pipe()
        child = os.fork()
        if not child:
            os.close(reading)
            self._be_a_run(writing)
        os.close(writing)
        with os.fdopen(reading, encoding="utf-8") as lines:
            told = [line.rstrip("\n").split("\t") for line in lines]
        _, status = os.waitpid(child, 0)
        took: Counter[str] = Counter()
        for _, seconds, test in told:
            took[test] += float(seconds)
        failed = next((test for what, _, test in told if what == "failed"), None)
        if not failed and status:
            failed = told[-1][2] if told else "the start"
        return failed, dict(took)

    def _be_a_run(self, pipe: int) -> None:
        """Run the tests in this process, which is a fork, and end it."""
        os.chdir(self.tree)
        silent = os.open(os.devnull, os.O_RDWR)
        for stream in (0, 1, 2):
            os.dup2(silent, stream)
        os.environ |= {"PYTHONPATH": str(self.path), "LEAPWRIGHT_TEST_PACKAGE": str(self.path)}
        sys.path.insert(0, str(self.path))
        sys.dont_write_bytecode = bool(self.seconds)
        order = sorted(self.seconds, key=lambda test: self.seconds[test] / (self.kills[test] + RARE))
        watch = Watch({test: place for place, test in enumerate(order)}, pipe)
        if self.whole:
            signal.setitimer(signal.ITIMER_PROF, SLOW * self.whole + GRACE)
        code = pytest.main(["-x", "-q", "-p", "no:cacheprovider", *self.tests], plugins=[watch])
        os._exit(int(code != 0))
