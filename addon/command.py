"""`leapwright`, with Blender where a shot asks for it; the same as `blender --command leapwright`."""

import os
import signal
import sys
import threading
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from types import FrameType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from ..analysis.errors import LeapwrightError
    from ..analysis.shot import Extras, Reading

NAME = "leapwright"
ENDINGS = ("SIGTERM", "SIGHUP")
"""Signals that ask to end; Ctrl-C is Python's own business. The second is unknown to Windows."""


def main(argv: Sequence[str] | None = None) -> int:
    """Run a call of the command; return its exit code: 0 done, 1 found, 2 wrong call, 3 unreadable shot.

    Raises SystemExit with 128 + its number, as shells count, for a signal that asks to end.
    """
    # Before numpy is loaded: its threads cost more than they bring on matrices of a few rows, half the time
    # of a day's audit.
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    from ..analysis import command
    from .retiming import command as retime_command

    with _ending_in_order():
        return command.main(argv, read_blends=read_blends, more=(retime_command,))


@contextmanager
def _ending_in_order() -> Iterator[None]:
    """Let signals that ask to end raise, so that workers and their folder go too; a running Blender has its own way."""

    def leave(number: int, _frame: FrameType | None) -> None:
        raise SystemExit(128 + number)

    known = [getattr(signal, name) for name in ENDINGS if hasattr(signal, name)]
    if in_blender() or threading.current_thread() is not threading.main_thread():
        known = []
    before = {number: signal.signal(number, leave) for number in known if signal.getsignal(number) is signal.SIG_DFL}
    try:
        yield
    finally:
        for number, handler in before.items():
            signal.signal(number, handler)


def read_blends(
    paths: Sequence[Path], *, track: str | None, jobs: int | None, timeout: float, extras: "Extras | None" = None
) -> "Iterator[tuple[Path, Reading | LeapwrightError, float]]":
    """Read .blend files as they are done: by worker processes, or here when this is a running Blender."""
    if in_blender():
        from .shots.shot import read_each

        return read_each(paths, track=track, extras=extras)
    from .shots.worker import read_all

    return read_all(paths, track=track, jobs=jobs, timeout=timeout, extras=extras)


def in_blender() -> bool:
    """Say whether this Python runs inside a Blender, rather than Blender inside this Python."""
    bpy = sys.modules.get("bpy")
    return bpy is not None and bool(bpy.app.binary_path)  # empty where Blender is a module


def register() -> object:
    """Make `blender --command leapwright` known; return what `unregister` needs."""
    import bpy

    return bpy.utils.register_cli_command(NAME, main)


def unregister(handle: object) -> None:
    """Take `blender --command leapwright` back."""
    import bpy

    bpy.utils.unregister_cli_command(handle)
