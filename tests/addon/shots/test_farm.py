"""A day that a Dask cluster reads equals the day read here, to the byte, whatever happens to a machine of the cluster.
"""

import json
import os
import re
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from pathlib import Path

import pytest
from leapwright.addon import command
from leapwright.addon.shots import farm

from tests.addon.day import keyed, saved
from tests.analysis.day import track_file

CALL = "from leapwright.addon.command import command_line; command_line()"
WALL_TIME = re.compile(r'"seconds": [0-9.]+')
SHOTS, KILLED_AT = 12, 4
START = 60.0


@dataclass
class Cluster:
    """A scheduler on this machine alone, and its workers, by their names."""

    address: str
    workers: dict[str, subprocess.Popen]


def dask(*words: object) -> subprocess.Popen:
    """Start a command of Dask's; it ends when its standard input ends or when it is told to."""
    return subprocess.Popen([sys.executable, "-m", "dask", *map(str, words)], stdin=subprocess.DEVNULL,
                            stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)  # fmt: skip


@contextmanager
def cluster(folder: Path, **workers: tuple[str, ...]) -> Iterator[Cluster]:
    """Start a scheduler on a free port of the loopback interface, and workers of one thread each."""
    file, running = folder / "scheduler.json", {}
    with ExitStack() as ends:
        def run(*words: object) -> subprocess.Popen:
            process = ends.enter_context(dask(*words))
            ends.callback(process.wait, 20.0)
            ends.callback(process.terminate)
            return process

        run("scheduler", "--host", "127.0.0.1", "--port", 0, "--no-dashboard", "--scheduler-file", file)
        until = time.monotonic() + START
        while not file.exists() or not file.read_text().strip():
            assert time.monotonic() < until, "the scheduler did not start"
            time.sleep(0.05)
        address = json.loads(file.read_text())["address"]
        for name, options in workers.items():
            running[name] = run("worker", address, "--name", name, "--nthreads", 1, "--no-dashboard",
                                "--local-directory", folder, *options)  # fmt: skip
        if workers:
            with farm.Client(address, set_as_default=False) as client:
                client.wait_for_workers(len(workers), timeout=START)
        yield Cluster(address, running)


@pytest.fixture
def two(tmp_path: Path) -> Iterator[Cluster]:
    """Yield a cluster of two workers: one that Dask restarts by itself when it ends, and one without that."""
    (tmp_path / "dask").mkdir()
    with cluster(tmp_path / "dask", watched=(), alone=("--no-nanny",)) as running:
        yield running


