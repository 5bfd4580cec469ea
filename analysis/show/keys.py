"""The keys of a show file: what each takes, and what is wrong with a value that it does not take."""

from collections.abc import Callable, Mapping
from dataclasses import fields
from typing import Any

from .. import units
from ..errors import SettingsError
from ..limits import Limits
from ..world import JUMPERS, World

SHOW_FILE = "leapwright.toml"
LIMITS = tuple(limit.name for limit in fields(Limits))
FEET = ("auto", "on", "off")
MOST_FPS = 1e5


def gravity(value: object) -> float | str:
    """Return the gravity, m/s², of a world's name or a number; "scene" as it is."""
    if value == "scene":
        return "scene"
    return units.gravity(value, besides="scene")


def length(value: object) -> float:
    """Return the meters of a length with its unit."""
    if isinstance(value, str):
        return units.meters_of(value)
    raise SettingsError(f'must be a length with its unit, such as "5cm", not {value!r}')


def fps(value: object) -> float:
    """Return the frames per second."""
    if (number := _number(value)) is not None and 0.0 < number <= MOST_FPS:
        return number
    raise SettingsError(f"must be a number above 0 and at most {MOST_FPS:g}, not {value!r}")


def step(value: object) -> int:
    """Return the frames a pose."""
    if isinstance(value, int) and not isinstance(value, bool):
        return World(step=value).step
    raise SettingsError(f"must be a whole number of frames, not {value!r}")


def text_value(value: object) -> str:
    """Return a text that is not empty."""
    if isinstance(value, str) and value.strip():
        return value
    raise SettingsError(f"must be a text that is not empty, not {value!r}")


def text_values(value: object) -> tuple[str, ...]:
    """Return a list of such texts."""
    if isinstance(value, list):
        return tuple(map(text_value, value))
    raise SettingsError(f'must be a list of patterns, such as ["*_wip"], not {value!r}')


def flag(value: object) -> bool:
    """Return true or false."""
    if isinstance(value, bool):
        return value
    raise SettingsError(f"must be true or false, not {value!r}")


def one_of(choices: tuple[str, ...]) -> Callable[[object], str]:
    """Return a check for one of a few words."""

    def check(value: object) -> str:
        if isinstance(value, str) and value in choices:
            return value
        raise SettingsError(f"must be one of {', '.join(choices)}, not {value!r}")

    return check


def _number(value: object) -> float | None:
    """Return a number that is not true or false; None for anything else."""
    return float(value) if isinstance(value, int | float) and not isinstance(value, bool) else None


def limits(value: object) -> Mapping[str, float]:
    """Return house limits by name, as far as they are given."""
    given: dict[str, float] = {}
    for key, said in _table(value, LIMITS):
        number = _number(said)
        if number is None or number <= 0:
            raise SettingsError(f"must be a number above 0, not {said!r}", key)
        given[key] = number
    return given


def tracks(value: object) -> Mapping[str, str]:
    """Tell which track to follow of each character: patterns of armatures, each with a bone's name or "com"."""
    if not isinstance(value, dict):
        raise SettingsError(f"must be a table of characters and tracks, not {value!r}")
    for key, track in value.items():
        if not isinstance(track, str) or not track:
            raise SettingsError(f'must be the name of a bone, or "com", not {track!r}', key)
    return dict(value)


ANYWHERE: Mapping[str, Callable[[object], Any]] = {
    "gravity": gravity, "kind": one_of(tuple(JUMPERS)), "step": step, "smallest_hop": length, "fps": fps,
    "feet": one_of(FEET), "track": text_value, "tracks": tracks, "limits": limits,
}  # fmt: skip
"""Keys that hold for the whole show, or for some of its shots."""
AT_TOP = {**ANYWHERE, "show": text_value, "skip": text_values}
OF_SHOTS = {**ANYWHERE, "skip": flag}


def _table(value: object, known: tuple[str, ...]) -> list[tuple[str, object]]:
    if not isinstance(value, dict):
        raise SettingsError(f"must be a table, not {value!r}")
    for key in value:
        if key not in known:
            raise SettingsError(f"is not known here; there are {', '.join(known)}", key)
    return list(value.items())
