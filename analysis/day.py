"""The day's shots: each file read and audited as it is done; what cannot be read says why."""

import time
import traceback
from collections.abc import Callable, Generator, Sequence
from contextlib import closing
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path

from .errors import LeapwrightError, SourceError
from .files import IN_BLENDER, Named
from .settings import Settings
from .shot import Extras, Reading, Shot, audit_reading, unreadable
from .sources import READERS, check_is_file, read_file, suffixes_said
from .terminal import tell


@dataclass(frozen=True, slots=True)
class DayRequest:
    """How shots are read and judged.

    track     the name of the one to audit; None: what a file offers
    gravity   m/s², or "scene"; None: a scene's own, and Earth's for a file without
    fps       frames per second, of track files that say none
    jobs      files that are read at once; None: as many as it helps
    timeout   seconds, the longest wait for a file
    scheduler  the address of a Dask cluster that reads them; None: this machine
    """

    settings: Settings
    track: str | None = None
    gravity: float | str | None = None
    fps: float | None = None
    extras: Extras | None = None
    jobs: int | None = None
    timeout: float = 120.0
    scheduler: str | None = None


AuditEach = Callable[[Sequence[Path], DayRequest], Generator[tuple[int, Shot], None, None]]
"""Reads and audits files: each one's place in the list with its shot, as they are done."""


def audit_files(
    files: Sequence[Named], way: DayRequest, audit_each: AuditEach
) -> Generator[tuple[int, Shot], None, None]:
    """Yield every file's place in the list with its shot, as they are done."""
    places = []
    for place, named in enumerate(files):
        try:
            if named.reason is not None:
                raise SourceError(named.reason)
            check_is_file(named.path)
            places.append(place)
        except SourceError as refusal:
            yield place, unreadable(str(named.path), str(refusal))
    with closing(audit_each([files[place].path for place in places], way)) as shots:
        for number, shot in shots:
            yield places[number], shot


def audit_tracks(paths: Sequence[Path], way: DayRequest) -> Generator[tuple[int, Shot], None, None]:
    """Read and audit track files here, one after the other."""
    for place, path in enumerate(paths):
        yield place, guarded(path, partial(audit_track_file, path, way))


def audit_track_file(path: Path, way: DayRequest) -> Shot:
    """Read a track file and audit it. Raises SourceError or TrackError, a sentence each."""
    began = time.perf_counter()
    return judged(path, read_track(path, way), way, began)


def read_track(path: Path, way: DayRequest) -> Reading:
    """Read a track file. Raises SourceError or TrackError, a sentence each."""
    check_is_file(path)
    if path.suffix.lower() not in READERS:
        raise SourceError(f"it is not a shot: those are named {suffixes_said([*IN_BLENDER, *READERS])}")
    reading = read_file(path, fps=way.fps)
    tracks = tuple(track for track in reading.tracks if way.track in (None, track.name))
    if not tracks:
        names = ", ".join(f'"{track.name}"' for track in reading.tracks)
        raise SourceError(f'it holds no track "{way.track}"; it has {names}')
    note = ("the file has no gravity: Earth's taken",) if way.gravity == "scene" else ()
    return replace(reading, tracks=tracks, notes=(*reading.notes, *note))


def judged(path: Path, reading: Reading, way: DayRequest, began: float) -> Shot:
    """Audit what was read of a file; began: when, by time.perf_counter."""
    own = reading.tracks[0].fps
    if way.fps is not None and own != way.fps:
        note = f"--fps {way.fps:g} is not used: the file has its own rate, {own:g}"
        reading = replace(reading, notes=(*reading.notes, note))
    gravity = None if isinstance(way.gravity, str) else way.gravity
    return audit_reading(
        str(path), reading, way.settings, gravity=gravity, clock=lambda: time.perf_counter() - began
    )


def guarded(path: Path, audit: Callable[[], Shot]) -> Shot:
    """Give a shot; a refusal becomes its reason, and so does a bug, which shows its traceback."""
    began = time.perf_counter()
    try:
        return audit()
    except LeapwrightError as refusal:
        reason = str(refusal)
    except Exception as fault:  # one bad shot is a row, not the end
        tell(traceback.format_exc())
        reason = f"a fault in Leapwright, please report it: {type(fault).__name__}: {fault}"
    return unreadable(str(path), reason, seconds=time.perf_counter() - began)
