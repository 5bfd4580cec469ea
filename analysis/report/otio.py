"""The day as a timeline of OpenTimelineIO: a clip a shot, with a marker at each event of its jumps.

https://opentimelineio.readthedocs.io: what editors and players exchange. Written by its own library, which an extra
of the package brings.
"""

from collections.abc import Iterator, Mapping
from typing import Any

import opentimelineio as otio
from opentimelineio.opentime import RationalTime, TimeRange
from opentimelineio.schema import Clip, Marker, MarkerColor, MissingReference, Timeline, Track, TrackKind

from ..dailies.rows import DayRow, day_rows
from ..track import EVENTS

MARKER_COLORS = {"fix": MarkerColor.RED, "check": MarkerColor.YELLOW, "note": MarkerColor.CYAN, "": MarkerColor.GREEN}
"""By the severity of the gravest finding, of the colors that the format names."""


def as_otio(document: Mapping[str, Any]) -> str:
    """Write a day's document as a timeline, in the order of its shots; those without a track are left out."""
    timeline = Timeline(str(document.get("show") or "Jumps of the day"), metadata=_ours(schema=document["schema"]))
    shots = Track("shots", kind=TrackKind.Video)
    clips: dict[str, Clip] = {}
    for row in day_rows(document):
        path = str(row.shot["path"])
        if row.track is not None and path not in clips:
            clips[path] = _clip(row)
        if row.jump is not None:
            clips[path].markers.extend(_markers(row, row.jump))
    shots.extend(clips.values())
    timeline.tracks.append(shots)
    return str(otio.adapters.write_to_string(timeline, "otio_json")) + "\n"


def _clip(row: DayRow) -> Clip:
    """Return a shot over the frames of all its tracks; it has a file to open, and no footage."""
    fps, tracks = float(row.shot["fps"]), row.shot["tracks"]
    first = min(track["frame_start"] for track in tracks)
    last = max(track["frame_end"] for track in tracks)
    lasts = TimeRange(RationalTime(first, fps), RationalTime(last - first + 1, fps))
    return Clip(row.label, MissingReference(), lasts, metadata=_ours(path=row.shot["path"]))


def _markers(row: DayRow, jump: Mapping[str, Any]) -> Iterator[Marker]:
    """Yield a marker an event; what was found stands in the metadata of all of them."""
    fps = float(row.shot["fps"])
    found = [f"{finding['severity']} {finding['code']}: {finding['message']}" for finding in row.findings]
    gravest = row.findings[0]["severity"] if row.findings else ""
    for name in EVENTS:
        if jump[name]:
            at = TimeRange(RationalTime(jump[name]["frame"], fps), RationalTime(0.0, fps))
            told = _ours(event=name, jump=row.number, track=row.track_name, findings=found)
            yield Marker(f"{row.track_name} {row.number} {name}", at, MARKER_COLORS[gravest], told)


def _ours(**values: object) -> dict[str, object]:
    """Return metadata under our own name, as the format asks."""
    return {"leapwright": values}
