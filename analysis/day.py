"""The day's shots: each file read and audited as it is done; what cannot be read says why."""

import time
import traceback
from collections.abc import Callable, Generator, Sequence
from contextlib import closing
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from .errors import LeapwrightError, SourceError
from .files import Named
from .options.day import IN_BLENDER
from .settings import Settings
from .shot import Extras, Reading, Shot, audit_reading
from .sources import READERS, check_is_file, listed, read_file


@dataclass(frozen=True, slots=True)
class Way:
    """How shots are read and judged.

    track     the name of the one to audit; None: what a file offers
    gravity   m/s², or "scene"; None: a scene's own, and Earth's for a file without
    fps       frames per second, of track files that say none
    jobs      files that Blender reads at once; None: as many as it helps
    timeout   seconds, the longest wait for a file
    """

    settings: Settings
    track: str | None = None
    gravity: float | str | None = None
    fps: float | None = None
    extras: Extras | None = None
    jobs: int | None = None
    timeout: float = 120.0


def audit_files(
    files: Sequence[Named], way: Way, read_blends: Callable[..., Any]
) -> Generator[tuple[int, Shot], None, None]:
    """Yield every file's place in the list with its shot, as they are done: track files first."""
    blends: dict[Path, int] = {}
    for place, named in enumerate(files):
        if named.reason is not None:
            yield place, Shot(str(named.path), named.reason)
        elif named.path.suffix.lower() not in IN_BLENDER:
            yield place, _track_shot(named.path, way)
        else:
            try:
                check_is_file(named.path)
                blends[named.path] = place
            except SourceError as refusal:
                yield place, Shot(str(named.path), str(refusal))
    if not blends:
        return
    options = {"track": way.track, "jobs": way.jobs, "timeout": way.timeout, "extras": way.extras}
    with closing(read_blends(list(blends), **options)) as readings:
        for path, reading, seconds in readings:
            began = time.perf_counter() - seconds
            yield blends[path], _shot(path, lambda reading=reading: reading, way, began)


def _track_shot(path: Path, way: Way) -> Shot:
    def read() -> Reading:
        check_is_file(path)
        if path.suffix.lower() not in READERS:
            raise SourceError(f"it is not a shot: those are named {listed([*IN_BLENDER, *READERS])}")
        reading = read_file(path, fps=way.fps)
        tracks = tuple(track for track in reading.tracks if way.track in (None, track.name))
        if not tracks:
            names = ", ".join(f'"{track.name}"' for track in reading.tracks)
            raise SourceError(f'it holds no track "{way.track}"; it has {names}')
        note = ("the file has no gravity: Earth's taken",) if way.gravity == "scene" else ()
        return replace(reading, tracks=tracks, notes=(*reading.notes, *note))

    return _shot(path, read, way, time.perf_counter())


def _shot(path: Path, read: Callable[[], Reading | LeapwrightError], way: Way, began: float) -> Shot:
    """Read and audit one file; a refusal becomes its reason, and so does a bug, which shows its traceback."""
    try:
        reading = read()
        if isinstance(reading, LeapwrightError):
            raise reading
        gravity = None if isinstance(way.gravity, str) else way.gravity
        return audit_reading(str(path), reading, way.settings, gravity=gravity,
                             clock=lambda: time.perf_counter() - began)  # fmt: skip
    except LeapwrightError as refusal:
        reason = str(refusal)
    except Exception as fault:  # one bad shot is a row, not the end
        traceback.print_exc()
        reason = f"a fault in Leapwright, please report it: {type(fault).__name__}: {fault}"
    return Shot(str(path), reason, seconds=time.perf_counter() - began)
