"""What Blender says has changed, counted: an edit, an undo, a redo, a file.

A count that stands still means that nothing was edited, so that the question costs nothing while it is asked again.
"""

import time
from collections.abc import Callable

import bpy
from bpy.app.handlers import persistent
from bpy.types import Depsgraph, Scene

from .. import results
from ..host import scene_key

_edits: dict[int, int] = {}
"""Edits of each scene."""
_leaps = [0]
"""Undos, redos and loads, of the whole file."""
_last = [0.0]
_heard: list[Callable[[], None]] = []

Count = tuple[int, int]


def count_of(scene: Scene) -> Count:
    """Return a value that differs whenever the scene may have been edited in between."""
    return _edits.get(scene_key(scene), 0), _leaps[0]


def last() -> float:
    """Return when the last change was, by the monotonic clock."""
    return _last[0]


def call_on_change(heard: Callable[[], None]) -> None:
    """Call this after every change, briefly: Blender waits for it."""
    _heard.append(heard)


def stop_calling(heard: Callable[[], None]) -> None:
    """Call it no more."""
    _heard.remove(heard)


@persistent
def _on_update(scene: Scene, depsgraph: Depsgraph | None = None, *_ignored: object) -> None:
    if results.latest(scene) is None or (depsgraph is not None and not len(depsgraph.updates)):
        return
    key = scene_key(scene)
    _edits[key] = _edits.get(key, 0) + 1
    _tell()


@persistent
def _on_leap(*_ignored: object) -> None:
    _leaps[0] += 1
    _tell()


def _tell() -> None:
    _last[0] = time.monotonic()
    for heard in _heard:
        heard()


HANDLERS = {
    "depsgraph_update_post": _on_update,
    "undo_post": _on_leap,
    "redo_post": _on_leap,
    "load_post": _on_leap,
}


def register() -> None:
    """Listen."""
    for name, handler in HANDLERS.items():
        getattr(bpy.app.handlers, name).append(handler)


def unregister() -> None:
    """Listen no more."""
    for name, handler in HANDLERS.items():
        getattr(bpy.app.handlers, name).remove(handler)
    _edits.clear()
