"""Tests run in a host that crashes or hangs: the test is named, the rest is run, and nothing passes that failed."""

import sys
from pathlib import Path

import pytest

from tests.house import ROOT

sys.path.insert(0, str(ROOT / ".make"))
from hosted import Run, run_tests

FIRST = "def test_first():\n    pass\n\n\n"
LAST = "\n\ndef test_last():\n    pass\n"
ONCE = """
import os
from pathlib import Path

def test_odd():
    flag = Path("been here")
    if not flag.exists():
        flag.touch()
        {what}
"""


def run(folder: Path, odd: str, silent: float = 60.0) -> Run:
    (folder / "test_three.py").write_text(FIRST + odd + LAST, encoding="utf-8")
    log = folder / "log.txt"
    with log.open("w", encoding="utf-8") as sink:
        return run_tests(Path(sys.executable), ["-q", "-p", "no:cacheprovider", "test_three.py"],
                         folder / "record.txt", folder=folder, log=sink, silent=silent)  # fmt: skip


def counts(folder: Path) -> dict[str, int]:
    began = [line for line in (folder / "record.txt").read_text(encoding="utf-8").splitlines() if "began" in line]
    return {name: sum(line.endswith(name) for line in began) for name in ("first", "odd", "last")}


def test_a_crash_is_named_and_the_rest_is_run_in_a_fresh_process(tmp_path: Path) -> None:
    done = run(tmp_path, ONCE.format(what="os.abort()"))
    assert done == Run(0, 3, ["test_three.py::test_odd"])
    assert counts(tmp_path) == {"first": 1, "odd": 2, "last": 1}
    assert "The host went down in test_three.py::test_odd" in (tmp_path / "log.txt").read_text(encoding="utf-8")


def test_a_test_that_takes_the_host_down_twice_has_failed(tmp_path: Path) -> None:
    done = run(tmp_path, "import os\n\ndef test_odd():\n    os.abort()\n")
    assert done.code != 0
    assert done.lost == ["test_three.py::test_odd"] * 2


def test_what_failed_before_a_crash_has_failed(tmp_path: Path) -> None:
    done = run(tmp_path, "def test_wrong():\n    assert 1 == 2\n" + ONCE.format(what="os.abort()"))
    assert done.code == 1
    assert done.lost == ["test_three.py::test_odd"]


def test_a_hang_is_a_crash(tmp_path: Path) -> None:
    done = run(tmp_path, ONCE.format(what="import time; time.sleep(600)"), silent=10.0)
    assert done == Run(0, 3, ["test_three.py::test_odd"])


def test_a_host_that_hangs_at_its_exit_is_left(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("hosted.LEAVING", 1.0)
    done = run(tmp_path, "import atexit, time\natexit.register(time.sleep, 600)\n\ndef test_odd():\n    pass\n")
    assert done == Run(0, 3, [])


def test_no_test_at_all_is_no_pass(tmp_path: Path) -> None:
    (tmp_path / "test_three.py").write_text("", encoding="utf-8")
    done = run_tests(Path(sys.executable), ["-q", "-k", "nothing", "test_three.py"], tmp_path / "record.txt",
                     folder=tmp_path)  # fmt: skip
    assert done == Run(5, 0, [])
