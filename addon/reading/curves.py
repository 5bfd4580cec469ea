"""F-curves read in one go: their keys as arrays, and their values at many frames.

Blender's own rules of interpolation, vectorized; what they do not cover (modifiers, easings, baked curves, very
long or short handles) is asked of the host frame by frame. Measured against it: within 1e-5 of a unit, 2e-5 on
key spacings under a frame, where the host's single-precision roots are the coarser.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import lru_cache

import numpy as np
from bpy.types import FCurve

from ...analysis.arrays import Array

CONSTANT, LINEAR, BEZIER = 0, 1, 2
"""Blender's numbers of the interpolations worked out here; the easings above them are the host's."""
HIT = 1e-4
"""Frames before a key from which its value counts, as in Blender."""
SHORTEST_HANDLE, LONGEST_HANDLES = 0.05, 1.6
"""Least length of each handle and most length of both together, as shares of the key spacing, for the cubic to be
solved here."""
FEW_FRAMES = 200
"""Number of frames under which asking Blender one by one is quicker than setting the tables up (measured)."""
LEAST_KEY_GAP = 1e-6
"""Least distance between two keys, in frames: of two keys at one frame, nobody asks for what lies between."""
NEWTON_STEPS, SOLVED = 5, 1e-7
"""Most steps of Newton's method, and the frames within which they must end."""


@dataclass(frozen=True, slots=True, eq=False)
class Keys:
    """The keys of one curve. Those that are read as before are the same object.

    places    (3, k, 2): points, left and right handles, each a frame and a value; kinds: (k,) interpolations
    frames    (k,) of the points, rising; ends: the first and the last, None where there is no key
    is_flat   whether keys and handles all lie at one value
    times     all frames and interpolations: keys that have the same go from key to key together
    known     the frames that values were last asked at, and these; none where the host had to be asked
    """

    places: Array
    kinds: Array
    frames: Array
    ends: tuple[float, float] | None
    is_flat: bool
    times: tuple[bytes, bytes]
    known: list[tuple[Array, Array]] = field(default_factory=list)


def read_keys(curve: FCurve) -> Keys:
    """Read the keys of a curve; none of a baked one."""
    points = curve.keyframe_points
    places, (co, left, right), kinds = _room_for(len(points))
    points.foreach_get("co", co)
    points.foreach_get("handle_left", left)
    points.foreach_get("handle_right", right)
    points.foreach_get("interpolation", kinds)
    return _keys(places.tobytes(), kinds.tobytes())


@lru_cache(maxsize=8)
def _room_for(count: int) -> tuple[Array, tuple[Array, ...], Array]:
    """Return what so many keys are read into: places, their three rows, and interpolations; written anew each time."""
    places = np.empty((3, 2 * count), np.float32)
    return places, tuple(places), np.empty(count, np.int32)


