"""Kinds of file that hold a track, one module each: `SUFFIXES` and `read(path, *, fps) -> Reading`.

Adding one is adding a file: whatever module lies beside this one is collected. One that lacks either
fails at import.
"""

from collections.abc import Iterable
from importlib import import_module
from pathlib import Path
from pkgutil import iter_modules
from types import ModuleType

from ..errors import SourceError
from ..shot import Reading

FILE_SOURCES: tuple[ModuleType, ...] = tuple(
    import_module(f".{module.name}", __name__)
    for module in sorted(iter_modules(__path__), key=lambda module: module.name)
)
READERS = {suffix: source.read for source in FILE_SOURCES for suffix in source.SUFFIXES}
"""By suffix, in lower case with its dot."""

MOST_TRACK_BYTES = 200_000_000


def read_file(path: Path, *, fps: float | None = None) -> Reading:
    """Read the tracks of a file, by its suffix.

    fps is used where the file says none. Raises SourceError or TrackError, a sentence each.
    """
    check_is_file(path)
    reader = READERS.get(path.suffix.lower())
    if reader is None:
        raise SourceError(f"it is not a track file: those are named {suffixes_said(READERS)}")
    if path.stat().st_size > MOST_TRACK_BYTES:
        raise SourceError(f"it is larger than {MOST_TRACK_BYTES // 1_000_000} MB: too much for one track")
    try:
        return reader(path, fps=fps)
    except OSError as error:
        raise SourceError(f"it cannot be opened: {(error.strerror or str(error)).lower()}") from None


def check_is_file(path: Path) -> None:
    """Raise SourceError unless path is a file that exists and may be read."""
    try:
        if path.is_file():
            return
        there = path.exists() or path.is_symlink()
    except (OSError, ValueError) as error:
        raise SourceError(f"it cannot be opened: {getattr(error, 'strerror', None) or error}") from None
    raise SourceError("it is not a file" if there else "there is no such file")


def suffixes_said(suffixes: Iterable[str]) -> str:
    """Return the suffixes as a sentence names them: ".blend, .csv, .json"."""
    return ", ".join(sorted(suffixes))
