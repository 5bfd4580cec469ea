"""The far side of a worker: answers questions in a process of its own until nobody asks any more."""

import os
import signal
import sys
import traceback
from importlib import import_module
from multiprocessing.connection import Connection
from multiprocessing.reduction import ForkingPickler
from pathlib import Path
from types import MappingProxyType
from typing import Any

from ...analysis.ending import ENDINGS
from ...analysis.errors import LeapwrightError, SourceError

BEGUN = "begun"
"""Said before the answer: Blender is there, the work begins."""
TEMPORARY = ("TMPDIR", "TEMP", "TMP")
"""What says where temporary files go."""


def serve(connection: Connection, user_folder: str) -> None:
    """Answer questions, each ("module:function", keyword arguments), until the connection ends.

    The module is named as from here: ".shot", "..retiming.file".
    user_folder: for Blender's settings and temporary files, so that it neither starts from the person's own nor
    leaves anything behind when it is killed. What is printed goes nowhere.
    """
    for number in ENDINGS:  # whoever asks decides when it ends
        signal.signal(number, signal.SIG_IGN)
    nowhere = os.open(os.devnull, os.O_RDWR)
    for stream in (0, 1, 2):
        os.dup2(nowhere, stream)
    sys.stdin, sys.stdout, sys.stderr = (os.fdopen(stream, mode) for stream, mode in ((0, "r"), (1, "w"), (2, "w")))
    os.environ.update(dict.fromkeys(("BLENDER_USER_RESOURCES", *TEMPORARY), user_folder))
    # A Blender in the process that asks has put its own folders on the path that was passed on.
    blenders = [Path(folder) / "bpy" for folder in sys.path]
    sys.path[:] = [folder for folder in sys.path if not any(map(Path(folder).is_relative_to, blenders))]
    # The values of a finding cannot be written to; sent, they become so again.
    ForkingPickler.register(MappingProxyType, _sent)
    while True:
        try:
            name, arguments = connection.recv()
        except (EOFError, OSError):
            os._exit(0)  # Blender 4.2 and 4.5 may crash, or wait for ever, in what they do at an orderly end
        connection.send(_answer(connection, name, arguments))


def _answer(connection: Connection, name: str, arguments: dict[str, Any]) -> object:
    """Tell what the function gives, a refusal, or the traceback of a bug."""
    module, _, function = name.partition(":")
    try:
        work = getattr(import_module(module, __package__), function)
    except Exception as error:  # Blender, mostly: a library of the system is missing
        return SourceError(f"Blender could not be started: {type(error).__name__}: {error}")
    connection.send(BEGUN)
    try:
        return (work(**arguments),)
    except LeapwrightError as refusal:
        return refusal
    except Exception:
        return traceback.format_exc()


def _sent(values: "MappingProxyType[Any, Any]") -> tuple[type, tuple[dict[Any, Any]]]:
    return MappingProxyType, (dict(values),)
