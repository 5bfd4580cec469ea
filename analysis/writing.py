"""Files written whole or not at all: beside the target under another name, checked, then renamed.

An older file stays until the new one is whole, also where the disk is full. What is no regular file, such
as a pipe or a device, is written to as it is.
"""

import errno
import os
import secrets
import shutil
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from .ending import held_back, let_through

PREFIX = ".leapwright-"
"""How a file begins that is not whole yet; hidden, so that no search for shots takes it."""


def write_whole(target: Path, text: str) -> None:
    """Write a text as UTF-8. Raises OSError; then target is as it was."""
    data = text.encode("utf-8", "replace")
    if target.exists() and not target.is_file():
        with let_through(), target.open("wb") as file:  # a pipe may be waited for
            file.write(data)
        return
    with beside(target) as part:
        with part.open("xb") as file:
            file.write(data)
        if part.read_bytes() != data:
            raise OSError(errno.EIO, os.strerror(errno.EIO), str(target))


@contextmanager
def beside(target: Path) -> Iterator[Path]:
    """Give the path of a file to be written in the target's folder; it takes the target's place after the
    block, if anything was written.

    Folders that are missing are made. When the block raises, whatever was written goes, those folders too.
    """
    real = Path(os.path.realpath(target))  # a link stays one
    with held_back():
        made = _missing(real.parent)
        part = real.with_name(f"{PREFIX}{secrets.token_hex(6)}{real.suffix}")
        try:
            real.parent.mkdir(parents=True, exist_ok=True)
            yield part
            if part.exists():
                _settle(part)
                with suppress(FileNotFoundError):
                    shutil.copymode(real, part)
                part.replace(real)
        except BaseException:
            for left in (part, Path(f"{part}@")):  # "@": Blender's own name for a file it has not done
                left.unlink(missing_ok=True)
            for folder in made:
                with suppress(OSError):
                    folder.rmdir()
            raise


def _settle(part: Path) -> None:
    """Wait until the disk has it: a rename may otherwise come before what it names."""
    with part.open("rb+") as file:
        os.fsync(file.fileno())


def _missing(folder: Path) -> list[Path]:
    """Return folders that are not there yet, the innermost first."""
    missing = []
    while not folder.exists():
        missing.append(folder)
        folder = folder.parent
    return missing
