"""Track files (CSV): a header row with frame, x, y, z and perhaps key (0 or 1), then one row a frame.

Meters, z up; UTF-8, separated by commas. Blank lines and empty cells at the end of a row are passed over,
a column that is not known is ignored and a note says so. Anything else that is off is refused.
"""

import csv
import io
import math
import re
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from ..errors import SourceError
from ..shot import Reading

if TYPE_CHECKING:
    from ..track import Track

SUFFIXES = (".csv",)

NEEDED_COLUMNS = ("frame", "x", "y", "z")
USUAL_FPS = 24.0
"""Frames per second where none are given: film's (common practice, no source)."""
NUMBER = re.compile(r"[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?", re.ASCII | re.IGNORECASE)


def read(path: Path, *, fps: float | None = None) -> Reading:
    """Read a track file; fps is not in it: 24 unless given.

    Raises SourceError or TrackError for the first thing that is wrong, with its place.
    """
    return Reading((track_from(decoded(path.read_bytes()), name=path.stem, fps=fps),))


def decoded(data: bytes) -> str:
    """Return the UTF-8 text of a file, without its byte order mark. Raises SourceError where it is none."""
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        raise SourceError("it is UTF-16 text; save it as UTF-8")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise SourceError(f"it is not UTF-8 text: byte {error.start + 1}, in line {line}, fits none") from None


def track_from(text: str, *, name: str, fps: float | None = None) -> "Track":
    """Return the track of a CSV text. Raises SourceError or TrackError.

    >>> rows = "".join(f"{frame},0,0,1\\n" for frame in range(5))
    >>> track_from("frame,x,y,z\\n" + rows, name="root", fps=24)
    Track('root', 5 frames at 24 fps)
    """
    import numpy as np  # with the track: what only asks which suffixes there are needs neither

    from ..track import Track

    rows = _rows(text)
    first = next(rows, None)
    if first is None:
        raise SourceError("the file is empty")
    columns, ignored = _columns(first[1])
    table = [_numbers(line, cells, columns, len(first[1])) for line, cells in rows]
    notes = [f"ignored in the track file: {', '.join(ignored)}"] if ignored else []
    if fps is None:
        notes.append(f"a CSV track has no frame rate: {USUAL_FPS:g} frames per second taken (--fps)")
    keys = [row[0] for row in table if row[-1] == 1] if "key" in columns else None
    if keys == []:
        notes.append("no row is marked as a key: the track is taken as not keyed")
    return Track(
        name=name,
        fps=USUAL_FPS if fps is None else fps,
        frames=np.array([row[0] for row in table]),
        positions=np.array([row[1:4] for row in table] or [[]]),
        key_frames=np.array(keys) if keys else None,
        notes=tuple(notes),
    )


def _rows(text: str) -> Iterator[tuple[int, list[str]]]:
    """Yield line number and cells of every row that is not blank, without empty cells at its end."""
    reader = csv.reader(io.StringIO(text, newline=""))
    while True:
        try:
            cells = next(reader)
        except StopIteration:
            return
        except csv.Error as error:
            raise SourceError(f"line {reader.line_num} is not CSV: {error}") from None
        cells = [cell.strip() for cell in cells]
        while cells and not cells[-1]:
            cells.pop()
        if cells:
            yield reader.line_num, cells


def _columns(header: list[str]) -> tuple[dict[str, int], list[str]]:
    """Tell where each known column stands, and the names of the others."""
    names = [name.lower() for name in header]
    for separator, word in ((";", "semicolons"), ("\t", "tabs")):
        if any(separator in name for name in names):
            raise SourceError(f"its columns are separated by {word}; save it with commas (and decimal points)")
    missing = [name for name in NEEDED_COLUMNS if name not in names]
    if missing:
        raise SourceError(
            f"its first row must name the columns {', '.join(NEEDED_COLUMNS)}; it lacks {', '.join(missing)}"
        )
    twice = [name for name in (*NEEDED_COLUMNS, "key") if names.count(name) > 1]
    if twice:
        raise SourceError(f"its first row names the column {twice[0]} twice")
    known = {name: names.index(name) for name in (*NEEDED_COLUMNS, "key") if name in names}
    return known, [f'"{name[:40]}"' for name in header if name and name.lower() not in known]


def _numbers(line: int, cells: list[str], columns: dict[str, int], most: int) -> list[float]:
    """frame, x, y, z and key, where there is one, of a row."""
    if len(cells) > most:
        raise SourceError(f"line {line} has {len(cells)} cells, the first row names {most} columns")
    short = [name for name, column in columns.items() if column >= len(cells)]
    if short:
        raise SourceError(f"line {line} has no {short[0]}: it has {len(cells)} of {len(columns)} cells")
    numbers = []
    for name, column in columns.items():
        cell = cells[column]
        value = float(cell) if NUMBER.fullmatch(cell) else math.nan
        if not math.isfinite(value):
            raise SourceError(f'line {line}: {name} is "{cell[:40]}", not a finite number')
        if name == "key" and value not in (0, 1):
            raise SourceError(f'line {line}: key is "{cell[:40]}"; it must be 0 or 1')
        numbers.append(value)
    return numbers
