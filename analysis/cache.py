"""What was found in files that have not changed since: kept by content, settings and version.

An entry is one JSON file in the user's cache folder, so that several runs may share it. A file counts as unchanged
when its size and time are as they were, and were not brand-new then; else its content is compared by digest. What a
shot depends on, its libraries, counts like the shot itself. Only what was read whole is kept.
"""

import hashlib
import json
import os
import sys
import time
from collections.abc import Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, field
from importlib.util import find_spec
from pathlib import Path
from typing import Any

from .version import leapwright_version

FORMAT = 1
FRESH = 2.0
"""Seconds within which a file may change twice and keep its time: coarse clocks of file systems (FAT: 2 s)."""
DAY = 86_400.0
KEPT_DAYS = 60.0
PIECE = 1 << 20


def cache_folder() -> Path:
    """Tell where the system wants caches: XDG_CACHE_HOME or ~/.cache, ~/Library/Caches, %LOCALAPPDATA%."""
    if sys.platform == "darwin":
        base = Path.home() / "Library" / "Caches"
    elif os.name == "nt":
        base = Path(os.environ.get("LOCALAPPDATA") or Path.home() / "AppData" / "Local")
    else:
        base = Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache")
    return base / "leapwright"


@dataclass(slots=True)
class Cache:
    """The entries in a folder, made when the first one is kept; a folder closed to us keeps nothing.

    maker   what else the results depend on: the version, the code, the Blender (`made_by`)
    """

    folder: Path
    maker: str
    digests: dict[tuple[str, int, int], str] = field(default_factory=dict)
    seen: dict[str, tuple[int, int]] = field(default_factory=dict)
    closed: bool = False

    def get(self, path: Path, way: object) -> dict[str, Any] | None:
        """Return the document's shot of a file as it is now, read this way; None where it has to be read."""
        entry = self._entry(path, way)
        with suppress(OSError, ValueError, KeyError, TypeError):
            self._look(path)
            age = time.time() - entry.stat().st_mtime
            kept = json.loads(entry.read_bytes())
            if all(self._unchanged(stamp, kept["made"]) for stamp in kept["stamps"]):
                if age > DAY:
                    os.utime(entry)  # asked for: `tidy` leaves it
                return {**kept["shot"], "path": str(path)}
        return None

    def _look(self, path: Path) -> None:
        """Remember what a file is before it is read."""
        status = path.stat()
        self.seen[str(path)] = status.st_size, status.st_mtime_ns

    def keep(self, path: Path, way: object, shot: Mapping[str, Any], needs: Sequence[str] = ()) -> None:
        """Keep a document's shot, with the files that it depends on besides its own.

        Not one that was asked for before `get`, nor one whose file changed since then.
        """
        if shot["status"] != "ok" or self.closed:
            return
        try:
            stamps = [self._stamp(one) for one in (Path(path).absolute(), *map(Path, needs))]
            if (stamps[0][1], stamps[0][2]) != self.seen.get(str(path)):
                return
            text = json.dumps({"made": time.time(), "stamps": stamps, "shot": shot})
            self.folder.mkdir(parents=True, exist_ok=True, mode=0o700)
            entry = self._entry(path, way)
            part = entry.with_suffix(f".{os.getpid()}")
            part.write_text(text, encoding="utf-8")
            part.replace(entry)
        except (OSError, ValueError):
            self.closed = True

    def tidy(self) -> None:
        """Remove entries that nothing has asked for in two months, once a day."""
        mark = self.folder / "tidied"
        with suppress(OSError):
            if self.closed or not self.folder.is_dir():
                return
            if mark.exists() and time.time() - mark.stat().st_mtime < DAY:
                return
            mark.touch()
            for entry in self.folder.glob("*.*"):
                if time.time() - entry.stat().st_mtime > KEPT_DAYS * DAY:
                    entry.unlink()

    def _entry(self, path: Path, way: object) -> Path:
        name = "\n".join((str(FORMAT), self.maker, repr(way), str(path.absolute())))
        return self.folder / f"{hashlib.blake2b(name.encode('utf-8', 'replace'), digest_size=16).hexdigest()}.json"

    def _stamp(self, path: Path) -> list[Any]:
        """Return the path, size, time and digest of a file; only the path where there is none."""
        try:
            status = path.stat()
            return [str(path), status.st_size, status.st_mtime_ns, self._digest(path, status)]
        except FileNotFoundError:
            return [str(path), None, None, None]

    def _unchanged(self, stamp: Sequence[Any], made: float) -> bool:
        name, size, when, digest = stamp
        path = Path(name)
        try:
            status = path.stat()
        except FileNotFoundError:
            return size is None
        if size is None or status.st_size != size:
            return False
        if status.st_mtime_ns == when and made - when / 1e9 > FRESH:
            return True
        return self._digest(path, status) == digest

    def _digest(self, path: Path, status: os.stat_result) -> str:
        key = (str(path), status.st_size, status.st_mtime_ns)
        if key not in self.digests:
            content = hashlib.blake2b(digest_size=16)
            with path.open("rb") as file:
                while piece := file.read(PIECE):
                    content.update(piece)
            self.digests[key] = content.hexdigest()
        return self.digests[key]


def made_by() -> str:
    """Return the version, code and Blender that results are made by: another of any makes other results."""
    root = Path(__file__).resolve().parent.parent
    code = hashlib.blake2b(digest_size=8)
    for folder in ("analysis", "addon"):
        for path in sorted((root / folder).rglob("*.py")):
            status = path.stat()
            code.update(f"{path.name} {status.st_size} {status.st_mtime_ns}\n".encode())
    return f"{made_with()}, {code.hexdigest()}"


def made_with() -> str:
    """Name the versions of Leapwright, Blender and Python here, as far as figures depend on them."""
    python = f"{sys.version_info[0]}.{sys.version_info[1]}"
    return f"Leapwright {leapwright_version()}, Blender {_blender()}, Python {python}"


def _blender() -> str:
    """Return the version of the Blender here, loaded or not; importlib.metadata would take a tenth of a cached day."""
    if (bpy := sys.modules.get("bpy")) is not None:
        return ".".join(map(str, bpy.app.version))  # as its package is numbered, without "LTS"
    spec = find_spec("bpy")
    if spec is None or spec.origin is None:
        return "none"
    names = [folder.name for folder in Path(spec.origin).parents[1].glob("bpy-*.dist-info")]
    return names[0].removesuffix(".dist-info").removeprefix("bpy-") if names else "unknown"
