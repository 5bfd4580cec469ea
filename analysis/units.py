"""Lengths and gravities as people write them: 5cm, 1.2m, 2ft, 1ft6in; moon, 9.81."""

import math
import re
from contextlib import suppress

from .errors import SettingsError
from .world import GRAVITIES, World

METERS_PER_UNIT = {"m": 1.0, "cm": 0.01, "mm": 0.001, "ft": 0.3048, "in": 0.0254}
"""Meters in each unit; foot and inch: international yard and pound agreement of 1959, exact."""

LENGTH_PART = re.compile(r"(\d+\.?\d*|\.\d+)\s*(mm|cm|m|ft|in)\s*", re.ASCII)


def meters_of(text: str) -> float:
    """Turn a written length into meters; parts add up.

    Raises SettingsError for a text that is none, for one without a unit, and for nothing at all.

    >>> meters_of("1ft6in")
    0.4572
    """
    rest, total = text.strip().lower(), 0.0
    while rest and (part := LENGTH_PART.match(rest)):
        total += float(part[1]) * METERS_PER_UNIT[part[2]]
        rest = rest[part.end() :]
    if rest or not (0.0 < total < math.inf):
        raise SettingsError(f"a length is a number above 0 with its unit, such as 5cm or 1ft6in, not {text!r}")
    return round(total, 12)


def gravity(value: object, *, besides: str = "") -> float:
    """Turn a world's name or a number into m/s²; besides: what else could have been given, for the refusal.

    Raises SettingsError for a name of no world, and for what is not above 0.

    >>> gravity("moon"), gravity("9.81")
    (1.62, 9.81)
    """
    number = 0.0
    if isinstance(value, str | float | int) and not isinstance(value, bool):
        with suppress(ValueError, OverflowError):
            number = GRAVITIES[value] if isinstance(value, str) and value in GRAVITIES else float(value)
    if number <= 0.0 or not math.isfinite(number):
        names = ", ".join(filter(None, (besides, f"one of {', '.join(GRAVITIES)}")))
        raise SettingsError(f"must be {names}, or a number of m/s² above 0, not {value!r}")
    return World(gravity=number).gravity
