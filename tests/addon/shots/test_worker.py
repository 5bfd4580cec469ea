"""A worker answers question after question; its crash or its hang is a refusal."""

import os
import signal
import threading
import time
from multiprocessing.connection import wait
from pathlib import Path

import pytest
from leapwright.addon.shots import worker as workers
from leapwright.addon.shots.pool import ask, ask_each
from leapwright.addon.shots.worker import Worker
from leapwright.analysis import Settings, SourceError
from leapwright.analysis.day import DayRequest

from tests.addon.day import keyed, saved

AUDIT = ".shot:audit_file"
WAY = DayRequest(Settings())


@pytest.fixture
def worker(tmp_path):
    alone = Worker(str(tmp_path))
    yield alone
    alone.stop()


def answered(worker: Worker, name: str, timeout: float = 60.0, **arguments: object) -> object:
    worker.ask(name, arguments, timeout=timeout)
    while (said := worker.look()) is None:
        wait(worker.signs, max(worker.deadline - time.monotonic(), 0))
    return said


def stuck(tmp_path: Path) -> dict[str, object]:
    """Make a pipe nobody writes to: whoever opens it hangs."""
    os.mkfifo(tmp_path / "stuck.blend")
    return {"path": tmp_path / "stuck.blend", "way": WAY}


@pytest.fixture
def good(tmp_path: Path) -> dict[str, object]:
    keyed()
    return {"path": saved(tmp_path / "tq010.blend"), "way": WAY}


def test_a_worker_that_hangs_is_ended_and_the_next_file_is_read(worker, tmp_path, good):
    refusal = answered(worker, AUDIT, timeout=0.5, **stuck(tmp_path))
    assert str(refusal) == "it was not done within 0.5 s (--timeout)" and worker.process is None
    (shot,) = answered(worker, AUDIT, **good)
    assert len(shot.tracks) == 1


@pytest.mark.parametrize("end", [signal.SIGSEGV, signal.SIGKILL])
def test_a_worker_that_crashes_makes_one_file_unreadable_and_the_next_is_read(worker, tmp_path, good, end):
    answered(worker, AUDIT, **good)
    first = worker.process.pid
    threading.Timer(0.3, os.kill, (first, end)).start()
    refusal = answered(worker, AUDIT, **stuck(tmp_path))
    assert isinstance(refusal, SourceError)
    assert str(refusal) == f"the process that opened it crashed (signal {end.value})"
    (shot,) = answered(worker, AUDIT, **good)
    assert len(shot.tracks) == 1 and worker.process.pid != first


def test_a_worker_lives_over_many_files_and_a_refusal(worker, tmp_path, good):
    answered(worker, AUDIT, **good)
    first = worker.process.pid
    assert str(answered(worker, AUDIT, path=tmp_path / "gone.blend", way=WAY)).startswith("it cannot be opened: ")
    for _ in range(5):
        answered(worker, AUDIT, **good)
    assert worker.process.pid == first


@pytest.mark.parametrize(("end", "said"), [
    (signal.SIGKILL, "the process that opened it crashed (signal 9)"),
    (signal.SIGSTOP, "it was not done within 1 s (--timeout)"),
])  # fmt: skip
def test_a_worker_that_ends_or_stops_between_two_files_costs_the_second(worker, good, end, said):
    answered(worker, AUDIT, **good)
    os.kill(worker.process.pid, end)
    assert str(answered(worker, AUDIT, timeout=1.0, **good)) == said
    assert len(answered(worker, AUDIT, **good)) == 1


def test_leaving_off_early_ends_every_worker(tmp_path, good):
    questions = [(AUDIT, good), (AUDIT, stuck(tmp_path))]
    answers = ask_each(questions, jobs=2, timeout=60)
    assert next(answers).place == 0
    began = time.perf_counter()
    answers.close()
    assert time.perf_counter() - began < 20  # not the 60 s that the hanging one would take


def test_each_answer_says_whose_it_is_whatever_is_done_first(tmp_path, good):
    names = [tmp_path / f"tq{number}.json" for number in range(7)]
    questions = [(AUDIT, good), *(("...analysis.day:audit_track_file", {"path": path, "way": WAY}) for path in names)]
    found = {answer.place: answer for answer in ask_each(questions, jobs=3, timeout=60)}
    assert sorted(found) == list(range(8)) and found[0].result.path.endswith("tq010.blend")
    assert {str(found[place].refusal) for place in range(1, 8)} == {"there is no such file"}


def test_a_fault_of_our_own_in_a_worker_shows_its_traceback(tmp_path, capsys):
    with pytest.raises(SourceError, match=r"a fault in Leapwright, please report it: TypeError: .*half_a_goat"):
        ask((AUDIT, {"half_a_goat": tmp_path}), timeout=60)
    assert "Traceback (most recent call last)" in capsys.readouterr().err


def test_a_worker_whose_blender_does_not_start_says_so(tmp_path, monkeypatch):
    with pytest.raises(SourceError, match="Blender could not be started: ModuleNotFoundError: No module named"):
        ask((".goat:audit_file", {}), timeout=60)
    monkeypatch.setattr(workers, "START_SECONDS", 0.0)
    with pytest.raises(SourceError, match="Blender could not be started: nothing of it within 0 s"):
        ask((AUDIT, stuck(tmp_path)), timeout=60)
