"""Work on many files at once in processes of their own: one crash or hang is one refusal, not the end."""

import os
import tempfile
import time
from collections import deque
from collections.abc import Generator, Iterator, Sequence
from dataclasses import dataclass
from multiprocessing.connection import wait
from typing import Any

from ...analysis.ending import held_back, let_through
from ...analysis.errors import LeapwrightError, SettingsError
from .worker import Worker, start_tracker

MOST_WORKERS = 4
"""Most workers at a time: each takes about 300 MB."""
FILES_A_WORKER = 6
"""Files for which one more worker pays: starting Blender costs about 0.5 s, opening a small shot some 10 ms."""


Question = tuple[str, dict[str, Any]]
"""A function, as `serve` names it, and its keyword arguments."""


@dataclass(frozen=True, slots=True)
class Answer:
    """What came of a question.

    place    of the question in the list
    result   what the function gave; None with a refusal
    seconds  from asking to the answer
    """

    place: int
    result: Any
    refusal: LeapwrightError | None
    seconds: float


def ask_each(questions: Sequence[Question], *, jobs: int | None, timeout: float) -> Generator[Answer, None, None]:
    """Ask each question; give the answers as they come.

    jobs: how many workers; None chooses. timeout: seconds, the longest wait for one answer.
    """
    if not questions:
        return
    count = jobs or min(MOST_WORKERS, os.cpu_count() or 1, -(-len(questions) // FILES_A_WORKER))
    start_tracker()
    with held_back(), temporary_folder() as user_folder:
        workers = [Worker(user_folder) for _ in range(min(count, len(questions)))]
        try:
            with let_through():
                yield from _answers(workers, questions, timeout)
        finally:
            for worker in workers:
                worker.stop()


def temporary_folder() -> "tempfile.TemporaryDirectory[str]":
    """Make a folder for what Blender keeps. Raises SettingsError where there is no place for it."""
    try:
        return tempfile.TemporaryDirectory(prefix="leapwright-", ignore_cleanup_errors=True)
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        raise SettingsError(f"Blender needs a folder for temporary files: {reason}") from None


def ask(question: Question, *, timeout: float) -> Any:
    """Ask one question in a process of its own. Raises LeapwrightError: a refusal, or that it crashed or hung."""
    (answer,) = ask_each([question], jobs=1, timeout=timeout)
    if answer.refusal is not None:
        raise answer.refusal
    return answer.result


def _answers(workers: Sequence[Worker], questions: Sequence[Question], timeout: float) -> Iterator[Answer]:
    waiting = deque(range(len(questions)))
    busy: dict[Worker, tuple[int, float]] = {}
    while waiting or busy:
        for worker in workers:
            if waiting and worker not in busy:
                place = waiting.popleft()
                busy[worker] = place, time.perf_counter()
                worker.ask(*questions[place], timeout=timeout)
        soonest = min(worker.deadline for worker in busy)
        wait([sign for worker in busy for sign in worker.signs], max(soonest - time.monotonic(), 0.0))
        for worker in list(busy):
            said = worker.look()
            if said is None:
                continue
            place, began = busy.pop(worker)
            spent = time.perf_counter() - began
            yield Answer(place, None, said, spent) if isinstance(said, LeapwrightError) else Answer(
                place, said[0], None, spent
            )
