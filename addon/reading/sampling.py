"""Read the path of an object or a bone into a Track: from its F-curves alone where they tell it all.

Otherwise (constraints, drivers, parents that move, mixed NLA strips) as Blender evaluates it in a private copy of
the scene. No frame of the user's is set. Positions in meters, z against the scene's gravity; frames are whole
frames of the scene.
"""

import math
from collections.abc import Callable, Sequence
from functools import lru_cache

import numpy as np
from bpy.types import Object, Scene
from mathutils import Vector

from ...analysis.arrays import Array
from ...analysis.errors import SourceError
from ...analysis.track import FEWEST_FRAMES, Track
from .. import host
from ..scene import frame_rate, key_time, to_track, unit_scale
from . import placement
from .channels import Channel, Channels, Motion
from .curves import CONSTANT, LINEAR, values_of
from .dependencies import dependencies_of, invalid_drivers, span_of
from .evaluated import evaluated_origin, evaluated_points

MOST_FRAMES_READ = 200_000
"""Number of frames past which a range is taken for a mistake (ours)."""
OF_CURVES = 0.01
"""Most that an evaluated path may differ from its curves and still have their keys, as a share of its rise and fall
(ours)."""
MOST_EVALUATED = 3000
"""Number of frames past which only those of the scene's range are evaluated: each may cost milliseconds (ours)."""
UNKEYED = '"{}" has no location keys: key its location, or pick what carries the jump'
SLOTLESS = '"{}" plays nothing of its action "{}": choose a slot of it'
EVALUATED = "evaluated in a private copy of the scene"

Shown = Callable[[Array], Array]
"""(n,) frames to the (n, 3) positions that Blender evaluates."""


def sample_object(scene: Scene, thing: Object) -> Track:
    """Read the world path of an object's origin. Raises SourceError when nothing keyed moves it."""
    motion = Motion(thing)
    location, delta = motion.channels("location"), motion.channels("delta_location")
    place, notes = placement.of_object(thing)
    return _track(
        scene,
        thing,
        thing.name,
        source="object",
        parts=[(location, thing.location), (delta, thing.delta_location)],
        place=place,
        notes=notes,
        shown=lambda frames: evaluated_origin(scene, thing, frames),
    )


def sample_bone(scene: Scene, thing: Object, name: str) -> Track:
    """Read the world path of a pose bone's head.

    Raises SourceError when there is no such bone, when nothing keyed moves it, and in Edit Mode, where bones have
    no pose. An armature that shows its rest position is read as posed, without what would have to be evaluated.
    """
    label = f"{thing.name}/{name}"
    bone = thing.pose.bones.get(name) if thing.pose else None
    if bone is None:
        raise SourceError(f'"{thing.name}" has no bone "{name}"')
    if thing.mode == "EDIT":
        raise SourceError(f'"{label}" has no pose in Edit Mode: leave it and audit again')
    motion = Motion(thing)
    location = motion.channels(bone.path_from_id("location"))
    place, notes = placement.of_bone(thing, bone, motion)
    parts = [(location, bone.location)]
    if bone.bone.use_connect and bone.parent is not None:
        if any(location.axes) and not notes:
            raise SourceError(f'"{label}" is connected to its parent, so its location keys do nothing')
        parts = []

    def shown(frames: Array) -> Array:
        return evaluated_points(scene, thing, [name], frames)[:, 0, 0]

    at_rest = thing.data.pose_position == "REST"
    return _track(
        scene, thing, label, source="bone", parts=parts, place=place, notes=notes, shown=None if at_rest else shown
    )


def _track(
    scene: Scene,
    thing: Object,
    name: str,
    *,
    source: str,
    parts: Sequence[tuple[Channels, Vector]],
    place: Array,
    notes: Sequence[str],
    shown: Shown | None,
) -> Track:
    """Read what the notes leave out as it is shown; where they leave out nothing, or it cannot be, the curves."""
    keyed = [channel for channels, _ in parts for channel in channels]
    notes = tuple(dict.fromkeys([*[note for channels, _ in parts for note in channels.notes], *notes]))
    rate = key_time(scene)
    spans = [channel.span() for channel in keyed]
    evaluated = bool(notes) and shown is not None
    reads = dependencies_of(scene, thing) if evaluated else []
    if evaluated:
        spans.append(span_of(scene, reads))
    elif not keyed:
        raise SourceError(_why_unmoved(thing, name))
    frames = _whole_frames(name, spans, rate)
    if evaluated and len(frames) > MOST_EVALUATED:
        long, frames = len(frames), frames[(frames >= scene.frame_start) & (frames <= scene.frame_end)]
        if len(frames) < FEWEST_FRAMES:
            raise SourceError(f'"{name}" is keyed over {long} frames: set the scene\'s frame range to the jump')
    turn, shift = _placing(tuple(scene.gravity), unit_scale(scene), place.tobytes())
    positions = _curve_positions(parts, turn, shift, frames if rate == 1.0 else frames * rate)
    keys, interpolation = _keys([channel for channel in keyed if not channel.is_flat()])
    if evaluated and shown is not None:
        by_curves, positions, notes = positions, shown(frames), (EVALUATED, *invalid_drivers(reads))
        if not keyed and not np.ptp(positions, axis=0).any():
            raise SourceError(_why_unmoved(thing, name))
        # Its own keys say when it moves only where its own curves do move it.
        if np.ptp(positions[:, 2] - by_curves[:, 2]) > OF_CURVES * np.ptp(positions[:, 2]):
            keys = interpolation = None
    return Track(
        name=name,
        fps=frame_rate(scene),
        frames=frames,
        positions=positions,
        key_frames=None if keys is None else keys / rate,
        interpolation=interpolation,
        source=source,
        notes=notes,
        placed_by_keys=not notes,
    )


