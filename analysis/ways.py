"""How each shot of a day is read and judged: by the call's options, its show file, and defaults."""

import argparse
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from .day import DayRequest
from .files import Named
from .limits import Limits
from .shot import Extras
from .show.choices import Choice, choices, settings_from, skipped
from .show.show_file import Show, Shows
from .world import GRAVITIES

GIVEN = ("track", "gravity", "kind", "step", "smallest_hop", "feet", "fps", "limits")
"""Options that a show file may say, too."""
NAME_WIDTH = 14
UNSAID = {
    "track": "what a file offers", "tracks": "as they are found", "gravity": "the scene's, or Earth's",
    "smallest_hop": f"{Limits().smallest_hop:g} m", "feet": "as the file says", "fps": "24",
    "limits": "Leapwright's own",
}  # fmt: skip
"""What holds where nobody says anything."""


@dataclass(frozen=True, slots=True)
class Ways:
    """The files of a day to read, each with its way; and those a show file skips, with what says so.

    shows   the show files that have a say, each once
    """

    files: tuple[Named, ...]
    ways: tuple[DayRequest, ...]
    skipped: tuple[tuple[Path, str], ...] = ()
    shows: tuple[Show, ...] = ()

    @property
    def name(self) -> str:
        """The show's name; of several, all."""
        return ", ".join(dict.fromkeys(show.name for show in self.shows if show.name))


def ways_of(files: Sequence[Named], arguments: argparse.Namespace, extras: Extras) -> Ways:
    """Find each file's way. Raises SettingsError for a show file that is not sound."""
    shows = Shows()
    taken: list[tuple[Named, DayRequest]] = []
    left: list[tuple[Path, str]] = []
    for named in files:
        show = shows.of(named.path)
        if why := skipped(named.path, show):
            left.append((named.path, why))
            continue
        taken.append((named, way_from(choices(named.path, show, given(arguments)), arguments, extras)))
    return Ways(tuple(named for named, _ in taken), tuple(way for _, way in taken), tuple(left), shows.found)


def given(arguments: argparse.Namespace) -> dict[str, Any]:
    """Tell what the call's options say of what a show file may say, too."""
    return {name: getattr(arguments, name) or None for name in GIVEN}


def way_from(chosen: Mapping[str, Choice], arguments: argparse.Namespace, extras: Extras) -> DayRequest:
    """Put a shot's choices together with what only the call says."""
    follow = chosen["tracks"].value if chosen["track"].value is None else None
    return DayRequest(
        settings_from(chosen),
        track=chosen["track"].value,
        gravity=chosen["gravity"].value,
        fps=chosen["fps"].value,
        extras=replace(extras, feet=chosen["feet"].value, follow=tuple((follow or {}).items())),
        jobs=arguments.jobs,
        timeout=arguments.timeout,
        scheduler=arguments.scheduler,
    )


def explained(paths: Iterable[Path], arguments: argparse.Namespace) -> str:
    """Say of each shot what holds for it, and which rule gave it, as lines of text."""
    shows, lines = Shows(), []
    for path in paths:
        show = shows.of(path)
        lines += [str(path), f"  {'show file':<{NAME_WIDTH}} {show.path if show else 'none found upward from it'}"]
        if why := skipped(path, show):
            lines.append(f"  {'skipped':<{NAME_WIDTH}} {why}")
        for key, choice in choices(path, show, given(arguments)).items():
            lines += [
                f"  {name:<{NAME_WIDTH}} {value:<24} {choice.source}" for name, value in _told(key, choice.value)
            ]
    return "\n".join(lines) + "\n"


def _told(key: str, value: Any) -> list[tuple[str, str]]:
    """Return a value in words, a table row by row."""
    if value is None:
        return [(key.replace("_", "-"), UNSAID[key])]
    if isinstance(value, Mapping):
        return [(f"{key}.{name}", str(one)) for name, one in value.items()]
    if key == "gravity" and value != "scene":
        world = next((name for name, one in GRAVITIES.items() if one == value), "")
        return [(key, f"{value:g} m/s²" + f" ({world})" * bool(world))]
    return [(key.replace("_", "-"), f"{value:g} m" if key == "smallest_hop" else str(value))]


def settings_told(ways: Ways) -> tuple[tuple[str, str], ...]:
    """Tell what holds for every shot of a day, for the head of its page; a figure that differs is left out."""
    told = []
    for name, values in (
        ("kind", {way.settings.world.kind for way in ways.ways}),
        ("step", {str(way.settings.world.step) for way in ways.ways}),
        ("smallest hop", {f"{way.settings.limits.smallest_hop:g} m" for way in ways.ways}),
    ):
        told += [(name, value) for value in values if len(values) == 1]
    return tuple(told)
