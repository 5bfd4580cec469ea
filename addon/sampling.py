"""Read a keyed location into a Track from its F-curves alone: no frame is set and nothing is evaluated.

Positions in metres, z against the scene's gravity; frames are whole frames of the scene.
"""

import math
from collections.abc import Sequence

import numpy as np
from bpy.types import Object, Scene

from ..analysis.errors import SourceError
from ..analysis.track import FEWEST_FRAMES, Track
from . import placement
from .channels import Channel, Channels, Motion
from .curves import CONSTANT, LINEAR, values_of
from .scene import frame_rate, key_time, metres, upright

LONGEST = 200_000
"""Frames past which a range is taken for a mistake (ours)."""


def sample_object(scene: Scene, thing: Object) -> Track:
    """Read the world path of an object's origin. Raises SourceError when its location is not keyed."""
    motion = Motion(thing)
    location, delta = motion.channels("location"), motion.channels("delta_location")
    place, notes = placement.of_object(thing)
    return _track(
        scene,
        thing.name,
        source="object",
        parts=[(location, thing.location), (delta, thing.delta_location)],
        place=place,
        notes=notes,
    )


def sample_bone(scene: Scene, thing: Object, name: str) -> Track:
    """Read the world path of a pose bone's head.

    Raises SourceError when there is no such bone, when its location keys do nothing because it is
    connected to its parent, when its location is not keyed, and in Edit Mode, where bones have no pose.
    """
    label = f"{thing.name}/{name}"
    bone = thing.pose.bones.get(name) if thing.pose else None
    if bone is None:
        raise SourceError(f'"{thing.name}" has no bone "{name}"')
    if thing.mode == "EDIT":
        raise SourceError(f'"{label}" has no pose in Edit Mode: leave it and audit again')
    motion = Motion(thing)
    location = motion.channels(bone.path_from_id("location"))
    if bone.bone.use_connect and bone.parent is not None and any(location.axes):
        raise SourceError(f'"{label}" is connected to its parent, so its location keys do nothing')
    place, notes = placement.of_bone(thing, bone, motion)
    return _track(scene, label, source="bone", parts=[(location, bone.location)], place=place, notes=notes)


def _track(
    scene: Scene,
    name: str,
    *,
    source: str,
    parts: Sequence[tuple[Channels, Sequence[float]]],
    place: np.ndarray,
    notes: Sequence[str],
) -> Track:
    """Add the parts of a location up, place them in the world and turn them upright."""
    keyed = [channel for channels, _ in parts for channel in channels]
    if not keyed:
        raise SourceError(f'"{name}" has no location keys: key its location, or pick what carries the jump')
    rate = key_time(scene)
    frames = _whole_frames(name, keyed, rate)
    values = iter(values_of([channel.asked(frames * rate) for channel in keyed]))
    local = np.empty((3, len(frames)))
    local[:] = np.sum([still for _, still in parts], axis=0)[:, None]
    for channels, still in parts:
        for axis, channel in enumerate(channels.axes):
            if channel is not None:
                local[axis] += next(values) - still[axis]
    world = upright(scene) * metres(scene) @ place[:3]
    keys, interpolation = _keys([channel for channels, _ in parts for channel in channels.moving])
    return Track(
        name=name,
        fps=frame_rate(scene),
        frames=frames,
        positions=(world[:, :3] @ local + world[:, 3:]).T,
        key_frames=None if keys is None else keys / rate,
        interpolation=interpolation,
        source=source,
        notes=tuple(dict.fromkeys((*(note for channels, _ in parts for note in channels.notes), *notes))),
    )


def _whole_frames(name: str, keyed: Sequence[Channel], rate: float) -> np.ndarray:
    """Return the whole frames from the first key to the last."""
    spans = [channel.span() for channel in keyed]
    first = math.floor(min(span[0] for span in spans) / rate + 1e-4)
    last = math.ceil(max(span[1] for span in spans) / rate - 1e-4)
    count = last - first + 1
    if count < FEWEST_FRAMES:
        raise SourceError(f'"{name}" is keyed over {count} frames only: a jump needs at least {FEWEST_FRAMES}')
    if count > LONGEST:
        raise SourceError(f'"{name}" is keyed from frame {first} to {last}: too long to be a shot')
    return np.arange(first, last + 1, dtype=np.float64)


def _keys(moving: Sequence[Channel]) -> tuple[np.ndarray | None, str | None]:
    """Return the union of the keys, on the timeline, and how they are joined; None when not known."""
    found = [channel.keys() for channel in moving]
    frames = [keys for keys, _ in found if len(keys)]
    if not frames:
        return None, None
    kinds = np.concatenate([kinds[:-1] for _, kinds in found])
    if (kinds == CONSTANT).all():
        interpolation = "constant"
    elif (kinds == LINEAR).all():
        interpolation = "linear"
    else:
        interpolation = "bezier"
    return np.unique(np.concatenate(frames).round(4)), interpolation
