"""The audits of a day as CSV, for a spreadsheet: one row a jump; a shot without one has a row of its own."""

import csv
import io
from collections.abc import Iterator, Mapping
from typing import Any

from ..track import EVENTS
from .labels import printable

SHEET_FIGURES = (
    "push_distance", "jump_height", "drop_height", "absorb_distance", "push_ratio", "absorb_ratio",
    "push_frames", "push_frames_expected", "rise_frames", "rise_frames_expected", "fall_frames",
    "fall_frames_expected", "airtime_frames", "fitted_gravity", "fitted_gravity_error", "air_pace",
    "push_pace", "agreement", "push_shape", "residual_rms", "top_quarter_share", "travel_speed",
    "travel_spread", "distance",
)  # fmt: skip
SHEET_COLUMNS = (
    "path", "status", "track", "jump",
    *EVENTS, *(f"{event}_error" for event in EVENTS),
    *SHEET_FIGURES, "worst", "findings", "notes", "pinned", "certainty", "certainty_value",
)  # fmt: skip


FORMULA = ("=", "+", "-", "@", "\t", "\r")
"""A cell that begins so is worked out by a spreadsheet (OWASP, "CSV Injection"); after ' it is a text."""


def as_csv(document: Mapping[str, Any]) -> str:
    """Write the audit's document as CSV with a header row; units as in the JSON, an empty cell: not known."""
    out = io.StringIO(newline="")
    writer = csv.DictWriter(out, SHEET_COLUMNS, restval="", lineterminator="\n")
    writer.writeheader()
    for shot in document["shots"]:
        writer.writerows({name: _cell(value) for name, value in row.items()} for row in _rows(shot))
    return out.getvalue()


def _cell(value: Any) -> Any:
    """Make a text printable, and one that a spreadsheet would take for a formula a text."""
    if not isinstance(value, str):
        return value
    return f"'{printable(value)}" if value.startswith(FORMULA) else printable(value)


def _rows(shot: Mapping[str, Any]) -> Iterator[dict[str, Any]]:
    start, notes = {"path": shot["path"], "status": shot["status"]}, shot.get("notes", ())
    if not shot["tracks"]:
        yield {**start, "notes": " | ".join((*filter(None, [shot.get("reason")]), *notes))}
    for track in shot["tracks"]:
        of_track = {**start, "track": track["name"], "notes": " | ".join((*notes, *track["notes"]))}
        if not track["jumps"]:
            yield of_track
        for number, jump in enumerate(track["jumps"], 1):
            yield {**of_track, "jump": number, **_jump_cells(jump)}


def _jump_cells(jump: Mapping[str, Any]) -> dict[str, Any]:
    cells = {name: jump.get(name) for name in (*SHEET_FIGURES, "certainty", "certainty_value")}
    for name in EVENTS:
        event = jump[name] or {}
        cells[name], cells[f"{name}_error"] = event.get("frame"), event.get("frame_error")
    cells["pinned"] = " ".join(name for name in EVENTS if jump[name] and jump[name].get("pinned"))
    findings = jump["findings"]
    cells["worst"] = findings[0]["severity"] if findings else ""
    cells["findings"] = " ".join(finding["code"] for finding in findings)
    return cells
