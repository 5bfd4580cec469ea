"""Read .blend files in processes of their own: a crash or a hang is one unreadable shot, not the end.

A worker lives over many files, since starting Blender takes longer than opening one. It is asked and answers
through pipes, in pickles; what Blender itself prints goes nowhere.
"""

import os
import pickle
import queue
import subprocess
import sys
import tempfile
import threading
import time
import traceback
from collections.abc import Iterator, Sequence
from contextlib import suppress
from importlib.util import find_spec
from pathlib import Path

from ...analysis.errors import LeapwrightError, SourceError
from ...analysis.shot import Extras, Reading

START_SECONDS = 60.0
MOST_WORKERS = 4
"""Each takes about 300 MB."""
FILES_A_WORKER = 6
"""Fewer do not pay for starting Blender once more: about 0.5 s, opening a small shot some 10 ms."""
TEMPORARY = ("TMPDIR", "TEMP", "TMP")
"""What says where temporary files go."""
NO_BLENDER = (
    "it needs Blender: install it beside Leapwright with `pip install bpy`, or run `blender --command leapwright audit`"
)

Result = tuple[Path, Reading | LeapwrightError, float]


class Worker:
    """A process with a Blender in it, started when first asked and again after it has died."""

    def __init__(self, user_folder: str) -> None:
        self.user_folder = user_folder
        self.process: subprocess.Popen[bytes] | None = None

    def read(self, path: Path, *, track: str | None, timeout: float, extras: Extras | None = None) -> Reading:
        """Let the process read a file. Raises LeapwrightError: its refusal, or that it crashed or hung."""
        if self.process is None:
            self._start()
        answer = self._ask((str(path), track, extras), timeout)
        if isinstance(answer, str):  # a traceback: a bug, which must show
            print(answer, file=sys.stderr)
            raise SourceError(f"a fault in Leapwright, please report it: {answer.splitlines()[-1]}")
        if isinstance(answer, LeapwrightError):
            raise answer
        return answer

    def stop(self) -> None:
        """End the process, at once."""
        process, self.process = self.process, None
        if process is None:
            return
        process.kill()
        process.wait()
        for pipe in (process.stdin, process.stdout):
            with suppress(OSError):  # what was still to be sent to a dead process
                pipe.close()

    def _start(self) -> None:
        serve_here = f"from {__name__} import serve; serve()"
        self.process = subprocess.Popen(
            [sys.executable, "-P", "-c", serve_here],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            # Its own temporary folder too, which Blender leaves behind when it is killed.
            env={**os.environ, **dict.fromkeys(("BLENDER_USER_RESOURCES", *TEMPORARY), self.user_folder)},
        )
        try:
            said = self._ask(None, START_SECONDS)
        except SourceError:
            said = "its process ended"
        if said != "ready":
            self.stop()
            raise SourceError(f"Blender could not be started: {str(said).splitlines()[-1]}")

    def _ask(self, question: object, timeout: float) -> object:
        """Send a question and wait for the answer; kill the process when it takes longer than timeout."""
        process, late = self.process, threading.Event()
        assert process is not None and process.stdin is not None and process.stdout is not None

        def end() -> None:
            late.set()
            process.kill()

        alarm = threading.Timer(timeout, end)
        alarm.start()
        try:
            pickle.dump(question, process.stdin)
            process.stdin.flush()
            return pickle.load(process.stdout)
        except (EOFError, OSError, pickle.UnpicklingError):
            code = process.wait()
            self.stop()
            if late.is_set():
                raise SourceError(f"Blender did not finish reading it within {timeout:g} s (--timeout)") from None
            raise SourceError(
                f"Blender crashed reading it ({f'signal {-code}' if code < 0 else f'exit code {code}'})"
            ) from None
        finally:
            alarm.cancel()


def read_all(
    paths: Sequence[Path], *, track: str | None, jobs: int | None, timeout: float, extras: Extras | None = None
) -> Iterator[Result]:
    """Read files as they are done, each with its reading or refusal and the seconds it took.

    jobs: how many workers; None chooses. Without bpy every file is refused, with how to get it.
    """
    if find_spec("bpy") is None:
        yield from ((path, SourceError(NO_BLENDER), 0.0) for path in paths)
        return
    count = jobs or min(MOST_WORKERS, os.cpu_count() or 1, -(-len(paths) // FILES_A_WORKER))
    waiting: queue.SimpleQueue[Path] = queue.SimpleQueue()
    done: queue.SimpleQueue[Result | BaseException] = queue.SimpleQueue()
    for path in paths:
        waiting.put(path)
    with tempfile.TemporaryDirectory(prefix="leapwright-") as user_folder:
        workers = [Worker(user_folder) for _ in range(min(count, len(paths)))]
        threads = [
            threading.Thread(target=_work, args=(worker, waiting, done, track, timeout, extras), daemon=True)
            for worker in workers
        ]
        for thread in threads:
            thread.start()
        try:
            for _ in paths:
                result = done.get()
                if isinstance(result, BaseException):
                    raise result
                yield result
        finally:
            while not waiting.empty():
                waiting.get()
            for worker in workers:
                worker.stop()
            for thread in threads:
                thread.join()


def _work(
    worker: Worker,
    waiting: "queue.SimpleQueue[Path]",
    done: "queue.SimpleQueue[Result | BaseException]",
    track: str | None,
    timeout: float,
    extras: Extras | None,
) -> None:
    while True:
        try:
            path = waiting.get_nowait()
        except queue.Empty:
            return
        began = time.perf_counter()
        try:
            reading: Reading | LeapwrightError = worker.read(path, track=track, timeout=timeout, extras=extras)
        except LeapwrightError as refusal:
            reading = refusal
        except BaseException as fault:  # carried to the caller's thread, which raises it
            done.put(fault)
            return
        done.put((path, reading, time.perf_counter() - began))


def serve() -> None:
    """Answer questions on stdin until it ends: first that Blender is there, then a reading a path."""
    answers = os.fdopen(os.dup(1), "wb")
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, 1)
    questions = sys.stdin.buffer
    while True:
        try:
            question = pickle.load(questions)
        except EOFError:
            return
        pickle.dump(_answer(question), answers)
        answers.flush()


def _answer(question: tuple[str, str | None, Extras | None] | None) -> object:
    """A Reading, a refusal, or the traceback of a bug."""
    try:
        from .shot import read_shot

        if question is None:
            return "ready"
        path, track, extras = question
        return read_shot(Path(path), track=track, extras=extras)
    except LeapwrightError as refusal:
        return refusal
    except Exception:
        return traceback.format_exc()
