"""Live: audit again by itself what was audited, whenever something changes it.

A path of keys at once, while they are dragged; an evaluated one when the hand rests. A timer runs from a change to
the audit that follows it, and never otherwise.
"""

import time
from collections.abc import Iterator

import bpy
from bpy.app.handlers import persistent
from bpy.types import Scene

from ...analysis.errors import LeapwrightError
from .. import auditing, results, view
from ..basis import target_in
from ..scene import settings_of
from ..sidebar import rows
from ..target import Target
from . import changes
from .freshness import State, state_of

REST = 0.3
"""Seconds without a change after which the hand is taken to rest."""
SLOWEST = 2.0
"""Seconds that a reading may have taken to be made again unasked; a longer one waits for its button."""
APART = 0.05
"""Seconds between two audits while keys are dragged: every third frame at 60 Hz."""
LOOK = 0.1
"""Seconds between two looks at whether the hand rests."""


def catch_up() -> None:
    """Audit again what has changed, as soon as Blender is idle; nothing while Live is off."""
    if results.has_any() and not bpy.app.timers.is_registered(_tick) and view.of_window().use_live:
        bpy.app.timers.register(_tick, first_interval=max(0.0, APART - (time.monotonic() - _last[0])))


def is_due() -> bool:
    """Say whether what has changed is about to be audited again."""
    return bpy.app.timers.is_registered(_tick)


_last = [0.0]


def _tick() -> float | None:
    """Follow each scene that is shown; return when to look again, None for not at all."""
    if not view.of_window().use_live:
        return None
    waiting = [scene for scene in _shown() if _follows_later(scene)]
    _last[0] = time.monotonic()
    return LOOK if waiting else None


def _shown() -> Iterator[Scene]:
    windows = (window for manager in bpy.data.window_managers for window in manager.windows)
    yield from {window.scene.session_uid: window.scene for window in windows}.values()


def _follows_later(scene: Scene) -> bool:
    """Audit a scene again where its audit has changed; say whether that has to wait."""
    latest = results.latest(scene)
    if latest is None or bpy.app.is_job_running("RENDER"):
        return False
    state = state_of(scene, latest)
    if state is not State.FRESH:
        view.redraw()
    if state in (State.FRESH, State.GONE):
        return False
    basis, target = latest.basis, target_in(scene, latest.basis)
    if state is State.UNSURE or (basis.evaluated and latest.seconds > SLOWEST):
        return False
    if (basis.evaluated or basis.has_feet) and _is_busy():
        if not basis.evaluated:
            _preview(scene, target, latest)
        return True
    try:
        basis = latest.basis
        new = auditing.read(scene, target, asked=basis.asked, settings=settings_of(scene), why=basis.why)
    except LeapwrightError:
        return False  # the panel says that the audit is of the past
    for layer in scene.view_layers if new.basis.digest is not None else ():
        layer.update()  # what a private scene leaves behind is none of the user's edits
    auditing.keep(scene, new, chosen=_same_jump(latest, new))
    return False


def _preview(scene: Scene, target: Target, latest: results.Result) -> None:
    """Audit keys while they are dragged, without what Blender would have to evaluate."""
    try:
        new = auditing.preview(scene, target, latest)
    except LeapwrightError:
        return
    if new is not None:
        auditing.keep(scene, new, chosen=_same_jump(latest, new))


def _is_busy() -> bool:
    """Say whether keys are being dragged, or were just now."""
    windows = (window for manager in bpy.data.window_managers for window in manager.windows)
    dragging = any(len(getattr(window, "modal_operators", ())) for window in windows)
    return dragging or time.monotonic() - changes.last() < REST


def _same_jump(before: results.Result, after: results.Result) -> int:
    """Find the jump that was chosen among those that are there now, from 0."""
    chosen = rows.of_window(bpy.data.window_managers[0]).chosen
    was = before.jump(chosen)
    if was is None or len(before.audit.jumps) == len(after.audit.jumps):
        return chosen
    apart = [abs(jump.takeoff.frame - was.takeoff.frame) for jump in after.audit.jumps]
    return apart.index(min(apart)) if apart else 0


@persistent
def _stop(*_ignored: object) -> None:
    """Let no timer wait while a file is loaded: Blender 4.2 as a module crashes at exit over one that did."""
    if bpy.app.timers.is_registered(_tick):
        bpy.app.timers.unregister(_tick)


def register() -> None:
    """Follow from now on."""
    changes.call_on_change(catch_up)
    bpy.app.handlers.load_pre.append(_stop)


def unregister() -> None:
    """Follow no more."""
    bpy.app.handlers.load_pre.remove(_stop)
    changes.stop_calling(catch_up)
    _stop()