@pytest.fixture
def dailies(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Shots of one hop, a track file and one that is no shot; the day is named as seen from the folder above."""
    folder = tmp_path / "dailies"
    folder.mkdir()
    keyed()
    whole = saved(folder / "tq000.blend").read_bytes()
    for number in range(1, SHOTS):
        (folder / f"tq{number:03}.blend").write_bytes(whole)
    track_file(folder / "tq900.json")
    (folder / "tq901.blend").write_bytes(whole[: len(whole) // 2])
    monkeypatch.chdir(tmp_path)
    return Path("dailies")


def text_of(file: Path) -> str:
    """Return what was written, without the seconds that each shot took, since those never repeat."""
    return WALL_TIME.sub('"seconds": 0', file.read_text())


def test_the_figures_of_a_cluster_are_those_of_one_machine_to_the_byte(two, dailies):
    words = ["audit", str(dailies), "--no-cache", "--timeout", "60"]
    assert command.main([*words, "--jobs", "2", "--json", "here.json"]) == 3
    assert command.main([*words, "--scheduler", two.address, "--json", "farm.json"]) == 3
    assert text_of(Path("farm.json")) == text_of(Path("here.json"))
    assert len(json.loads(Path("here.json").read_text())["shots"]) == SHOTS + 2


def test_killing_a_worker_in_the_middle_loses_nothing(two, dailies):
    words = ["audit", str(dailies), "--no-cache", "--timeout", "60"]
    call = [sys.executable, "-c", CALL, *words, "--scheduler", two.address, "--json", "farm.json"]
    process = subprocess.Popen(call, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True)
    for line in process.stderr:
        if line.startswith(f"[{KILLED_AT}/"):
            os.kill(two.workers["alone"].pid, signal.SIGKILL)
    assert process.wait() == 3 and two.workers["alone"].wait() == -signal.SIGKILL
    assert command.main([*words, "--jobs", "1", "--json", "here.json"]) == 3
    assert text_of(Path("farm.json")) == text_of(Path("here.json"))


def test_a_shot_that_hangs_on_the_cluster_is_a_row(two, dailies, tmp_path):
    words = ["audit", "dailies/tq000.blend", "dailies/tq001.blend", "--no-cache", "--scheduler", two.address]
    assert command.main([*words, "--timeout", "0.001", "--json", "farm.json"]) == 3
    shots = json.loads(Path("farm.json").read_text())["shots"]
    assert {shot.get("reason") for shot in shots} == {"it was not done within 0.001 s (--timeout)"}


def test_a_scheduler_that_does_not_answer_is_refused_and_nothing_written(dailies, monkeypatch, capsys):
    monkeypatch.setattr(farm, "SCHEDULER_SECONDS", 0.3)
    for address, why in (
        ("tcp://127.0.0.1:1", "Timed out"), ("nowhere", "missing port"), ("post://a:1", "unknown address scheme")
    ):  # fmt: skip
        words = ["audit", str(dailies), "--no-cache", "--json", "farm.json", "--scheduler", address]
        assert command.main(words) == 2
        said = capsys.readouterr().err
        assert f"no Dask scheduler answers at {address}" in said and why in said
    assert not Path("farm.json").exists()


def test_a_scheduler_without_workers_and_workers_of_another_version_are_refused(dailies, tmp_path, monkeypatch, capsys):
    (tmp_path / "dask").mkdir()
    words = ["audit", str(dailies), "--no-cache", "--json", "farm.json", "--scheduler"]
    with cluster(tmp_path / "dask") as empty, monkeypatch.context() as impatient:
        impatient.setattr(farm, "SCHEDULER_SECONDS", 1.0)
        assert command.main([*words, empty.address]) == 2
        assert "has no workers" in capsys.readouterr().err
    (tmp_path / "dask" / "scheduler.json").unlink(missing_ok=True)
    with cluster(tmp_path / "dask", one=()) as old:
        monkeypatch.setattr(farm, "made_with", lambda: "Leapwright 9.9.9")
        assert command.main([*words, old.address]) == 2
        assert "here is Leapwright 9.9.9" in capsys.readouterr().err
    assert not Path("farm.json").exists()


def test_without_dask_a_cluster_is_refused_and_nothing_written(dailies):
    code = f"import sys; sys.modules['distributed'] = None; {CALL}"
    words = ["audit", str(dailies), "--no-cache", "--json", "farm.json", "--scheduler", "tcp://127.0.0.1:1"]
    done = subprocess.run([sys.executable, "-c", code, *words], capture_output=True, text=True)
    assert done.returncode == 2 and "pip install 'leapwright[farm]'" in done.stderr
    assert not Path("farm.json").exists()


def test_an_audit_without_a_cluster_never_loads_dask(dailies):
    code = f"import sys, atexit; atexit.register(lambda: print('distributed' in sys.modules)); {CALL}"
    words = ["audit", "dailies/tq000.blend", "--no-cache", "--json", "a.json"]
    done = subprocess.run([sys.executable, "-c", code, *words], capture_output=True, text=True)
    assert done.returncode == 0 and done.stdout.rstrip().endswith("False")


def test_a_blender_names_its_version_the_same_loaded_or_not():
    code = "from leapwright.analysis.cache import made_with; print(made_with()); import bpy; print(made_with())"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    before, after = (line for line in done.stdout.splitlines() if line.startswith("Leapwright "))  # Blender may talk
    assert before == after and ", Blender none" not in before
