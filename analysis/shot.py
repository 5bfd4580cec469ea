"""Shot: one file of the day, what was read of it and what its audits say; or why it could not be read."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from .settings import Settings

if TYPE_CHECKING:
    from .audit import Audit
    from .track import Track

LONGEST_NOTE = 600
"""Letters of a note or a reason, which may quote what a file holds."""


@dataclass(frozen=True, slots=True)
class Extras:
    """What a reading is to hold besides tracks, or needs to know for them.

    feet      when to read the feet of armatures: "on", "off", "auto" where the path alone leaves a jump unsure;
              None: as a file says
    length    meters, known in footage: between two markers, or over so many pixels
    follow    patterns of armatures, each with the bone to follow, or "com"; others as they are found
    poses     the poses at the events of jumps, to be drawn
    thumbnails  a rendered picture of each jump
    """

    feet: str | None = None
    length: float | None = None
    between: tuple[str, str] | None = None
    pixels: float | None = None
    follow: tuple[tuple[str, str], ...] = ()
    poses: bool = False
    thumbnails: bool = False


@dataclass(frozen=True, slots=True)
class Reading:
    """What a file holds.

    tracks    the tracks to audit
    reasons   why each was taken, parallel to tracks; empty when the file holds nothing else
    gravity   m/s², the scene's own; None when the file has none
    notes     sentences about the file as a whole
    needs     paths of files that it depends on, there or not
    """

    tracks: "tuple[Track, ...]"
    reasons: tuple[str, ...] = ()
    gravity: float | None = None
    notes: tuple[str, ...] = ()
    needs: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Pose:
    """A body at an event of a jump, drawn flat from the side.

    event, frame   "apex", and when
    lines          chains of joints: (across, up, across, up, …) in meters, the travel to the right
    """

    event: str
    frame: float
    lines: tuple[tuple[float, ...], ...]


@dataclass(frozen=True, slots=True)
class Thumbnail:
    """A small picture of a shot at a frame, as the bytes of a JPEG file."""

    frame: float
    jpeg: bytes


@dataclass(frozen=True, slots=True)
class Shot:
    """One file, audited, or unreadable for a reason.

    path       as it was given or found
    gravity    m/s², what its jumps were judged against
    seconds    wall time of reading and auditing
    audits     parallel to tracks
    reasons    why each track was taken, parallel to tracks, or empty
    needs      as in Reading
    poses      for each track, for each jump, the poses at its events, as the document has them
    thumbnails  for each track, for each jump, its thumbnail if it was rendered
    """

    path: str
    reason: str | None = None
    gravity: float | None = None
    seconds: float = 0.0
    notes: tuple[str, ...] = ()
    tracks: "tuple[Track, ...]" = ()
    audits: "tuple[Audit, ...]" = ()
    reasons: tuple[str, ...] = ()
    needs: tuple[str, ...] = ()
    poses: tuple[tuple[tuple[Pose, ...], ...], ...] = ()
    thumbnails: tuple[tuple[Thumbnail | None, ...], ...] = ()

    @property
    def status(self) -> str:
        """ "ok" or "unreadable"."""
        return "ok" if self.reason is None else "unreadable"

    @property
    def fps(self) -> float | None:
        """Frames per second of its first track; None without one."""
        return self.tracks[0].fps if self.tracks else None

    @property
    def worst(self) -> int:
        """Rank of the gravest finding of all its audits; -1 when there is none."""
        return max((audit.worst for audit in self.audits), default=-1)


def unreadable(path: str, reason: str, *, seconds: float = 0.0) -> Shot:
    """Return a shot that could not be read."""
    return Shot(path, short(reason), seconds=seconds)


def short(text: str) -> str:
    """Return a note or a reason, with … for what is too long of it."""
    return text if len(text) <= LONGEST_NOTE else text[: LONGEST_NOTE - 1] + "…"


def audit_reading(
    path: str,
    reading: Reading,
    settings: Settings,
    *,
    gravity: float | None = None,
    clock: Callable[[], float] | None = None,
) -> Shot:
    """Audit every track of a reading.

    gravity, m/s², overrides; None takes the scene's own and, where the file has none, that of settings.
    clock gives the seconds since the reading began, called once at the end.
    """
    from .audit import audit_track  # a day that is all in the cache needs none of it

    fall = gravity if gravity is not None else reading.gravity
    if fall is not None:
        settings = replace(settings, world=replace(settings.world, gravity=fall))
    audits = tuple(audit_track(track, settings) for track in reading.tracks)
    return Shot(
        path=path,
        gravity=settings.world.gravity,
        seconds=clock() if clock is not None else 0.0,
        notes=tuple(map(short, reading.notes)),
        tracks=reading.tracks,
        audits=audits,
        reasons=reading.reasons,
        needs=reading.needs,
    )
