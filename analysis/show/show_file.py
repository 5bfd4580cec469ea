"""Read a show file, strictly: a key that is not known, or takes no such value, is refused with its line."""

import re
import tomllib
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from ..errors import SettingsError
from .keys import AT_TOP, OF_SHOTS, SHOW_FILE

SHOTS = "shots"
HEADER = re.compile(r"\s*\[(?P<parts>.*)\]\s*(#.*)?$")
KEY_PART = re.compile(
    r"""\s*(?:"(?P<basic>(?:[^"\\]|\\.)*)"|'(?P<literal>[^']*)'|(?P<bare>[A-Za-z0-9_-]+))\s*(?:\.|=|$)"""
)
MOST_SHOW_BYTES = 1_000_000


@dataclass(frozen=True, slots=True)
class Rule:
    """Settings of a show file that hold for the shots of a pattern.

    pattern   of a shot's name, or of its path from the show file; empty: all of them
    values    checked, by key
    lines     where each key stands
    """

    pattern: str
    values: Mapping[str, Any]
    lines: Mapping[str, int]


@dataclass(frozen=True, slots=True)
class Show:
    """A show file: its name, the patterns of shots to skip, and its rules, of which later ones win."""

    path: Path
    name: str = ""
    skip: tuple[str, ...] = ()
    rules: tuple[Rule, ...] = ()


def find_show(start: Path) -> Path | None:
    """Return the nearest leapwright.toml in the folder of a shot or above it; None where there is none."""
    try:
        whole = start.absolute()
        return next((folder / SHOW_FILE for folder in (whole, *whole.parents) if (folder / SHOW_FILE).is_file()), None)
    except (OSError, ValueError):  # no such path can be
        return None


def read_show(path: Path) -> Show:
    """Read a show file. Raises SettingsError with the file, the line and the key."""
    try:
        if path.stat().st_size > MOST_SHOW_BYTES:
            raise SettingsError(f"{path}: it is larger than {MOST_SHOW_BYTES // 1_000_000} MB: no show file is")
        text = path.read_text(encoding="utf-8")
        data = tomllib.loads(text)
    except OSError as error:
        raise SettingsError(f"{path} cannot be read: {(error.strerror or str(error)).lower()}") from None
    except UnicodeDecodeError:
        raise SettingsError(f"{path}: it is not text in UTF-8") from None
    except tomllib.TOMLDecodeError as error:
        raise SettingsError(f"{path}: {error}") from None
    lines = dict(_lines(text))
    shots = data.pop(SHOTS, {})
    if not isinstance(shots, dict):
        raise SettingsError(f"{path}, line {lines.get((SHOTS,), 1)}, {SHOTS}: must be a table of patterns")
    rules = [_rule(path, "", data, AT_TOP, (), lines)]
    for pattern, values in shots.items():
        where = (SHOTS, pattern)
        if not isinstance(values, dict):
            raise SettingsError(f"{path}, line {_line(lines, where)}, {pattern}: must be a table of settings")
        rules.append(_rule(path, pattern, values, OF_SHOTS, where, lines))
    top = dict(rules[0].values)
    name, skip = top.pop("show", ""), top.pop("skip", ())
    return Show(path, name, skip, (Rule("", top, rules[0].lines), *rules[1:]))


class Shows:
    """The show files of a day's shots, each read once."""

    def __init__(self) -> None:
        """Begin with none."""
        self.by_folder: dict[Path, Show | None] = {}
        self.by_path: dict[Path, Show] = {}

    @property
    def found(self) -> tuple[Show, ...]:
        """Those that have been read."""
        return tuple(self.by_path.values())

    def of(self, shot: Path) -> Show | None:
        """Return the show file of a shot; None without one. Raises SettingsError for one that is not sound."""
        try:
            folder = shot.absolute().parent
        except (OSError, ValueError):  # no such path can be
            return None
        if folder not in self.by_folder:
            path = find_show(folder)
            if path is not None and path not in self.by_path:
                self.by_path[path] = read_show(path)
            self.by_folder[folder] = self.by_path[path] if path is not None else None
        return self.by_folder[folder]


def _rule(
    path: Path,
    pattern: str,
    values: Mapping[str, object],
    known: Mapping[str, Callable[[object], Any]],
    where: tuple[str, ...],
    lines: Mapping[tuple[str, ...], int],
) -> Rule:
    checked = {}
    for key, value in values.items():
        try:
            if key not in known:
                others = [*known, SHOTS] if not where else list(known)
                raise SettingsError(f"is not known; there are {', '.join(others)}")
            checked[key] = known[key](value)
        except SettingsError as refusal:
            reason, *inner = refusal.args  # the key within a table, where it is that one
            line, dotted = _line(lines, (*where, key, *inner)), ".".join((*where, key, *inner))
            raise SettingsError(f"{path}, line {line}, {dotted}: {reason}") from None
    return Rule(pattern, checked, {key: _line(lines, (*where, key)) for key in checked})


def _line(lines: Mapping[tuple[str, ...], int], key: tuple[str, ...]) -> int:
    """Return the line of a key; of what holds it, where it has none of its own (an inline table)."""
    while key and key not in lines:
        key = key[:-1]
    return lines.get(key, 1)


def _lines(text: str) -> Iterator[tuple[tuple[str, ...], int]]:
    """Tell where each key and each table of a sound TOML text stands (TOML 1.0.0: one a line, but in inline tables)."""
    table: tuple[str, ...] = ()
    for number, line in enumerate(text.splitlines(), 1):
        if header := HEADER.match(line):
            table = _dotted(header["parts"])
            yield table, number
        elif "=" in line and (key := _dotted(line)):
            yield (*table, *key), number


def _dotted(text: str) -> tuple[str, ...]:
    """Return the parts of a dotted key at the start of a text."""
    parts, place = [], 0
    while match := KEY_PART.match(text, place):
        parts.append(match["basic"] or match["literal"] or match["bare"] or "")
        place = match.end()
        if not match[0].endswith("."):
            break
    return tuple(parts)
