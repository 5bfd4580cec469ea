"""House limits: a studio's own thresholds, from a preset in plain words or a TOML file, read strictly.

A file has one name of `Limits` a line, `gravity_band = 0.3`, at its top or in a table [limits], and perhaps a preset
that they start from, `preset = "broad"`. What it does not name stays as it is.
"""

import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field, fields, replace
from pathlib import Path
from typing import Any

from .errors import SettingsError
from .limits import Limits

MOST_LIMITS_BYTES = 100_000
LIMITS_TABLE, PRESET_KEY = "limits", "preset"
LIMIT_NAMES = tuple(limit.name for limit in fields(Limits))


@dataclass(frozen=True, slots=True)
class Preset:
    """Limits under a name, and in plain words what they are for."""

    words: str
    values: Mapping[str, Any]
    limits: Limits = field(init=False)
    """The limits as a whole."""

    def __post_init__(self) -> None:
        object.__setattr__(self, "limits", replace(Limits(), **self.values))


PRESETS = {
    "believable": Preset("Tells what a viewer takes for wrong in a jump that is to look real", {}),
    "broad": Preset(
        "Leaves room for a style: tells only what breaks it, such as a push that has nothing to do with its flight",
        {
            "gravity_band": 0.6, "gravity_fix_over": 2.5, "gravity_fix_under": 0.4, "hang_band": 0.2,
            "apex_band": 0.25, "arc_band": 0.08, "drawn_band": 0.16, "push_check": 0.5, "push_check_short": 0.3,
            "push_fix": 1.0, "push_fix_short": 0.4, "speed_jump": 0.5, "travel_band": 0.3, "travel_band_root": 0.5,
            "absorb_mushy": 3.0, "absorb_stiff": 0.35,
        },
    ),
    "narrow": Preset(
        "For a character beside filmed people: tells what is off by little, too",
        {
            "gravity_band": 0.15, "hang_band": 0.07, "apex_band": 0.1, "arc_band": 0.03, "drawn_band": 0.05,
            "push_check": 0.2, "push_check_short": 0.08, "speed_jump": 0.2, "travel_band": 0.12,
            "travel_band_root": 0.27, "absorb_mushy": 1.7, "absorb_stiff": 0.6,
        },
    ),
}  # fmt: skip
"""All ours: no published threshold of what viewers see could be read."""


def read_limits(path: Path) -> Limits:
    """Read the limits of a file. Raises SettingsError with the file, the line and the key."""
    try:
        if path.stat().st_size > MOST_LIMITS_BYTES:
            raise SettingsError(f"{path}: it is larger than {MOST_LIMITS_BYTES // 1000} kB: no file of limits is")
        text = path.read_text(encoding="utf-8")
    except OSError as error:
        raise SettingsError(f"{path} cannot be read: {(error.strerror or str(error)).lower()}") from None
    except UnicodeDecodeError:
        raise SettingsError(f"{path}: it is not text in UTF-8") from None
    try:
        return limits_from(text)
    except SettingsError as refusal:
        raise SettingsError(f"{path}: {refusal}") from None


def limits_from(text: str) -> Limits:
    """Read the limits of a TOML text. Raises SettingsError with the line and the key.

    >>> limits_from('preset = "broad"\\npush_check = 0.4').push_check
    0.4
    """
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise SettingsError(str(error)) from None
    table = data.pop(LIMITS_TABLE, {})
    if not isinstance(table, dict):
        raise SettingsError(_at(text, LIMITS_TABLE, "must be a table of limits"))
    if twice := next((key for key in data if key in table), None):
        raise SettingsError(_at(text, twice, f"stands both at the top and in [{LIMITS_TABLE}]"))
    values: dict[str, Any] = {**data, **table}
    preset = values.pop(PRESET_KEY, "believable")
    if not isinstance(preset, str) or preset not in PRESETS:
        raise SettingsError(_at(text, PRESET_KEY, f"must be one of {', '.join(PRESETS)}, not {preset!r}"))
    for key, value in values.items():
        if key not in LIMIT_NAMES:
            raise SettingsError(_at(text, key, "is no limit"))
        if isinstance(value, bool) or not isinstance(value, int | float):
            raise SettingsError(_at(text, key, f"must be a number, not {value!r}"))
        if key == "fewest_air_samples" and not isinstance(value, int):
            raise SettingsError(_at(text, key, f"must be a whole number, not {value!r}"))
        try:
            replace(Limits(), **dict[str, Any]({key: value}))
        except SettingsError as refusal:
            raise SettingsError(_at(text, key, str(refusal))) from None
    return replace(PRESETS[preset].limits, **values)


def changed(limits: Limits) -> dict[str, float]:
    """Return the limits that differ from Leapwright's own, by name."""
    return {name: getattr(limits, name) for name in LIMIT_NAMES if getattr(limits, name) != getattr(Limits(), name)}


def _at(text: str, key: str, wrong: str) -> str:
    """Tell what is wrong, with the line in which the key stands first."""
    named = re.compile(rf"\s*(\[\s*{re.escape(key)}\s*\]|([\w-]+\s*\.\s*)?[\"']?{re.escape(key)}[\"']?\s*[=.])")
    line = next((n for n, row in enumerate(text.splitlines(), 1) if named.match(row)), 1)
    return f"line {line}, {key}: {wrong}"
