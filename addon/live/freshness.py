"""Whether the audit that is shown is of the scene as it is."""

import time
from dataclasses import dataclass
from enum import Enum, auto

from bpy.types import Scene

from ...analysis.arrays import Array
from ...analysis.errors import LeapwrightError
from ...analysis.track import Track
from .. import results
from ..basis import Basis, digest_of, target_in, told_of
from ..host import scene_key
from ..marks import marks
from ..reading import sample_cache
from ..scene import settings_of
from ..target import Target
from .changes import Count, count_of

SECONDS_TO_LOOK_AGAIN = 0.5
"""Seconds before an evaluated reading that has changed is looked at again: a digest of a rig takes some of them."""


class State(Enum):
    """What can be said of an audit."""

    FRESH = auto()
    CHANGED = auto()
    GONE = auto()
    """What was followed is no longer in the scene."""
    UNSURE = auto()
    """Something was edited, and whether that matters cannot be told."""


@dataclass(frozen=True, slots=True)
class _Seen:
    result: results.Result
    count: Count
    state: State
    time: float
    path: Track | None = None
    """The path as it was read to be compared; None where that was not asked."""


_seen: dict[int, _Seen] = {}
_trusted: dict[int, Count] = {}
"""How much each scene had changed when its latest result was read."""


def state_of(scene: Scene, result: results.Result) -> State:
    """Compare what an audit was made of with the scene; microseconds while nothing is edited.

    A path of keys is read again and compared; of an evaluated one all that it depends on is digested.
    """
    basis = result.basis
    target = target_in(scene, basis)
    if target is None:
        return State.GONE
    if target.name != result.audit.name or not _is_told_the_same(scene, target, result):
        _seen.pop(scene_key(scene), None)
        return State.CHANGED
    if result.is_preview:
        return State.CHANGED
    key, count, now = scene_key(scene), count_of(scene), time.monotonic()
    seen = _seen.get(key)
    if seen is not None and seen.result is result:
        waits = basis.digest is not None and seen.state is State.CHANGED and seen.count[1] == count[1]
        if seen.count == count or (waits and now - seen.time < SECONDS_TO_LOOK_AGAIN):
            return seen.state
    state, path = _compared(scene, target, result)
    _seen[key] = _Seen(result, count, state, now, path)
    return state


def read_path(scene: Scene, target: Target, result: results.Result) -> Track:
    """Read the path of a target; as it was read to be compared with a result, where nothing was edited since.

    Raises LeapwrightError when it cannot be read.
    """
    seen = _seen.get(scene_key(scene))
    if seen is None or seen.path is None or seen.result is not result or seen.count != count_of(scene):
        return target.path_in(scene)
    return seen.path


def trust(scene: Scene, result: results.Result, count: Count) -> None:
    """Take it that an audit was of the scene as it was after so many changes."""
    _seen[scene_key(scene)] = _Seen(result, count, State.FRESH, time.monotonic())
    _trusted[scene_key(scene)] = count


def is_elsewhere(scene: Scene) -> bool:
    """Say whether an undo, a redo or a load lies between the latest result and now: all may have changed at once."""
    now = count_of(scene)
    return _trusted.get(scene_key(scene), now)[1] != now[1]


def forget() -> None:
    """Forget what was compared."""
    _seen.clear()
    _trusted.clear()


def is_same(one: Track, other: Track) -> bool:
    """Say whether two readings are one and the same path, keys and rate, to the last bit."""
    if one.fps != other.fps or one.interpolation != other.interpolation:
        return False
    return (
        _equal(one.positions, other.positions)
        and _equal(one.frames, other.frames)
        and _equal(one.key_frames, other.key_frames)
        and _equal(one.feet, other.feet)
        and _equal(one.ground, other.ground)
    )


def _equal(one: Array | None, other: Array | None) -> bool:
    if one is other or one is None or other is None:
        return one is other
    return one.shape == other.shape and one.tobytes() == other.tobytes()


def _is_told_the_same(scene: Scene, target: Target, result: results.Result) -> bool:
    basis: Basis = result.basis
    try:
        settings = settings_of(scene)
    except LeapwrightError:
        return False
    same = (settings is basis.settings or settings == basis.settings) and told_of(scene, target) == basis.told
    return same and marks.of_track(scene, target.name)[0] == result.track.marks


def _compared(scene: Scene, target: Target, result: results.Result) -> tuple[State, Track | None]:
    """Return what can be said, and the path of keys that was read for it, if one was."""
    basis: Basis = result.basis
    if not basis.evaluated:
        evaluations = sample_cache.asked()
        try:
            path = target.path_in(scene)
        except LeapwrightError:
            return State.CHANGED, None
        if not is_same(path, result.path):
            return State.CHANGED, path if sample_cache.asked() == evaluations else None
    if not (basis.evaluated or basis.has_feet):
        return State.FRESH, None
    if basis.digest is None:
        return State.UNSURE, None
    return State.FRESH if digest_of(scene, target) == basis.digest else State.CHANGED, None


def unregister() -> None:
    """Compare no more."""
    forget()
