"""`leapwright`, with Blender where a shot asks for it; the same as `blender --command leapwright`."""

import os
import signal
import sys
from collections.abc import Generator, Sequence
from contextlib import closing, nullcontext, suppress
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from .inside import in_blender

if TYPE_CHECKING:
    from types import ModuleType

    from ..analysis.day import DayRequest
    from ..analysis.shot import Shot
    from .shots.pool import Answer, Question

COMMAND_NAME = "leapwright"


def command_line() -> None:
    """Run the call that this process was started for, and end with its exit code."""
    for stream in (0, 1, 2):
        with suppress(OSError):  # a closed one would be the next file that is opened, and be written to
            os.fstat(stream)
            continue
        os.open(os.devnull, os.O_RDWR)
    if hasattr(signal, "pthread_sigmask"):
        # All at first: which ones ask to end is known once numpy is loaded, and what comes meanwhile waits.
        signal.pthread_sigmask(signal.SIG_SETMASK, signal.valid_signals())
        from ..analysis.ending import ENDINGS

        signal.pthread_sigmask(signal.SIG_SETMASK, ENDINGS)
    sys.exit(main())


def main(argv: Sequence[str] | None = None) -> int:
    """Run a call of the command; return its exit code: 0 done, 1 found, 2 wrong call, 3 unreadable shot.

    Raises SystemExit with 128 + its number, as shells count, for a signal that asks to end.
    """
    # Before numpy is loaded: its threads cost more than they bring on matrices of a few rows, half the time
    # of a day's audit.
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    from ..analysis.ending import ends_in_order, let_through

    with nullcontext() if in_blender() else ends_in_order():  # a running Blender has its own way to end
        from ..analysis import command

        with let_through():
            return command.main(argv, audit_each=audit_each, more=_more)


def _more() -> "tuple[ModuleType, ...]":
    """Return the subcommands that change a scene."""
    from .retiming import command as retime_command

    return (retime_command,)


def audit_each(paths: "Sequence[Path]", way: "DayRequest") -> "Generator[tuple[int, Shot], None, None]":
    """Audit files as they are done: by worker processes, on a cluster, or here when this is a running Blender.

    Yields each one's place in the list with its shot.
    """
    if in_blender() and way.scheduler is None:
        from .shots.shot import audit_each as audit_here

        yield from audit_here(paths, way)
        return
    from importlib.util import find_spec

    from ..analysis.files import IN_BLENDER
    from ..analysis.shot import unreadable
    from .shots.worker import NO_BLENDER

    blends = {place for place, path in enumerate(paths) if path.suffix.lower() in IN_BLENDER}
    missing = blends if way.scheduler is None and find_spec("bpy") is None else set()
    for place in sorted(missing):
        yield place, unreadable(str(paths[place]), NO_BLENDER)
    places = [place for place in range(len(paths)) if place not in missing]
    work = ("...analysis.day:audit_track_file", ".shot:audit_file")
    questions = [(work[place in blends], {"path": paths[place].absolute(), "way": way}) for place in places]
    with closing(_answers(questions, way)) as answers:
        for answer in answers:
            place = places[answer.place]
            path = str(paths[place])
            refused = unreadable(path, str(answer.refusal), seconds=answer.seconds)
            yield place, refused if answer.refusal is not None else replace(answer.result, path=path)


def _answers(questions: "Sequence[Question]", way: "DayRequest") -> "Generator[Answer, None, None]":
    """Ask workers, of this machine or of a cluster. Raises SettingsError where a cluster cannot be asked."""
    if way.scheduler is None:
        from .shots.pool import ask_each

        return ask_each(questions, jobs=way.jobs, timeout=way.timeout)
    try:
        from .shots.farm import ask_farm
    except ModuleNotFoundError as missing:
        from ..analysis.errors import SettingsError

        raise SettingsError(f"--scheduler needs Dask ({missing}): pip install 'leapwright[farm]'") from None
    return ask_farm(questions, scheduler=way.scheduler, timeout=way.timeout)


def register() -> object:
    """Make `blender --command leapwright` known; return what `unregister` needs."""
    import bpy

    return bpy.utils.register_cli_command(COMMAND_NAME, main)


def unregister(handle: object) -> None:
    """Take `blender --command leapwright` back."""
    import bpy

    bpy.utils.unregister_cli_command(handle)