def _why_unmoved(thing: Object, name: str) -> str:
    """Say why nothing keyed moves it, and what would settle that."""
    data = thing.animation_data
    if data is not None and data.action is not None and host.lacks_slot(data):
        return SLOTLESS.format(thing.name, data.action.name)
    return UNKEYED.format(name)


def _curve_positions(
    parts: Sequence[tuple[Channels, Vector]], turn: Array | None, shift: Array, frames: Array
) -> Array:
    """Add the parts of a location up at these frames of its curves, and place them as `_placing` says, (n, 3)."""
    local = np.zeros((3, len(frames)))
    keyed: list[tuple[int, Channel]] = []
    for channels, still in parts:
        for axis, channel in enumerate(channels.axes):
            if channel is not None:
                keyed.append((axis, channel))
            elif value := still[axis]:
                local[axis] += value
    for (axis, _), values in zip(keyed, values_of([channel.asked(frames) for _, channel in keyed]), strict=True):
        local[axis] += values
    # Not the matrix product: for three columns its threads cost more than they bring.
    turned = local.T if turn is None else np.einsum("an,ba->nb", local, turn)
    return np.add(turned, shift, order="C")


@lru_cache(maxsize=8)
def _placing(gravity: tuple[float, float, float], scale: float, place: bytes) -> tuple[Array | None, Array]:
    """Return the (3, 3) turn into a track's space, None where it changes nothing, and the (3,) shift that follows it.

    gravity: the scene's; scale: meters per Blender unit; place: (4, 4) into the scene's space.
    """
    whole = to_track(gravity, scale) @ np.frombuffer(place).reshape(4, 4)
    turn, shift = whole[:3, :3], whole[:3, 3]
    return None if np.array_equal(turn, np.eye(3)) else turn, shift


def _whole_frames(name: str, spans: Sequence[tuple[float, float]], rate: float) -> Array:
    """Return the whole frames from the first key to the last."""
    firsts, lasts = zip(*spans, strict=True)
    first, last = math.floor(min(firsts) / rate + 1e-4), math.ceil(max(lasts) / rate - 1e-4)
    count = last - first + 1
    if count < FEWEST_FRAMES:
        raise SourceError(f'"{name}" is keyed over {count} frames only: a jump needs at least {FEWEST_FRAMES}')
    if count > MOST_FRAMES_READ:
        raise SourceError(f'"{name}" is keyed from frame {first} to {last}: too long to be a shot')
    return _numbered(first, last)


@lru_cache(maxsize=8)
def _numbered(first: int, last: int) -> Array:
    """Return the frames from first to last, both in; the same array again, by which what was read at it is known."""
    frames = np.arange(first, last + 1, dtype=np.float64)
    frames.flags.writeable = False
    return frames


def _keys(moving: Sequence[Channel]) -> tuple[Array | None, str | None]:
    """Return the union of the keys, on the timeline, and how they are joined; None when not known."""
    # Channels are mostly keyed together: what is the same is looked at once.
    return _united(frozenset([channel.keys() for channel in moving]))


@lru_cache(maxsize=8)
def _united(keys: frozenset[tuple[bytes, bytes]]) -> tuple[Array | None, str | None]:
    """Return the union of frames (k,), each with its interpolations (k,), and how they are joined; None without any."""
    frames = np.concatenate([np.empty(0), *(np.frombuffer(frames) for frames, _ in keys)])
    if not len(frames):
        return None, None
    kinds = {kind for _, kinds in keys for kind in np.frombuffer(kinds, np.int32)[:-1].tolist()}
    interpolation = "constant" if kinds <= {CONSTANT} else "linear" if kinds == {LINEAR} else "bezier"
    return np.unique(frames.round(4)), interpolation
