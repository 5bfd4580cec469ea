"""The latest audit of each scene: plain values beside the file, never in it, so an audit leaves it clean.

Dropped when a file is loaded and when the add-on is turned off.
"""

from dataclasses import dataclass, replace

import bpy
from bpy.app.handlers import persistent
from bpy.types import Scene

from ..analysis.audit import Audit
from ..analysis.finding import Finding
from ..analysis.jump import Jump
from ..analysis.track import Marks, Track
from ..analysis.world import World
from .basis import Basis
from .host import scene_key


@dataclass(frozen=True, slots=True, eq=False)
class Result:
    """An audit, the track it is of, and what that was made of.

    path       the track as it was read, before its feet were
    seconds    that reading and audit took
    is_preview made while keys were dragged, its feet left as they were
    """

    audit: Audit
    track: Track
    basis: Basis
    path: Track
    seconds: float = 0.0
    is_preview: bool = False

    @property
    def world(self) -> World:
        """The world its jumps are judged by."""
        return self.basis.settings.world

    @property
    def marks(self) -> tuple[Marks, ...]:
        """The marks by hand that its track had."""
        return self.track.marks

    def noting(self, *notes: str) -> "Result":
        """Return the same result whose audit has more notes."""
        return replace(self, audit=replace(self.audit, notes=(*self.audit.notes, *notes)))

    def jump(self, number: int) -> Jump | None:
        """Return a jump by its place in the list, from 0; None when there is none."""
        return self.audit.jumps[number] if 0 <= number < len(self.audit.jumps) else None

    def finding(self, jump: int, number: int) -> Finding | None:
        """Return a finding of a jump by its place, from 0; None when there is none."""
        chosen = self.jump(jump)
        return chosen.findings[number] if chosen and 0 <= number < len(chosen.findings) else None


_latest: dict[int, Result] = {}
_held: dict[int, Result] = {}
"""By the scene's key."""


def latest(scene: Scene) -> Result | None:
    """Return the latest result of a scene; None before its first audit."""
    return _latest.get(scene_key(scene))


def has_any() -> bool:
    """Say whether any scene has been audited."""
    return bool(_latest)


def keep(scene: Scene, result: Result) -> None:
    """Make a result the latest of its scene."""
    _latest[scene_key(scene)] = result


def held(scene: Scene) -> Result | None:
    """Return the result that is held to be compared with what comes after it; None where none is."""
    return _held.get(scene_key(scene))


def hold(scene: Scene, result: Result | None) -> None:
    """Hold a result to be compared with what comes after it; None lets it go."""
    if result is None:
        _held.pop(scene_key(scene), None)
    else:
        _held[scene_key(scene)] = result


def forget() -> None:
    """Drop every result."""
    _latest.clear()
    _held.clear()


@persistent
def _on_load(*_ignored: object) -> None:
    forget()


def register() -> None:
    """Drop the results whenever a file is loaded."""
    bpy.app.handlers.load_pre.append(_on_load)


def unregister() -> None:
    """Drop the results, and no longer watch for files."""
    bpy.app.handlers.load_pre.remove(_on_load)
    forget()
