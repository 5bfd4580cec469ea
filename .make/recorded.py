"""Run pytest inside a Blender host and keep a record of it: `recorded.py RECORD [pytest's own arguments]`.

A host may crash, or hang at its exit. So each test leaves a line in the record when it begins, fails and ends, and the
verdict follows when pytest is through. Tests that have ended, by the record, are not run again.
"""

import atexit
import os
import sys
from pathlib import Path

import pytest


class Recorder:
    """A plugin of pytest's that writes the record, and leaves out what is in it."""

    def __init__(self, record: Path) -> None:
        self.record = record
        lines = record.read_text(encoding="utf-8").splitlines() if record.exists() else []
        self.done = {line.removeprefix("ended ") for line in lines if line.startswith("ended ")}

    def write(self, line: str) -> None:
        with self.record.open("a", encoding="utf-8") as file:
            file.write(f"{line}\n")

    def pytest_collection_modifyitems(self, config: pytest.Config, items: list[pytest.Item]) -> None:
        again = [item for item in items if item.nodeid in self.done]
        config.hook.pytest_deselected(items=again)
        items[:] = [item for item in items if item.nodeid not in self.done]

    def pytest_runtest_logstart(self, nodeid: str) -> None:
        self.write(f"began {nodeid}")

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        if report.failed:
            self.write(f"failed {report.nodeid}")

    def pytest_runtest_logfinish(self, nodeid: str) -> None:
        self.write(f"ended {nodeid}")


if __name__ == "__main__":
    # As `python -m pytest` has it: the checkout is found first, and not the folder of this file.
    sys.path[0] = ""
    recorder = Recorder(Path(sys.argv[1]))
    code = pytest.main(sys.argv[2:], plugins=[recorder])
    recorder.write(f"verdict {int(code)}")
    atexit._run_exitfuncs()
    sys.stdout.flush()
    # Blender 4.5 as a module may wait for ever in a destructor of its own, after all else is done: leave before it.
    os._exit(code)
