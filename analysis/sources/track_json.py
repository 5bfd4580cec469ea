"""Track files (JSON): one point's path with its frame rate, and what else is known of it.

{"name": str, "fps": number, "frames": [number…], "positions": [[x, y, z]…], "key_frames": [number…]?,
"interpolation": str?, "feet": [[[x, y, z]…]…]?, "marks": {"takeoff": number, …} or a list of such?,
"follows": "body", "center of mass" or "thing"?}
Meters, z up. A key that is not known is ignored, and a note says so. Anything else that is off is refused.
"""

import math
from pathlib import Path
from typing import TYPE_CHECKING, Any

from .. import json_text
from ..errors import SourceError
from ..shot import Reading
from .track_csv import decoded

if TYPE_CHECKING:
    from ..track import Followed, Marks, Track

SUFFIXES = (".json",)

NEEDED_KEYS = ("name", "fps", "frames", "positions")
TRACK_KEYS = (*NEEDED_KEYS, "key_frames", "interpolation", "feet", "marks", "follows")
LONGEST_NAME = 255
"""Letters of the longest name: as many as a file's or a data-block's may have."""
LARGEST_NUMBER = 1e300
"""Largest number that is taken: well within a double."""


def read(path: Path, *, fps: float | None = None) -> Reading:
    """Read a track file; fps is not needed, it says its own.

    Raises SourceError or TrackError for the first thing that is wrong, with its place.
    """
    return Reading((track_from(json_object(decoded(path.read_bytes()))),))


def json_object(text: str) -> dict[str, Any]:
    """Return the JSON object of a text. Raises SourceError where it is none."""
    document = json_text.parsed(text)
    if not isinstance(document, dict):
        raise SourceError(f"a track must be one JSON object, {{…}}, not {_kind(document)}")
    return document


def track_from(document: dict[str, Any]) -> "Track":
    """Return the track a JSON object describes. Raises SourceError, TrackError or SettingsError."""
    import numpy as np  # with the track: what only asks which suffixes there are needs neither

    from ..track import Followed, Track

    if str(document.get("schema", "")).startswith("leapwright-"):
        raise SourceError(f"it is a result ({document['schema']}), not a track")
    missing = [key for key in NEEDED_KEYS if key not in document]
    if missing:
        raise SourceError(f"it lacks {_quoted(missing)}; a track needs {_quoted(NEEDED_KEYS)}")
    unknown = [key for key in document if key not in TRACK_KEYS]
    return Track(
        name=_name(document["name"]),
        fps=_number("fps", document["fps"]),
        frames=np.array(_numbers("frames", document["frames"])),
        positions=np.array(_rows("positions", document["positions"])),
        key_frames=_optional(_numbers, "key_frames", document),
        interpolation=_optional(_text, "interpolation", document),
        feet=_optional(_feet, "feet", document),
        notes=(f"ignored in the track file: {_quoted(unknown)}",) if unknown else (),
        marks=_marks(document["marks"]) if "marks" in document else (),
        follows=_followed(document["follows"]) if "follows" in document else Followed.BODY,
    )


def _optional(read_value: Any, key: str, document: dict[str, Any]) -> Any:
    return read_value(key, document[key]) if key in document else None


def _text(where: str, value: Any) -> str:
    if not isinstance(value, str):
        raise SourceError(f"{where} must be a text, not {_kind(value)}")
    if not value.strip():
        raise SourceError(f"{where} must not be empty")
    return value


def _followed(value: Any) -> "Followed":
    from ..track import Followed

    text = _text("follows", value)
    try:
        return Followed(text)
    except ValueError:
        raise SourceError(f"follows must be one of {_quoted(list(Followed))}, not {text!r}") from None


def _name(value: Any) -> str:
    name = _text("name", value)
    if len(name) > LONGEST_NAME:
        raise SourceError(f"name has {len(name)} letters; it may have {LONGEST_NAME}")
    return name


def _number(where: str, value: Any) -> float:
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        raise SourceError(f"{where} must be a number, not {_kind(value)}")
    try:
        number = float(value)
    except OverflowError:
        number = math.inf
    if not math.isfinite(number):
        raise SourceError(f"{where} is too large a number")
    return number


def _list(where: str, value: Any) -> list[Any]:
    if not isinstance(value, list):
        raise SourceError(f"{where} must be a list, not {_kind(value)}")
    return value


def _numbers(where: str, value: Any) -> list[float]:
    return [_number(f"{where}, item {i},", item) for i, item in enumerate(_list(where, value), 1)]


def _point(where: str, value: Any) -> list[float]:
    if len(_list(where, value)) != 3:
        raise SourceError(f"{where} must be x, y, z, not {len(value)} number{'s' * (len(value) != 1)}")
    return [_number(f"{where}, {axis},", item) for axis, item in zip("xyz", value, strict=True)]


def _rows(where: str, value: Any) -> list[list[float]]:
    if _are_points(value):  # at once: a file is mostly this
        return value
    return [_point(f"{where}, row {i}", row) for i, row in enumerate(_list(where, value), 1)]


def _are_points(value: Any) -> bool:
    """Say whether all is well, quickly; what is not is found and named one by one."""
    if type(value) is not list or {type(row) for row in value} != {list} or {len(row) for row in value} != {3}:
        return False
    numbers = [number for row in value for number in row]
    return {type(number) for number in numbers} <= {float, int} and -LARGEST_NUMBER < min(numbers) <= max(
        numbers
    ) < LARGEST_NUMBER


def _feet(where: str, value: Any) -> list[list[list[float]]]:
    rows = [_rows(f"{where}, row {i}", row) for i, row in enumerate(_list(where, value), 1)]
    for i, row in enumerate(rows, 1):
        if not row:
            raise SourceError(f"{where}, row {i}, has no point; each row needs one at least")
        if len(row) != len(rows[0]):
            raise SourceError(f"{where}, row {i}, has {len(row)} points, row 1 has {len(rows[0])}")
    return rows


def _marks(value: Any) -> "tuple[Marks, ...]":
    entries = value if isinstance(value, list) else [value]
    return tuple(_mark(f"marks, entry {i}", entry) for i, entry in enumerate(entries, 1))


def _mark(where: str, entry: Any) -> "Marks":
    from ..track import EVENTS, Marks

    if not isinstance(entry, dict):
        raise SourceError(f'{where}, must be an object such as {{"takeoff": 21}}, not {_kind(entry)}')
    unknown = [key for key in entry if key not in (*EVENTS, "no_jump")]
    if unknown:
        raise SourceError(f"{where}, names {_quoted(unknown)}; it may name {_quoted((*EVENTS, 'no_jump'))}")
    pinned: dict[str, Any] = {key: _number(f"{where}, {key},", entry[key]) for key in entry if key != "no_jump"}
    if "no_jump" not in entry:
        return Marks(**pinned)
    stretch = _numbers(f"{where}, no_jump", entry["no_jump"])
    if len(stretch) != 2:
        counted = f"{len(stretch)} number{'s' * (len(stretch) != 1)}"
        raise SourceError(f"{where}, no_jump must be its first and its last frame, not {counted}")
    return Marks(no_jump=(stretch[0], stretch[1]), **pinned)


def _kind(value: Any) -> str:
    kinds = {type(None): "null", bool: "true or false", str: "a text", list: "a list", dict: "an object"}
    return kinds.get(type(value), "a number")


def _quoted(keys: Any) -> str:
    shown = [f'"{key[:40]}"' for key in list(keys)[:8]]
    return ", ".join(shown) + (" …" if len(keys) > 8 else "")
