"""Work on many files on the machines of a Dask cluster, in the same processes of their own as on this one.

The scheduler gives what a lost machine was at to another. Every machine finds the shots under the same paths.
"""

import asyncio
import os
import time
from collections import deque
from collections.abc import Generator, Iterator, Sequence
from contextlib import contextmanager, suppress
from multiprocessing import current_process
from multiprocessing.connection import wait
from typing import Any, cast
from uuid import uuid4

from distributed import Client, Future, KilledWorker, as_completed, get_worker
from distributed.comm.core import connect
from distributed.diagnostics.plugin import WorkerPlugin
from distributed.security import Security

from ...analysis.cache import made_with
from ...analysis.ending import held_back, let_through
from ...analysis.errors import LeapwrightError, SettingsError, SourceError
from .pool import Answer, Question, temporary_folder
from .worker import Worker, start_tracker

SCHEDULER_SECONDS = 10.0
"""Seconds to wait for a scheduler to answer, and then for it to have a worker."""
Said = tuple[Any, LeapwrightError | None, float]
"""What came of a question: as in Answer."""


def ask_farm(questions: Sequence[Question], *, scheduler: str, timeout: float) -> Generator[Answer, None, None]:
    """Ask each question on the cluster of a scheduler; give the answers as they come.

    timeout: seconds, the longest wait for one answer from when it begins. Raises SettingsError where there is no
    such scheduler, or its machines have other versions than this one.
    """
    if not questions:
        return
    with held_back(), _client(scheduler) as client, _hands(client) as name, let_through():
        places = {client.submit(_answer, question, timeout, name, pure=False): place
                  for place, question in enumerate(questions)}  # fmt: skip
        try:
            for future in as_completed(list(places), loop=client.loop):
                result, refusal, seconds = _said(future)
                yield Answer(places[future], result, refusal, seconds)
        finally:
            client.cancel(list(places), force=True)


@contextmanager
def _client(scheduler: str) -> Iterator[Client]:
    async def there() -> None:
        comm = await connect(scheduler, timeout=SCHEDULER_SECONDS, **Security().get_connection_args("client"))
        await comm.close()

    try:
        with let_through():
            asyncio.run(there())  # a Client that fails to connect complains for long
        client = Client(scheduler, timeout=SCHEDULER_SECONDS, set_as_default=False)
    except Exception as error:  # whatever answers there is no Dask
        raise SettingsError(f"no Dask scheduler answers at {scheduler}: {error}") from None
    with client:
        try:
            client.wait_for_workers(1, timeout=SCHEDULER_SECONDS)
        except TimeoutError:
            raise SettingsError(f"the Dask scheduler at {scheduler} has no workers") from None
        yield client


@contextmanager
def _hands(client: Client) -> Iterator[str]:
    """Let every worker of the cluster, and each that joins it, have Hands of the name that is given."""
    name = f"leapwright-{uuid4().hex}"
    try:
        try:
            client.register_plugin(Hands(made_with()), name=name)
        except LeapwrightError:
            raise
        except Exception as error:  # one that has no Leapwright, mostly
            raise SettingsError(f"a worker of the cluster cannot begin: {type(error).__name__}: {error}") from None
        yield name
    finally:
        with suppress(Exception):  # the cluster may be gone
            client.unregister_worker_plugin(name)


def _said(future: "Future[Said]") -> Said:
    try:
        return future.result()
    except KilledWorker:
        return None, SourceError("every worker of the cluster that read it died"), 0.0
    except (Exception, asyncio.CancelledError) as error:  # canceled where the scheduler is lost
        return None, SourceError(f"the cluster gave no answer: {type(error).__name__}: {error}"), 0.0


def _answer(question: Question, timeout: float, name: str) -> Said:
    return cast(Hands, get_worker().plugins[name]).answer(question, timeout)


class Hands(WorkerPlugin):
    """What a worker of the cluster has: processes with a Blender in them, as many as it has threads at work.

    with_what   the versions it must have, as made_with gives them
    """

    def __init__(self, with_what: str) -> None:
        self.with_what = with_what

    def setup(self, worker: Any) -> None:
        """Begin. Raises SettingsError for other versions, which may give other figures."""
        if made_with() != self.with_what:
            raise SettingsError(f"{worker.address} has {made_with()}; here is {self.with_what}")
        os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
        current_process().daemon = False  # as Dask starts its workers, they may have no processes of their own
        start_tracker()
        self.folder, self.idle, self.over = temporary_folder(), deque[Worker](), False

    def teardown(self, worker: Any) -> None:
        """End the processes; one that is at work ends when it is done."""
        self.over = True
        while self.idle:
            self.idle.pop().stop()
        self.folder.cleanup()

    def answer(self, question: Question, timeout: float) -> Said:
        """Ask a process that is idle, or one more."""
        hand = self.idle.pop() if self.idle else Worker(self.folder.name)
        began = time.perf_counter()
        try:
            hand.ask(*question, timeout=timeout)
            while (said := hand.look()) is None:
                wait(hand.signs, max(hand.deadline - time.monotonic(), 0.0))
        finally:
            hand.stop() if self.over else self.idle.append(hand)
        spent = time.perf_counter() - began
        return (None, said, spent) if isinstance(said, LeapwrightError) else (said[0], None, spent)
