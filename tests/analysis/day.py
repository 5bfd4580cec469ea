"""A day at Tern Quay for the tests: hops with known events, as track files, as audited shots, and by the command."""

import json
import math
from collections.abc import Iterable
from dataclasses import asdict, replace
from pathlib import Path

import numpy as np
from leapwright.analysis import Finding, Settings, Track, command
from leapwright.analysis.dailies.day import Day, day_of
from leapwright.analysis.dailies.document import as_document
from leapwright.analysis.dailies.notes import NOTES_SCHEMA, ReviewNote
from leapwright.analysis.report.data import shot_data
from leapwright.analysis.shot import Reading, Shot, audit_reading

from tests.truth.answer import Motion
from tests.truth.compose import compose, draw_leap

FLOATY = Finding(
    code="air-floaty",
    severity="check",
    frames=(12.4, 30.0),
    template="The flight takes {frames} frames; <real> time asks for {expected}",
    mend_template="Move the landing key from {old} to {new}",
    values={"frames": 18, "expected": 12, "old": 30, "new": 24},
    measured=18.0,
    expected=12.0,
)


def hop(seed: int = 1, *, leaps: int = 1, fps: float = 24.0) -> Motion:
    """Return believable hops of one track and what they really are."""
    rng = np.random.default_rng(seed)
    return compose("hop", seed, rng, [draw_leap(rng, fps, pace=(1.0, 1.0)) for _ in range(leaps)], fps)


def document(track: Track) -> dict:
    """Return a track as its file's JSON object."""
    return {
        "name": track.name,
        "fps": track.fps,
        "frames": track.frames.tolist(),
        "positions": track.positions.tolist(),
    }


def track_file(path: Path, track: Track | None = None) -> Path:
    """Write a track, or a hop, to a track file of JSON or CSV."""
    track = hop().track if track is None else track
    if path.suffix == ".json":
        path.write_text(json.dumps(document(track)))
    else:
        rows = np.column_stack([track.frames, track.positions])
        path.write_text("frame,x,y,z\n" + "".join(",".join(map(repr, row)) + "\n" for row in rows.tolist()))
    return path


def two_shots(folder: Path) -> Path:
    """Make a folder of two shots, a JSON and a CSV track file of a hop each."""
    folder.mkdir()
    track_file(folder / "tq010_barge_hop.json", hop(1).track)
    track_file(folder / "tq020_crate_hop.csv", hop(2).track)
    return folder


def shot(path: str = "dailies/tq010_barge_hop.json", *, found: tuple[Finding, ...] = (), seed: int = 1) -> Shot:
    """Return an audited shot whose first jump has just these findings."""
    audited = audit_reading(path, Reading((hop(seed).track,)), Settings())
    audit = audited.audits[0]
    jumps = (replace(audit.jumps[0], findings=found), *audit.jumps[1:])
    return replace(audited, audits=(replace(audit, jumps=jumps),))


def day(*shots: Shot, **options: object) -> Day:
    """Return audited shots as a day."""
    return day_of(as_document(map(shot_data, shots), "0.1.0"), **options)


def call(*argv: object) -> int:
    """Run the command without a Blender and return its exit code."""
    return command.main([str(word) for word in argv])


def pinned(of_shot: Shot, **frames: float) -> Shot:
    """Return the shot with events of its first jump pinned to frames, as an audit writes them."""
    audit = of_shot.audits[0]
    events = {
        name: replace(getattr(audit.jumps[0], name), frame=frame, frame_error=0.0, pinned=True)
        for name, frame in frames.items()
    }
    return replace(of_shot, audits=(replace(audit, jumps=(replace(audit.jumps[0], **events),)),))


def alike(one: object, other: object) -> bool:
    """Tell whether two documents are equal, their figures to five digits."""
    if isinstance(one, dict) and isinstance(other, dict):
        return one.keys() == other.keys() and all(alike(one[name], other[name]) for name in one)
    if isinstance(one, list) and isinstance(other, list):
        return len(one) == len(other) and all(map(alike, one, other))
    if isinstance(one, float) or isinstance(other, float):
        return one is not None and other is not None and math.isclose(one, other, rel_tol=1e-5)
    return one == other


def notes_text(notes: Iterable[ReviewNote]) -> str:
    """Write notes as their file, in a stable order."""
    said = (note for note in notes if note.word or note.text)
    kept = sorted(said, key=lambda note: (note.shot, note.track, note.frames))
    data = {"schema": NOTES_SCHEMA, "notes": [asdict(note) for note in kept]}
    return json.dumps(data, indent=1, ensure_ascii=False) + "\n"
