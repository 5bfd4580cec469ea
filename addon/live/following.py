"""Live: audit again by itself what was audited, whenever something changes it.

A path of keys at once, while they are dragged; an evaluated one when the hand rests. A timer runs from a change to
the audit that follows it, and never otherwise.
"""

import time
from collections.abc import Iterator
from dataclasses import dataclass

import bpy
from bpy.app.handlers import persistent
from bpy.types import Scene

from ...analysis.errors import LeapwrightError
from .. import auditing, results, view
from ..basis import target_in
from ..host import scene_key
from ..reading import sample_cache
from ..sidebar import rows
from ..target import Target
from . import changes
from .changes import count_of
from .freshness import State, is_elsewhere, is_same, state_of

REST = 0.3
"""Seconds without a change after which the animator's hand is taken to rest."""
LONGEST_LIVE_READING = 2.0
"""Longest time of a reading that is made again unasked, in seconds; a longer one waits for its button."""
SECONDS_BETWEEN_AUDITS = 0.05
"""Seconds between two audits while keys are dragged: every third frame at 60 Hz."""
SECONDS_BETWEEN_STEPS = 1.0 / 60.0
"""Seconds between two steps of an audit: a frame of the window at least."""
SHARE = 0.03
"""Share of the time since it was last called that it works for, a step at least: it is to take no more than twice
that of any frame, and a window that draws slowly leaves room for more steps (ours)."""
LOOK = 0.1
"""Seconds between two looks at whether the hand rests."""


def catch_up() -> None:
    """Audit again what has changed, as soon as Blender is idle; nothing while Live is off."""
    if results.has_any() and not bpy.app.timers.is_registered(_tick) and view.of_window().use_live:
        bpy.app.timers.register(_tick, first_interval=max(0.0, SECONDS_BETWEEN_AUDITS - (time.monotonic() - _last[0])))
        _called[0] = time.monotonic()


def is_due() -> bool:
    """Say whether what has changed is about to be audited again."""
    return bpy.app.timers.is_registered(_tick)


@dataclass(slots=True, eq=False)
class Work:
    """An audit that is under way.

    key, count   the scene it is of, and its changes when it was read
    steps        what is left to do; it asks nothing of Blender
    before       the result that it takes the place of
    """

    key: int
    count: changes.Count
    steps: auditing.Steps
    before: results.Result


_last, _called, _kept = [0.0], [0.0], [0.0]
"""When an audit last began, when the timer was last called or set, and when what came of it was last kept."""
_work: list[Work] = []
"""One at most."""
_read: dict[int, changes.Count] = {}
"""How many changes each scene had when its keys were last read while they were dragged."""


def _tick() -> float | None:
    """Follow each scene that is shown; return when to look again, None for not at all.

    A few steps a call: what is worked out in between two frames of the window is never felt.
    """
    began = time.monotonic()
    until, _called[0] = began + SHARE * (began - _called[0]), began
    if not view.of_window().use_live:
        _work.clear()
        return None
    waiting, was_idle = False, not _work
    if was_idle:
        waiting = any([_follows_later(scene) for scene in _shown() if not _work])
        _last[0] = time.monotonic()
    else:
        _step()
    while _work and time.monotonic() < until:
        _step()
    if _work:
        return SECONDS_BETWEEN_STEPS
    if _kept[0] >= began:
        return SECONDS_BETWEEN_AUDITS
    return LOOK if waiting else None


def _shown() -> Iterator[Scene]:
    windows = (window for manager in bpy.data.window_managers for window in manager.windows)
    yield from {window.scene.session_uid: window.scene for window in windows}.values()


def _follows_later(scene: Scene) -> bool:
    """Begin to audit a scene again where its audit has changed; say whether that has to wait."""
    latest = results.latest(scene)
    if latest is None or bpy.app.is_job_running("RENDER"):
        return False
    basis, target, dragged = latest.basis, target_in(scene, latest.basis), _is_dragged()
    if dragged and target is not None and not basis.evaluated and _is_previewed(scene, target, latest):
        return True
    state = state_of(scene, latest)
    if state is not State.FRESH:
        view.redraw()
    if target is None or state is State.FRESH:
        return False
    if state is State.UNSURE or (basis.evaluated and latest.seconds > LONGEST_LIVE_READING):
        return False
    if dragged or ((basis.evaluated or basis.has_feet) and _is_just_changed()):
        # Feet as they were go with keys that are dragged, and not with what an undo brings back.
        if not (basis.evaluated or dragged or is_elsewhere(scene)):
            _is_previewed(scene, target, latest)
        return True
    _begin(scene, auditing.again_in_steps(scene, target, latest), latest)
    return False


def _is_previewed(scene: Scene, target: Target, latest: results.Result) -> bool:
    """Begin to audit keys that are being dragged, once a change; say whether what is shown is to be of them, then."""
    if _read.get(scene_key(scene)) == count_of(scene):
        return True
    evaluations = sample_cache.asked()
    try:
        path = target.path_in(scene)
    except LeapwrightError:
        return False
    if sample_cache.asked() != evaluations or (not latest.is_preview and is_same(path, latest.path)):
        return False
    _read[scene_key(scene)] = count_of(scene)
    if not is_same(path, latest.path):
        _begin(scene, auditing.preview_in_steps(path, latest), latest)
    return True


def _begin(scene: Scene, steps: auditing.Steps, before: results.Result) -> None:
    """Take the first step, in which the scene is read; nothing where it cannot be."""
    try:
        next(steps)
    except LeapwrightError:
        return  # the panel says that the audit is of the past
    _work[:] = [Work(scene_key(scene), count_of(scene), steps, before)]


def _step() -> None:
    """Take the next step of the work; keep what comes of the last one, if its scene still shows what it began from."""
    work = _work.pop()
    try:
        next(work.steps)
        _work.append(work)
    except StopIteration as end:
        _kept[0] = time.monotonic()
        for scene in _shown():
            if scene_key(scene) == work.key and results.latest(scene) is work.before:
                auditing.keep(scene, end.value, chosen=_same_jump(work.before, end.value), count=work.count)


def _is_dragged() -> bool:
    """Say whether an operator runs in a window, as while keys are dragged."""
    windows = (window for manager in bpy.data.window_managers for window in manager.windows)
    return any(len(getattr(window, "modal_operators", ())) for window in windows)


def _is_just_changed() -> bool:
    """Say whether the hand has not rested yet."""
    return time.monotonic() - changes.last() < REST


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
