"""A process that works for this one, with a Blender in it where that is asked for: its crash or hang is an answer.

It lives over many questions, since starting Blender takes longer than opening a shot.
"""

import os
import time
from contextlib import suppress
from multiprocessing import get_context, resource_tracker
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess
from typing import Any

from ...analysis.ending import held_back
from ...analysis.errors import LeapwrightError, SourceError
from ...analysis.terminal import tell
from .serving import BEGUN, serve

START_SECONDS = 60.0
NO_BLENDER = (
    "it needs Blender: install it beside Leapwright with `pip install bpy`, or run `blender --command leapwright`"
)


class Worker:
    """One process: `ask` a question, wait until one of `signs` is there or `deadline` has come, then `look`."""

    def __init__(self, user_folder: str) -> None:
        self.user_folder = user_folder
        self.process: BaseProcess | None = None
        self.connection: Connection | None = None
        self.deadline = 0.0
        self.timeout = 0.0
        self.begun = False
        self.name = ""
        self.known: set[str] = set()

    def ask(self, name: str, arguments: dict[str, Any], *, timeout: float) -> None:
        """Ask for "module:function", timeout in seconds from when it begins; start the process first.

        It begins at once where it has been asked before: then its modules, and Blender, are loaded.
        """
        if self.process is None:
            self._start()
        self.name, self.timeout, self.begun = name, timeout, name in self.known
        self.deadline = time.monotonic() + (timeout if self.begun else START_SECONDS)
        assert self.connection is not None
        with suppress(OSError):  # it has died since: `look` will say so
            self.connection.send((name, arguments))

    @property
    def signs(self) -> list[Any]:
        """What `multiprocessing.connection.wait` is to wait for: that it says something, or ends."""
        assert self.process is not None
        return [self.connection, self.process.sentinel]

    def look(self) -> tuple[object] | LeapwrightError | None:
        """Give the answer in a tuple, or a refusal: its own, or that it crashed or hung; None when not done yet."""
        assert self.connection is not None
        try:
            while self.connection.poll():
                said = self.connection.recv()
                if said != BEGUN:
                    return _read(said)
                if not self.begun:
                    self.known.add(self.name)
                    self.begun, self.deadline = True, time.monotonic() + self.timeout
        except (EOFError, OSError):
            return self._crashed()
        if time.monotonic() < self.deadline:
            return None
        self.stop()
        if not self.begun:
            return SourceError(f"Blender could not be started: nothing of it within {START_SECONDS:g} s")
        return SourceError(f"it was not done within {self.timeout:g} s (--timeout)")

    def stop(self) -> None:
        """End the process, at once."""
        process, connection = self.process, self.connection
        self.process = self.connection = None
        self.known.clear()
        if connection is not None:
            connection.close()
        if process is not None:
            process.kill()
            process.join()
            process.close()

    def _start(self) -> None:
        context = get_context("spawn")
        with held_back():  # what it starts takes this on: a Ctrl-C in the terminal is no business of a worker's
            self.connection, theirs = context.Pipe()
            self.process = context.Process(target=serve, args=(theirs, self.user_folder), daemon=True)
            self.process.start()
            theirs.close()

    def _crashed(self) -> LeapwrightError:
        process, begun = self.process, self.begun
        assert process is not None
        process.join(START_SECONDS)
        code = process.exitcode or 0
        self.stop()
        ended = f"signal {-code}" if code < 0 else f"exit code {code}"
        if not begun:
            return SourceError(f"Blender could not be started: its process ended ({ended})")
        return SourceError(f"the process that opened it crashed ({ended})")


def start_tracker() -> None:
    """Start what `multiprocessing` keeps beside its processes, before anything is begun.

    Up to Python 3.12 it lets SIGINT and SIGTERM through when it starts.
    """
    if os.name == "posix":
        with held_back():
            resource_tracker.ensure_running()


def _read(said: object) -> tuple[object] | LeapwrightError:
    """Return an answer as it was sent; a traceback, of a bug, is shown."""
    if isinstance(said, str):
        tell(said)
        return SourceError(f"a fault in Leapwright, please report it: {said.strip().splitlines()[-1]}")
    assert isinstance(said, (tuple, LeapwrightError))
    return said
