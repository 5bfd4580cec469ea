"""The figures of a jump, measured beside expected, as texts for a table."""

from collections.abc import Iterator, Mapping
from typing import Any

from .labels import UNKNOWN, figure_text

FRAMES = (
    ("push", "push_frames", "push_frames_expected"),
    ("rise", "rise_frames", "rise_frames_expected"),
    ("fall", "fall_frames", "fall_frames_expected"),
    ("airtime", "airtime_frames", ""),
    ("absorb", "absorb_frames", "absorb_frames_expected"),
)
LENGTH_FIGURES = (
    ("jump height", "jump_height", " m"),
    ("drop height", "drop_height", " m"),
    ("push distance", "push_distance", " m"),
    ("absorb distance", "absorb_distance", " m"),
    ("distance", "distance", " m"),
    ("speed over the ground", "travel_speed", " m/s"),
)

LEAST_SHOWN = 0.005
"""Meters, or meters a second, under which a figure of two digits shows nothing."""


def figure_rows(jump: Mapping[str, Any]) -> Iterator[tuple[str, str, str]]:
    """Yield name, measured and expected of what is known of a jump of the document; "" where nothing is expected."""
    airtime = jump["rise_frames_expected"] + jump["fall_frames_expected"]
    for name, measured, expected in FRAMES:
        asked = jump[expected] if expected else airtime
        yield name, _with_error(jump, measured, " f", 1), figure_text(asked, " f", 1)
    yield "air pace", _with_error(jump, "air_pace"), "1"
    yield "push pace", _with_error(jump, "push_pace"), figure_text(jump["air_pace"])
    yield "agreement", _with_error(jump, "agreement"), "1"
    yield "fitted gravity", _with_error(jump, "fitted_gravity", " m/s²"), figure_text(jump["gravity"], " m/s²")
    yield "push ratio", _with_error(jump, "push_ratio"), _most(jump)
    for name, field, unit in LENGTH_FIGURES:
        yield name, _with_error(jump, field, unit), ""


def known_figures(jump: Mapping[str, Any]) -> list[tuple[str, str, str]]:
    """Return those rows whose figure was measured, is not nothing as it is shown, and not what the row before shows."""
    nothing = {name for name, field, _ in LENGTH_FIGURES if jump[field] is not None and abs(jump[field]) < LEAST_SHOWN}
    rows = [row for row in figure_rows(jump) if row[1] != UNKNOWN and row[0] not in nothing]
    return [row for before, row in zip([None, *rows], rows, strict=False) if _tells_more(before, row)]


def _tells_more(before: tuple[str, str, str] | None, row: tuple[str, str, str]) -> bool:
    """Say whether a row tells more: the drop of a jump on the level is its height."""
    return before is None or row[0] != "drop height" or before[1] != row[1]


def _with_error(jump: Mapping[str, Any], field: str, unit: str = "", digits: int = 2) -> str:
    """Return a figure with its error where that is large enough to be seen beside it."""
    value, error = jump[field], jump.get(f"{field}_error")
    if value is None or error is None or f"{error:.{digits}f}" == f"{0:.{digits}f}":
        return figure_text(value, unit, digits)
    return f"{value:.{digits}f} ± {error:.{digits}f}{unit}"


def _most(jump: Mapping[str, Any]) -> str:
    """Return the push ratio that this kind of jumper reaches there; an older document does not say it."""
    most = jump.get("push_ratio_most")
    return "" if most is None else f"to {most:.3g}"
