"""Where a result may be written: not over an input, nor over a file that is not a result itself."""

import os
import re
from collections.abc import Iterable
from pathlib import Path

from .errors import SettingsError
from .files import IN_BLENDER

STDOUT = Path("-")
MARKS = re.compile(
    rb'\s*\{\s*"schema": ?"leapwright-'  # audits, plans
    rb'|\{\s*"OTIO_SCHEMA": ?"Timeline\.1",\s*"metadata": ?\{\s*"leapwright"'  # events as markers
    rb"|path,status,track,jump,"  # the table
    rb'|<!doctype html>.{,500}<meta name="?generator"? content="Leapwright'  # the page
    rb'|<\?xml .{,200}<testsuites name="leapwright',  # findings as tests
    re.DOTALL | re.IGNORECASE,
)
"""How our own files begin: such a file may be written again, and is no track."""
READ = 1024


def check_targets(targets: Iterable[Path], inputs: Iterable[Path] = (), *, force: bool = False) -> None:
    """Raise SettingsError where a file cannot be written, or would take the place of what it must not.

    Refused are an input by any of its paths, a name that ends like a shot's, two results in one place and,
    without force, a file that is neither empty nor a result of ours.
    """
    try:
        read = {place for path in inputs for place in _places(path)}
        taken: set[object] = set()
        for path in targets:
            own = _places(path)
            if read & own:
                raise SettingsError(f"{path} is one of the files to read: it would be written over")
            if taken & own:
                raise SettingsError(f"{path} is named for two results")
            taken |= own
            check_target(path, force=force)
    except (OSError, ValueError) as error:  # a name too long, a folder closed to us, a zero byte
        name, reason = getattr(error, "filename", None) or "the file", getattr(error, "strerror", None) or str(error)
        raise SettingsError(f"{name} cannot be written: {reason.lower()}") from None


def check_target(path: Path, *, force: bool = False) -> None:
    """Check one file by itself. Raises SettingsError, or OSError where the folder is closed to us."""
    if path.suffix.lower() in IN_BLENDER:
        raise SettingsError(f"{path} ends like a shot: name a result .json, .csv or .html")
    if path.is_dir():
        raise SettingsError(f"{path} is a folder; a file is needed")
    folder = next(parent for parent in path.absolute().parents if parent.exists())
    if not folder.is_dir():
        raise SettingsError(f"{path} cannot be written: {folder} is a file")
    there = path.exists()
    if not os.access(folder, os.W_OK) or (there and not os.access(path, os.W_OK)):
        raise SettingsError(f"{path} cannot be written: no permission{'' if there else f' in {folder}'}")
    if there and not force and not may_go(path):
        raise SettingsError(f"{path} is there already, and no result of Leapwright's: name another, or add --force")


def check_folder(path: Path) -> None:
    """Raise SettingsError where the folder that a file is to lie in is not there."""
    if not path.absolute().parent.is_dir():
        raise SettingsError(f"{path} cannot be written: there is no folder {path.parent}")


def may_go(path: Path) -> bool:
    """Say whether nothing is lost by writing over a file: an empty one, a pipe or device, or one of ours."""
    return not path.is_file() or path.stat().st_size == 0 or is_ours(path)


def is_ours(path: Path) -> bool:
    """Say whether a file begins as our results do."""
    try:
        if not path.is_file():  # a pipe would be waited for
            return False
        with path.open("rb") as file:
            return MARKS.match(file.read(READ)) is not None
    except (OSError, ValueError):
        return False


def _places(path: Path) -> set[object]:
    """Tell what tells a file by any of its names: where it really lies, and what the disk calls it."""
    if "\0" in str(path):
        return set()
    places: set[object] = {os.path.realpath(path)}
    try:
        status = path.stat()
    except OSError:
        return places
    return places | {(status.st_dev, status.st_ino)}