@lru_cache(maxsize=16)
def _keys(numbers: bytes, kinds: bytes) -> Keys:
    """Make keys, or find them where they were read before, as those of every curve that is not dragged were."""
    places = np.frombuffer(numbers, np.float32).reshape(3, len(kinds) // 4, 2).astype(np.float64)
    when, values = places[:, :, 0], places[:, :, 1]
    ends = (when.item(0, 0), when.item(0, -1)) if kinds else None
    is_flat = not kinds or float(values.max() - values.min()) <= 1e-6
    return Keys(places, np.frombuffer(kinds, np.int32), when[0], ends, is_flat, (when.tobytes(), kinds))


def values_of(asked: Sequence[tuple[FCurve, Keys, Array]]) -> list[Array]:
    """Return (n,) values as the host evaluates them, for each (curve, keys, (n,) frames of its action).

    The frames of each either rise or fall throughout. Curves that are keyed together are worked out together.
    """
    found = [np.empty(0)] * len(asked)
    together: dict[tuple[bytes, ...], list[int]] = {}
    for row, (curve, keys, frames) in enumerate(asked):
        if len(frames) < FEW_FRAMES or _is_hosts(curve, keys):
            found[row] = _hosts(curve, frames)
        elif keys.known and keys.known[0][0] is frames:
            found[row] = keys.known[0][1]
        else:
            together.setdefault((*keys.times, frames.tobytes()), []).append(row)
    for rows in together.values():
        curves, keyed, (frames, *_) = zip(*(asked[row] for row in rows), strict=True)
        values, is_known = _values(curves, keyed, frames)
        for row, keys, of_one in zip(rows, keyed, values, strict=True):
            found[row] = of_one
            if is_known and not frames.flags.writeable:
                of_one.flags.writeable = False
                keys.known[:] = [(frames, of_one)]
    return found


def _is_hosts(curve: FCurve, keys: Keys) -> bool:
    """Tell whether values do not follow from the keys alone."""
    return not len(keys.kinds) or len(curve.modifiers) > 0 or curve.extrapolation != "CONSTANT"


def _hosts(curve: FCurve, frames: Array) -> Array:
    return np.fromiter(map(curve.evaluate, frames.tolist()), np.float64, len(frames))


def _values(curves: Sequence[FCurve], keys: Sequence[Keys], frames: Array) -> tuple[Array, bool]:
    """Return (c, n) values of c curves whose keys, handles and interpolations lie at the same frames; and whether they
    follow from those alone.
    """
    if frames[0] > frames[-1]:
        values, is_known = _values(curves, keys, frames[::-1])
        return values[:, ::-1], is_known
    timing = _timing(*keys[0].times, frames.tobytes())
    alone, t = keys[0].places[:, None, :, 1], timing.shares
    places = alone if len(keys) == 1 else np.array([one.places[:, :, 1] for one in keys]).swapaxes(0, 1)
    values = np.empty((len(keys), len(frames)))
    values[:, len(t) :] = places[0, :, -1:]
    rows = _cubics(places, timing.straight, timing.shorten)
    if timing.level is not None:
        rows[1:, :, timing.level] = 0.0
    start, once, squared, cubed = rows.repeat(timing.counts, axis=-1)
    values[:, : len(t)] = ((cubed * t + squared) * t + once) * t + start
    for row, curve in enumerate(curves if len(timing.unknown) else ()):
        values[row, timing.unknown] = _hosts(curve, frames[timing.unknown])
    return values, not len(timing.unknown)


@dataclass(frozen=True, slots=True, eq=False)
class KeyTiming:
    """When curves of k keys go from key to key, whatever their values.

    straight  (k - 1,) whether they go straight, or stay and leap; None where they never do; level: whether they stay
    shorten   (2, 1, k - 1) what the handles out of a key and back from the next are divided by; None where that is 1
    counts    (k - 1,) frames from each key to the next
    shares    t of each frame before the last key; not a number where the host has to be asked
    unknown   indices of those frames
    """

    straight: Array | None
    level: Array | None
    shorten: Array | None
    counts: Array
    shares: Array
    unknown: Array


@lru_cache(maxsize=8)
def _timing(when: bytes, kinds: bytes, frames: bytes) -> KeyTiming:
    """Work out when curves go from key to key; kept, since while values are dragged the times stay.

    when: (3, k) frames of points, left and right handles; kinds: (k,) interpolations; frames: (n,) rising.
    """
    points, left, right = places = np.frombuffer(when).reshape(3, -1)
    between, asked = np.frombuffer(kinds, np.int32)[:-1], np.frombuffer(frames)
    span = np.maximum(points[1:] - points[:-1], LEAST_KEY_GAP)
    legs = np.array((right[:-1] - points[:-1], points[1:] - left[1:])) / span
    # The host shortens a handle, whole, to the key spacing.
    whole = np.maximum(legs, 1.0)
    shorten = whole[:, None] if (whole > 1.0).any() else None
    legs /= whole
    hosts = (legs.min(axis=0) < SHORTEST_HANDLE) | (legs.sum(axis=0) > LONGEST_HANDLES)
    straight, level = (which if which.any() else None for which in (between < BEZIER, between == CONSTANT))
    rows = _cubics(places[:, None], straight, shorten)[:, 0]
    rows[1, (hosts & (between == BEZIER)) | (between > BEZIER)] = np.nan
    edges = np.searchsorted(asked, points - HIT)
    edges[0] = 0
    counts = np.diff(edges)
    t = _shares(rows.repeat(counts, axis=-1), asked[: edges[-1]])
    return KeyTiming(straight, level, shorten, counts, t, np.flatnonzero(np.isnan(t)))


def _cubics(places: Array, straight: Array | None, shorten: Array | None) -> Array:
    """Return (4, r, k - 1): start, and coefficients of t, t², t³, of what r rows do from each of k keys to the next.

    straight: (k - 1,) where they go straight; shorten: as in `KeyTiming`; None for nowhere.
    """
    points, left, right = places
    start, end = points[:, :-1], points[:, 1:]
    chord = end - start
    legs = np.array((right[:, :-1] - start, end - left[:, 1:]))
    if shorten is not None:
        legs /= shorten
    if straight is not None:
        legs[:, :, straight] = chord[:, straight] / 3.0
    out, back = legs * 3.0
    cubed = out + back - 2.0 * chord
    return np.array((start, out, chord - out - cubed, cubed))


def _shares(cubics: Array, frames: Array) -> Array:
    """Return the (n,) t at which n cubics (4, n) reach n frames, one each; not a number where none is found."""
    start, once, squared, cubed = cubics
    passed = np.maximum(frames - start, 0.0)
    t = passed / (once + squared + cubed)
    squared_twice, cubed_thrice = 2.0 * squared, 3.0 * cubed
    for steps in range(NEWTON_STEPS + 1):
        off = ((cubed * t + squared) * t + once) * t - passed
        solved = np.abs(off) <= SOLVED
        if steps == NEWTON_STEPS or solved.all():
            break
        t -= off / ((cubed_thrice * t + squared_twice) * t + once)
    t[~solved] = np.nan
    return t
