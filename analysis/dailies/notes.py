"""What a reviewer said of jumps: kept in notes.json beside the report, and carried from day to day.

A note is found again as a jump of a later day is: by shot without take, by track, and by its frames.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from ..errors import SettingsError, SourceError
from ..json_text import parsed
from ..sources.track_csv import decoded
from .names import shot_name
from .rows import DayRow

NOTES_SCHEMA = "leapwright-notes/1"
NOTES_FILE = "notes.json"
APPROVED, MEANT = "approved", "meant"
VERDICTS = ("", APPROVED, MEANT)
MOST_TEXT = 2000
MOST_NOTES_BYTES = 20_000_000
LARGEST_FRAME = 1e12
"""Largest number that is taken for a frame: no frame comes near it."""


@dataclass(frozen=True, slots=True)
class ReviewNote:
    """A reviewer's word on one jump.

    shot, track   names, the shot's as its file's without suffix
    frames        takeoff and landing when it was said
    word          "approved", "meant", or nothing
    text          free words
    findings      codes of the findings it was said of: a later one of another code is not covered
    """

    shot: str
    track: str
    frames: tuple[float, float]
    word: str = ""
    text: str = ""
    findings: tuple[str, ...] = ()


def read_notes(path: Path) -> tuple[ReviewNote, ...]:
    """Read a file of notes; none where there is no file. Raises SettingsError for what is no such file."""
    try:
        if not path.is_file():
            return ()
        if path.stat().st_size > MOST_NOTES_BYTES:
            raise SettingsError(f"{path}: it is larger than {MOST_NOTES_BYTES // 1_000_000} MB: notes are not")
        data = parsed(decoded(path.read_bytes()), most=LARGEST_FRAME)
    except OSError as error:
        raise SettingsError(f"{path} cannot be read: {(error.strerror or str(error)).lower()}") from None
    except SourceError as error:
        raise SettingsError(f"{path}: {error}") from None
    if not isinstance(data, dict) or data.get("schema") != NOTES_SCHEMA or not isinstance(data.get("notes"), list):
        raise SettingsError(f"{path}: it holds no notes (schema {NOTES_SCHEMA})")
    return tuple(_note(path, place, one) for place, one in enumerate(data["notes"], 1))


def _note(path: Path, place: int, data: Any) -> ReviewNote:
    try:
        first, last = (float(frame) for frame in data["frames"])
        note = ReviewNote(_text(data["shot"]), _text(data["track"]), (first, last), _text(data.get("word", "")),
                    _text(data.get("text", "")), tuple(map(_text, data.get("findings", ()))))  # fmt: skip
    except (TypeError, KeyError, ValueError):
        raise SettingsError(f"{path}: note {place} lacks shot, track or frames, or has another kind of value") from None
    if note.word not in VERDICTS:
        raise SettingsError(f'{path}: note {place} says "{note.word}"; the words are {APPROVED} and {MEANT}')
    return note


def _text(value: object) -> str:
    if not isinstance(value, str) or len(value) > MOST_TEXT:
        raise TypeError
    return value


def notes_on(rows: Sequence[DayRow], notes: Iterable[ReviewNote]) -> Mapping[str, ReviewNote]:
    """Return the note of each row that has one, by the row's key: of the nearest flight, in the same take before
    another.

    Where two notes would fall on one jump, the nearer has it.
    """
    by_base: dict[tuple[str, str], list[DayRow]] = {}
    for row in rows:
        if row.jump is not None:
            by_base.setdefault((row.name.base, row.track_name), []).append(row)
    found: dict[str, tuple[tuple[bool, float], ReviewNote]] = {}
    for note in notes:
        for row in by_base.get((shot_name(note.shot).base, note.track), ()):
            distance = (row.name.stem != shot_name(note.shot).stem, _apart(row, note))
            if distance[1] <= 1.0 and (row.key not in found or distance < found[row.key][0]):
                found[row.key] = distance, note
    return {key: note for key, (_, note) in found.items()}


def _apart(row: DayRow, note: ReviewNote) -> float:
    """Return frames between the middles of both flights, in airtimes of the longer."""
    assert row.jump is not None
    first, last = row.jump["takeoff"]["frame"], row.jump["landing"]["frame"]
    airtime = max(last - first, note.frames[1] - note.frames[0], 1.0)
    return abs(first + last - sum(note.frames)) / 2.0 / airtime


def is_meant(note: ReviewNote | None, code: str) -> bool:
    """Say whether a finding of this code is meant: it does not ask to be mended."""
    return note is not None and note.word == MEANT and code in note.findings
