"""A worker reads file after file; its crash or its hang is one unreadable shot."""

import os
import signal
import threading
import time
from pathlib import Path

import pytest
from leapwright.addon.shots.worker import NO_BLENDER, Worker, read_all
from leapwright.analysis import SourceError

from tests.addon.day import keyed, saved


@pytest.fixture
def worker(tmp_path):
    with_blender = Worker(str(tmp_path))
    yield with_blender
    with_blender.stop()


def stuck(tmp_path: Path) -> Path:
    """Make a pipe nobody writes to: whoever opens it hangs."""
    os.mkfifo(tmp_path / "stuck.blend")
    return tmp_path / "stuck.blend"


def good(tmp_path: Path) -> Path:
    keyed()
    return saved(tmp_path / "tq010.blend")


def test_a_worker_that_hangs_is_ended_and_the_next_file_is_read(worker, tmp_path):
    with pytest.raises(SourceError, match=r"Blender did not finish reading it within 0\.5 s \(--timeout\)"):
        worker.read(stuck(tmp_path), track=None, timeout=0.5)
    assert worker.process is None
    assert len(worker.read(good(tmp_path), track=None, timeout=60).tracks) == 1


@pytest.mark.parametrize("end", [signal.SIGSEGV, signal.SIGKILL])
def test_a_worker_that_crashes_makes_one_file_unreadable_and_the_next_is_read(worker, tmp_path, end):
    path = good(tmp_path)
    worker.read(path, track=None, timeout=60)
    first = worker.process.pid
    threading.Timer(0.3, os.kill, (first, end)).start()
    with pytest.raises(SourceError, match=rf"Blender crashed reading it \(signal {end.value}\)"):
        worker.read(stuck(tmp_path), track=None, timeout=60)
    assert len(worker.read(path, track=None, timeout=60).tracks) == 1
    assert worker.process.pid != first


def test_a_worker_lives_over_many_files(worker, tmp_path):
    path = good(tmp_path)
    worker.read(path, track=None, timeout=60)
    first = worker.process.pid
    for _ in range(5):
        worker.read(path, track=None, timeout=60)
    assert worker.process.pid == first


def test_leaving_off_early_ends_every_worker(tmp_path):
    path = good(tmp_path)
    reading = read_all([path, stuck(tmp_path)], track=None, jobs=2, timeout=60)
    assert next(reading)[0] == path
    began = time.perf_counter()
    reading.close()
    assert time.perf_counter() - began < 20  # not the 60 s that the hanging one would take


def test_a_fault_of_our_own_in_a_worker_shows_its_traceback(worker, tmp_path, monkeypatch, capsys):
    monkeypatch.setattr(worker, "_ask", lambda question, timeout: "Traceback …\nKeyError: 'goat'")
    worker.process = object()
    with pytest.raises(SourceError, match="a fault in Leapwright, please report it: KeyError: 'goat'"):
        worker.read(tmp_path / "a.blend", track=None, timeout=1)
    worker.process = None
    assert "Traceback" in capsys.readouterr().err


def test_without_blender_the_row_says_how_to_get_it(tmp_path, monkeypatch):
    monkeypatch.setattr("leapwright.addon.shots.worker.find_spec", lambda name: None)
    ((path, refusal, _),) = read_all([tmp_path / "a.blend"], track=None, jobs=None, timeout=1)
    assert path == tmp_path / "a.blend" and str(refusal) == NO_BLENDER
