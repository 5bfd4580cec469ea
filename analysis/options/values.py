"""Values of options: read from the words of a call, or refused with what they must be."""

import argparse
from collections.abc import Callable
from pathlib import Path
from typing import Any

from .. import units
from ..errors import SettingsError
from ..house import PRESETS, changed, read_limits

SCENE = "scene"
"""The gravity of the scene that is read."""


def file_path(text: str) -> Path:
    """Return a path that is not empty."""
    if not text:
        raise argparse.ArgumentTypeError("must not be empty")
    return Path(text)


def length(text: str) -> float:
    """Return the meters of a length with its unit."""
    try:
        return units.meters_of(text)
    except SettingsError as refusal:
        raise argparse.ArgumentTypeError(str(refusal)) from None


def duration(text: str) -> tuple[float, str]:
    """Return a count with its unit: f, frames, or s, seconds."""
    count, unit = text.strip()[:-1], text.strip()[-1:]
    if unit not in ("f", "s"):
        raise argparse.ArgumentTypeError(f"a duration is a number above 0 with f or s, such as 24f or 1s, not {text!r}")
    return number(count), unit


def limits(text: str) -> dict[str, float]:
    """Return the limits, by name, of a preset or a file that differ from Leapwright's own."""
    try:
        return changed(PRESETS[text].limits if text in PRESETS else read_limits(file_path(text)))
    except SettingsError as refusal:
        raise argparse.ArgumentTypeError(str(refusal)) from None


def gravity(text: str) -> float:
    """Return the gravity, m/s², of a world's name or a number."""
    return _gravity(text)


def gravity_or_scene(text: str) -> float | str:
    """Return the gravity, m/s², of a world's name or a number; "scene" as it is."""
    if text == SCENE:
        return text
    return _gravity(text, besides=SCENE)


def _gravity(text: str, *, besides: str = "") -> float:
    try:
        return units.gravity(text, besides=besides)
    except SettingsError as refusal:
        raise argparse.ArgumentTypeError(str(refusal)) from None


def above_zero(kind: type, what: str, most: float) -> Callable[[str], Any]:
    """Return a reader of numbers of a kind above 0 and at most so large; what: how its refusal calls them."""

    def read(text: str) -> Any:
        try:
            value = kind(text)
        except ValueError:
            value = 0
        if not 0 < value <= most:
            limit = f"{most:,.0f}".replace(",", " ")
            raise argparse.ArgumentTypeError(f"must be {what} above 0 and at most {limit}, not {text!r}")
        return value

    return read


number = above_zero(float, "a number", 1e6)
fps = above_zero(float, "a number", 1e5)
pixels = above_zero(float, "a number of pixels", 1e6)
seconds = above_zero(float, "a number of seconds", 1e6)
jobs = above_zero(int, "a whole number", 64)
jump = above_zero(int, "a whole number, counted from 1,", 1e6)
step = above_zero(int, "a whole number of frames", 1e6)


def shard(text: str) -> tuple[int, int]:
    """Return part and parts of a text such as 2/5."""
    part, _, parts = text.partition("/")
    if part.isdecimal() and parts.isdecimal() and 1 <= int(part) <= int(parts) <= 100_000:
        return int(part), int(parts)
    raise argparse.ArgumentTypeError(f"must be a part and how many parts there are, such as 2/5, not {text!r}")
