"""Which files a call names: each path given, and every shot inside a folder, in order."""

import os
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from .sources import suffixes_said

BLEND_SUFFIX, MOTION_SUFFIX = ".blend", ".bvh"
IN_BLENDER = (BLEND_SUFFIX, MOTION_SUFFIX, ".fbx", ".glb")
"""What Blender opens or imports. In a folder only the first two count: the others hold models more often."""

@dataclass(frozen=True, slots=True)
class Named:
    """A path to read, or the reason why there is nothing to read at it."""

    path: Path
    reason: str | None = None


def named_files(paths: Iterable[Path], suffixes: Iterable[str], leave: Iterable[Path] = ()) -> list[Named]:
    """List the files to read, each once: the paths as given, folders opened and sorted by name.

    Inside a folder only files of these suffixes (lower case, with dot) count, hidden ones do not, nor those
    to leave. A folder that cannot be opened, or holds no such file, is listed with the reason.
    """
    wanted, left = frozenset(suffixes), {_place(path) for path in leave}
    found: dict[str, Named] = {}
    for path in paths:
        for named in _inside(path, wanted, left) if _is_folder(path) else [Named(path)]:
            found.setdefault(_place(named.path), named)
    return list(found.values())


def _is_folder(path: Path) -> bool:
    try:
        return path.is_dir()
    except (OSError, ValueError):  # a name too long or with a zero byte: reading it will say so
        return False


def _place(path: Path) -> str:
    return os.path.realpath(path, strict=False) if "\0" not in str(path) else str(path)


def _inside(folder: Path, wanted: frozenset[str], left: set[str]) -> Iterator[Named]:
    closed: list[OSError] = []
    files = [
        Path(parent) / name
        for parent, folders, names in os.walk(folder, onerror=closed.append)
        for name in names
        if not _hidden(folders, name)
    ]
    files = [path for path in files if _place(path) not in left]
    shots = sorted(path for path in files if path.suffix.lower() in wanted)
    yield from map(Named, shots)
    for error in closed:
        yield Named(Path(error.filename), f"the folder cannot be opened: {(error.strerror or '').lower()}")
    if not shots and not closed:
        yield Named(folder, _nothing(files, wanted))


def _hidden(folders: list[str], name: str) -> bool:
    folders[:] = [folder for folder in folders if not folder.startswith(".")]  # os.walk then skips them
    return name.startswith(".")


def _nothing(files: list[Path], wanted: frozenset[str]) -> str:
    if not files:
        return "the folder is empty"
    names = sorted(path.name for path in files)
    shown = ", ".join(names[:4]) + (f" and {len(names) - 4} more" if len(names) > 4 else "")
    return f"the folder holds no {suffixes_said(wanted)} file; skipped: {shown}"
