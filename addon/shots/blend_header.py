"""The first bytes of a .blend file: whether it is one, and which Blender saved it.

Source: Blender's file header, "BLENDER", pointer size (_ or -), endian (v or V) and three digits; from 5.0 on
"BLENDER17-01v" and four digits. Compressed: the same within a zstd frame (RFC 8878), or gzip (RFC 1952).
"""

import gzip
import re
import zlib
from pathlib import Path

from ...analysis.errors import SourceError

ZSTD, GZIP = b"\x28\xb5\x2f\xfd", b"\x1f\x8b"
LENGTH = 17
BEGINS = b"BLENDER"
OLD = re.compile(rb"BLENDER[_-][vV](\d)(\d\d)")
NEW = re.compile(rb"BLENDER\d\d-\d\dv(\d\d)(\d\d)")
NEW_SINCE = (4, 5)


def check_header(path: Path, *, newest: tuple[int, ...]) -> None:
    """Raise SourceError unless path begins as a .blend file that a Blender of version newest may open."""
    try:
        start = _start(path)
    except OSError as error:
        raise SourceError(f"it cannot be opened: {(error.strerror or str(error)).lower()}") from None
    if not start:
        raise SourceError("the file is cut short or damaged" if path.stat().st_size else "the file is empty")
    if start.startswith(ZSTD):  # not to be looked into here: Blender itself will say
        return
    version = saved_by(start)
    if version is None and (BEGINS.startswith(start[: len(BEGINS)]) or start.startswith(GZIP)):
        raise SourceError("the file is cut short or damaged")
    if version is None:
        raise SourceError("its content is no .blend file")
    if NEW.match(start) and newest < NEW_SINCE:
        raise SourceError(
            f"it was saved by Blender {version[0]}.{version[1]}, which this Blender {newest[0]}.{newest[1]} cannot open"
        )


def _start(path: Path) -> bytes:
    """Return the first bytes of a file, unpacked where that can be done; as they are where it cannot."""
    with path.open("rb") as file:
        start = file.read(LENGTH)
        file.seek(0)
        try:
            if start.startswith(GZIP):
                return gzip.GzipFile(fileobj=file).read(LENGTH)
            if start.startswith(ZSTD):
                from zstandard import ZstdDecompressor, ZstdError  # comes with Blender

                try:
                    return ZstdDecompressor().stream_reader(file).read(LENGTH)
                except ZstdError:
                    return start
        except (ImportError, EOFError, gzip.BadGzipFile, zlib.error):
            pass
    return start


def saved_by(start: bytes) -> tuple[int, int] | None:
    """Return the Blender version (major, minor) in the first bytes of a file; None when they are no plain .blend's.

    >>> saved_by(b"BLENDER-v405REND"), saved_by(b"BLENDER17-01v0500")
    ((4, 5), (5, 0))
    """
    match = OLD.match(start) or NEW.match(start)
    return (int(match[1]), int(match[2])) if match else None
