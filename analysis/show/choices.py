"""What holds for one shot, and which rule gave it: the call's options, then the show file's rules, then defaults."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from fnmatch import fnmatchcase
from pathlib import Path
from typing import Any

from ..limits import Limits
from ..settings import Settings
from ..world import World
from .show_file import SHOTS, Rule, Show

DEFAULTS: Mapping[str, Any] = {
    "track": None, "tracks": None, "gravity": None, "kind": "person", "step": 1, "smallest_hop": None, "feet": None,
    "fps": None, "limits": None,
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Choice:
    """A value, and in words what gave it."""

    value: Any
    source: str


def choices(shot: Path, show: Show | None, given: Mapping[str, Any]) -> dict[str, Choice]:
    """Return each setting of a shot with its source. given: what the call's options say; None: nothing."""
    chosen = {key: Choice(value, "default") for key, value in DEFAULTS.items()}
    for rule in _rules(shot, show):
        for key, value in rule.values.items():
            merged = {**(chosen[key].value or {}), **value} if key in ("limits", "tracks") else value
            chosen[key] = Choice(merged, _source(show, rule, key))
    for key, value in given.items():
        if value is not None:
            merged = {**(chosen[key].value or {}), **value} if key == "limits" else value
            chosen[key] = Choice(merged, f"--{key.replace('_', '-')}")
    return chosen


def skipped(shot: Path, show: Show | None) -> str:
    """Tell what says that a shot is to be skipped; empty where nothing does."""
    if show is None:
        return ""
    for pattern in show.skip:
        if _matches(shot, show, pattern):
            return f'{show.path.name}, skip = "{pattern}"'
    said = ""
    for rule in _rules(shot, show):
        if "skip" in rule.values:
            said = _source(show, rule, "skip") if rule.values["skip"] else ""
    return said


def settings_from(chosen: Mapping[str, Choice]) -> Settings:
    """Return the world and the limits of a shot, but its gravity, which the file may have a say in."""
    limits = dict(chosen["limits"].value or {})
    if chosen["smallest_hop"].value is not None:
        limits["smallest_hop"] = chosen["smallest_hop"].value
    return Settings(World(step=chosen["step"].value, kind=chosen["kind"].value), replace(Limits(), **limits))


def _rules(shot: Path, show: Show | None) -> list[Rule]:
    if show is None:
        return []
    return [rule for rule in show.rules if not rule.pattern or _matches(shot, show, rule.pattern)]


def _matches(shot: Path, show: Show, pattern: str) -> bool:
    """Tell whether a pattern is a shot's: by the file's name with or without its suffix, or by its path from the show
    file; * stands for any letters.
    """
    whole, folder = shot.absolute(), show.path.absolute().parent
    from_show = whole.relative_to(folder).as_posix() if whole.is_relative_to(folder) else whole.as_posix()
    return any(fnmatchcase(name, pattern) for name in (shot.stem, shot.name, from_show))


def _source(show: Show | None, rule: Rule, key: str) -> str:
    assert show is not None
    of_shots = f', [{SHOTS}."{rule.pattern}"]' if rule.pattern else ""
    return f"{show.path.name}, line {rule.lines[key]}{of_shots}"
