"""The audits of a day laid flat, as leapwright-audit/1 has them: meters, frames, seconds, m/s²; null: not known."""

import base64
import math
from collections.abc import Sequence
from dataclasses import fields
from typing import Any

from ..audit import Audit
from ..figures import flat
from ..finding import Finding
from ..jump import Jump
from ..mend import Mend
from ..mending.words import sentence
from ..phases import Event
from ..shot import Pose, Shot, Thumbnail
from ..track import Track
from .path import path_data

SIGNIFICANT_DIGITS = 9
"""Significant digits kept: more than any figure has, and no 0.30000000000000004."""


def shot_data(shot: Shot) -> dict[str, Any]:
    """Return one shot; `reason` only where it is unreadable, `notes` those about the file as a whole."""
    count = len(shot.audits)
    reasons, tracks = shot.reasons or ("",) * count, shot.tracks or (None,) * count
    all_poses, thumbnails = shot.poses or ((),) * count, shot.thumbnails or ((),) * count
    return {
        "path": shot.path,
        "status": shot.status,
        **({"reason": shot.reason} if shot.reason is not None else {}),
        "fps": _figure(shot.fps),
        "gravity": _figure(shot.gravity),
        "seconds": round(shot.seconds, 4),
        "notes": list(shot.notes),
        "tracks": [
            track_data(audit, why, track, poses, rendered)
            for audit, why, track, poses, rendered in zip(
                shot.audits, reasons, tracks, all_poses, thumbnails, strict=True
            )
        ],
    }


def track_data(
    audit: Audit,
    why: str = "",
    track: Track | None = None,
    poses: Sequence[Sequence[Pose]] = (),
    thumbnails: Sequence[Thumbnail | None] = (),
) -> dict[str, Any]:
    """Return one track; `reason` says why it was taken, where the file holds more than tracks.

    Jumps have their `path` where the track is given, and their `poses` and `thumbnail` where those are.
    """
    jumps = [jump_data(jump) for jump in audit.jumps]
    if track is not None:
        for jump in jumps:
            jump["path"] = path_data(track, jump)
    for jump, of_jump in zip(jumps, poses, strict=False):
        jump["poses"] = [pose_data(pose) for pose in of_jump]
    for jump, thumbnail in zip(jumps, thumbnails, strict=False):
        if thumbnail is not None:
            jpeg = base64.b64encode(thumbnail.jpeg).decode()
            jump["thumbnail"] = {"frame": _figure(thumbnail.frame), "jpeg": jpeg}
    return {
        "name": audit.name,
        "source": audit.source,
        **({"reason": why} if why else {}),
        "frame_start": _figure(audit.frame_start),
        "frame_end": _figure(audit.frame_end),
        "notes": list(audit.notes),
        "jumps": jumps,
    }


def pose_data(pose: Pose) -> dict[str, Any]:
    """Return one pose: its event, its frame, and its lines in meters, across and up by turns."""
    return {"event": pose.event, "frame": _figure(pose.frame), "lines": [list(line) for line in pose.lines]}


def jump_data(jump: Jump) -> dict[str, Any]:
    """Return one jump: every figure under its flat name, then findings and mends."""
    return {name: _plain(value) for name, value in flat(jump).items()} | {
        "findings": [finding_data(finding) for finding in jump.findings],
        "mends": [mend_data(mend, jump) for mend in jump.mends],
    }


def finding_data(finding: Finding) -> dict[str, Any]:
    """Return one finding, its sentences filled in."""
    return {
        "code": finding.code,
        "severity": finding.severity,
        "frames": [_figure(frame) for frame in finding.frames],
        "message": finding.message,
        "mend": finding.mend,
        "measured": _figure(finding.measured),
        "expected": _figure(finding.expected),
    }


def mend_data(mend: Mend, jump: Jump) -> dict[str, Any]:
    """Return one mend: its way, the retiming that does it or null, where events go, and what is left; lengths in
    meters.
    """
    return {
        "way": mend.way.value,
        "keep": mend.keep,
        "frames": {event: _figure(frame) for event, frame in mend.frames},
        "left_over": _figure(mend.left),
        "air_pace": _figure(mend.pace),
        "jump_height": _figure(mend.height),
        "push_distance": _figure(mend.depth),
        "absorb_distance": _figure(mend.sink),
        "text": sentence(mend, jump),
    }


def _plain(value: Any) -> Any:
    if isinstance(value, Event):
        return {field.name: _plain(getattr(value, field.name)) for field in _event_fields(value)}
    if isinstance(value, tuple):
        return [_plain(item) for item in value]
    return value if value is None or isinstance(value, (bool, str)) else _figure(value)


def _event_fields(event: Event) -> list[Any]:
    """Return frame, frame_error and height; `pinned` only where it is set."""
    kept = ("frame", "frame_error", "height", *(("pinned",) if event.pinned else ()))
    return [field for field in fields(event) if field.name in kept]


def _figure(value: float | None) -> float | int | None:
    """Return a JSON number; null for what is not known or not finite. A whole number is written as one."""
    if value is None or not math.isfinite(value):
        return None
    rounded = float(f"{float(value):.{SIGNIFICANT_DIGITS}g}")
    return int(rounded) if rounded == int(rounded) and abs(rounded) < 1e9 else rounded
