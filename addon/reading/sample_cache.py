"""Evaluated readings kept for the next audit, for as long as nothing that they depend on has changed."""

from collections import OrderedDict
from collections.abc import Callable, Hashable, Sequence

from bpy.types import ID, Object, Scene

from ...analysis.arrays import Array
from .state import UnknowableError, digest_of_state

MOST_READINGS = 64
"""Most readings that are kept; the one that was not asked for longest goes first."""

_kept: OrderedDict[Hashable, tuple[bytes, Array]] = OrderedDict()
_asked = [0]


def asked() -> int:
    """Return how many evaluated readings have been asked for so far, kept ones included."""
    return _asked[0]


def kept(
    scene: Scene, thing: Object, what: Hashable, *, reads: Sequence[ID], read: Callable[[], Array]
) -> Array:
    """Return what `read` returned the last time, if that still holds; else read, and keep it.

    what: which reading of the object it is, its frames included; reads: the data-blocks it depends on. The array is
    read-only. Where it depends on what cannot be told apart (scripts, physics, node trees), it is read every time.
    """
    _asked[0] += 1
    try:
        now = digest_of_state(scene, reads)
    except UnknowableError:
        return read()
    key = (scene.session_uid, thing.session_uid, what)
    if key not in _kept or _kept[key][0] != now:
        values = read()
        values.flags.writeable = False
        _kept[key] = (now, values)
        while len(_kept) > MOST_READINGS:
            _kept.popitem(last=False)
    _kept.move_to_end(key)
    return _kept[key][1]


def forget() -> None:
    """Drop every reading."""
    _kept.clear()


def unregister() -> None:
    """Keep nothing once the add-on is off."""
    forget()
