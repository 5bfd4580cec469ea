"""What an object's place depends on: every data-block that Blender reads to evaluate it, in this or another way.

Hidden ones too, which a dependency graph does not list. Some that do not matter in the end may be among them.
"""

from collections.abc import Iterable, Iterator
from functools import cache
from typing import Any

import numpy as np
from bpy.types import ID, Constraint, Driver, DriverTarget, Modifier, NlaStrip, Object, Scene, bpy_struct

from .. import host
from ..rigs import is_rig
from ..scene import key_time

SHAPED = {"SHRINKWRAP", "FOLLOW_PATH", "SPLINE_IK", "CLAMP_TO"}
"""Constraints that read the shape of their target, not only its place."""
MOST_DRIVERS_NAMED = 3
"""Most drivers that a sentence names."""


def dependencies_of(scene: Scene, thing: ID) -> list[ID]:
    """List the scene, the object, and what either reads: parents, targets, drivers, actions.

    The data of an object is listed only where its shape, or its bones, are read.
    """
    found: dict[int, ID] = {}
    waiting: list[ID | None] = [thing, scene]
    while waiting:
        data = waiting.pop()
        if data is not None and data.session_uid not in found:
            found[data.session_uid] = data
            waiting.extend(_read_by(data))
    return list(found.values())


def span_of(scene: Scene, reads: Iterable[ID]) -> tuple[float, float]:
    """Return the first and last frame, before time remapping, at which any of these is keyed.

    Within the scene's range, which is also the answer where nothing is keyed.
    """
    rate = key_time(scene)
    start, end = scene.frame_start * rate, scene.frame_end * rate
    spans = np.array([span for data in reads for span in _spans(data)]).reshape(-1, 2)
    if not len(spans) or spans[:, 1].max() <= start or spans[:, 0].min() >= end:
        return start, end
    return max(start, float(spans[:, 0].min())), min(end, float(spans[:, 1].max()))


def drivers_of(data: ID) -> Iterator[Driver]:
    """Yield the drivers of a data-block, in order."""
    moved = getattr(data, "animation_data", None)
    for curve in moved.drivers if moved is not None else ():
        yield curve.driver


def driver_targets(data: ID) -> Iterator[DriverTarget]:
    """Yield what the drivers of a data-block read."""
    for driver in drivers_of(data):
        for variable in driver.variables:
            yield from variable.targets


def invalid_drivers(reads: Iterable[ID]) -> tuple[str, ...]:
    """Say which drivers Blender has found invalid where it last evaluated them, in a sentence; else nothing."""
    broken = list(
        dict.fromkeys(
            _driven(data, curve.data_path)
            for data in reads
            if (moved := getattr(data, "animation_data", None)) is not None
            for curve in moved.drivers
            if not curve.mute and not curve.driver.is_valid
        )
    )
    if len(broken) < 2:
        return tuple(f"the driver of {name} is invalid: Blender does not evaluate it" for name in broken)
    more = f" and {len(broken) - MOST_DRIVERS_NAMED} more" if len(broken) > MOST_DRIVERS_NAMED else ""
    return (
        f"the drivers of {', '.join(broken[:MOST_DRIVERS_NAMED])}{more} are invalid: Blender does not evaluate them",
    )


def constraints_of(thing: Object) -> Iterator[Constraint]:
    """Yield the constraints of an object and of its bones."""
    yield from thing.constraints
    for bone in thing.pose.bones if is_rig(thing) else ():
        yield from bone.constraints


def _driven(data: ID, path: str) -> str:
    bone, channel = host.bone_of_path(path) or ("", path)
    return f'{channel} of "{data.name}{bone and "/"}{bone}"'


def _spans(data: ID) -> Iterator[tuple[float, float]]:
    moved = getattr(data, "animation_data", None)
    if moved is not None:
        for curve in host.curves_of(moved):
            if not host.is_silent(curve):
                first, last = curve.range()
                yield first, last
        if moved.use_nla:
            yield from ((strip.frame_start, strip.frame_end) for strip in host.clips_of(moved))


def _read_by(data: ID) -> Iterator[ID | None]:
    moved = getattr(data, "animation_data", None)
    if moved is not None:
        yield moved.action
        for track in moved.nla_tracks:
            yield from _actions(track.strips)
        yield from (target.id for target in driver_targets(data))
    if isinstance(data, Object):
        yield data.parent
        if data.parent is not None and (data.parent_type.startswith("VERTEX") or data.parent.type == "CURVE"):
            yield from _shape(data.parent)
        if is_rig(data):
            yield data.data
        for constraint in constraints_of(data):
            yield from _pointed_at(constraint)
            yield from (end.target for end in getattr(constraint, "targets", ()))
            target = getattr(constraint, "target", None)
            if constraint.type in SHAPED or (target and not is_rig(target) and getattr(constraint, "subtarget", "")):
                yield from _shape(target)


def _shape(thing: Object | None) -> Iterator[ID | None]:
    if thing is not None:
        yield thing.data
        for modifier in thing.modifiers:
            yield from _pointed_at(modifier)
        if thing.data is not None:
            yield from _pointed_at(thing.data)


def _actions(strips: Iterable[NlaStrip]) -> Iterator[ID | None]:
    for strip in strips:
        yield strip.action
        yield from _actions(strip.strips)


def _pointed_at(holder: Constraint | Modifier | ID) -> Iterator[ID]:
    for name in pointers(type(holder)):  # type: ignore[arg-type]  # a class can be hashed: mypy asks its instances
        pointed = getattr(holder, name)
        if isinstance(pointed, ID):
            yield pointed


@cache
def pointers(kind: "type[bpy_struct[Any]]") -> tuple[str, ...]:
    """Name the properties of a kind that point at something else."""
    # rna_type poses as one of what it describes; to ask for a group that an add-on registers would make it.
    entries = (entry for entry in kind.bl_rna.properties if entry.type == "POINTER" and not entry.is_runtime)
    return tuple(entry.identifier for entry in entries if entry.identifier != "rna_type")
