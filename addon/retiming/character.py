"""What belongs to a character when it is retimed: every F-curve of it, and why they may not be moved.

The curves of the object, of its data and, where asked, of the shape keys of its meshes; in frames of their own
action, which NLA tweak mode shifts against the timeline.
"""

from collections.abc import Iterator
from dataclasses import dataclass

import bpy
from bpy.types import ID, Action, AnimData, FCurve, Object, Scene

from ...analysis.errors import RetimeError
from .. import host
from ..keys import name_of
from ..scene import key_time


@dataclass(frozen=True, slots=True)
class MovedCurves:
    """The curves that one data-block plays, and by how many frames its action runs ahead of the timeline."""

    owner: ID
    action: Action
    curves: tuple[FCurve, ...]
    ahead: float = 0.0


def parts_of(scene: Scene, thing: Object, *, shape_keys: bool = False) -> tuple[MovedCurves, ...]:
    """Collect what moves a character, each part with curves that have keys.

    Raises RetimeError, with the reason and the first curve it is true of, where any of it may not be moved:
    linked, overridden, shared, locked, muted, driven, baked, cyclic, in the NLA outside tweak mode, or in a
    scene with time remapping.
    """
    if abs(key_time(scene) - 1.0) > 1e-9:
        raise RetimeError("the scene's time remapping is on: set it to 1:1 to retime")
    parts = tuple(part for owner in _owners(thing, shape_keys) if (part := _part(owner)) is not None)
    if not parts:
        raise RetimeError(f'"{thing.name}" has no keys to move')
    return parts


def _owners(thing: Object, shape_keys: bool) -> Iterator[ID]:
    yield thing
    if thing.data is not None:
        yield thing.data
    if not shape_keys:
        return
    found = {}
    for mesh in (thing, *bpy.data.objects):
        worn = any(modifier.type == "ARMATURE" and modifier.object == thing for modifier in mesh.modifiers)
        if (worn or thing in (mesh, mesh.parent)) and getattr(mesh.data, "shape_keys", None) is not None:
            found[mesh.data.shape_keys.name_full] = mesh.data.shape_keys
    yield from found.values()


def _part(owner: ID) -> MovedCurves | None:
    data: AnimData | None = getattr(owner, "animation_data", None)
    if data is None:
        return None
    strips = list(host.clips_of(data)) if data.use_nla else []
    if strips and not data.use_tweak_mode:
        raise RetimeError(f'"{owner.name}" plays NLA strips: enter tweak mode on the one to retime')
    action = data.action
    curves = tuple(curve for curve in host.curves_of(data) if not curve.is_empty)
    if action is None or not curves:
        return None
    _check_owner(owner, data, action)
    driven = {(driver.data_path, driver.array_index) for driver in data.drivers if not driver.mute}
    for curve in curves:
        reason = _fixed(curve, driven)
        if reason is not None:
            raise RetimeError(f"{name_of(curve)} of {owner.name} {reason}")
    return MovedCurves(owner, action, curves, _ahead(data) if data.use_tweak_mode else 0.0)


def _check_owner(owner: ID, data: AnimData, action: Action) -> None:
    if owner.library is not None:
        raise RetimeError(f'"{owner.name}" is linked from {owner.library.filepath}: make a library override of it')
    override = owner.override_library
    if override is not None and override.is_system_override:
        raise RetimeError(f'"{owner.name}" is overridden but not editable: make its override editable')
    if not action.is_editable:
        raise RetimeError(f'the action "{action.name}" is linked or read-only: make a local copy of it')
    for user in bpy.data.user_map(subset={action})[action]:
        other = getattr(user, "animation_data", None)
        same_slot = getattr(other, "action_slot", None) == getattr(data, "action_slot", None)
        if user != owner and other is not None and other.action == action and same_slot:
            raise RetimeError(f'the action "{action.name}" also moves "{user.name}": make it single-user')


def _fixed(curve: FCurve, driven: set[tuple[str, int]]) -> str | None:
    """Tell why the keys of a curve may not be moved; None when they may."""
    group = curve.group
    if curve.lock or (group is not None and group.lock):
        return "is locked: unlock its channel"
    if curve.mute or (group is not None and group.mute):
        return "is muted: unmute its channel"
    if len(curve.sampled_points):
        return "is baked to samples, without keys: turn the samples into keys"
    if (modifiers := curve.modifiers) and any(modifier.type == "CYCLES" for modifier in modifiers):
        return "is cyclic: remove its Cycles modifier"
    if driven and (curve.data_path, curve.array_index) in driven:
        return "has a driver, so its keys do nothing: remove one of the two"
    return None


def _ahead(data: AnimData) -> float:
    """Return frames that the tweaked strip's action is ahead of the timeline; refuse one that is not plainly placed."""
    slot = getattr(data, "action_slot", None)
    tweaked = [
        strip
        for strip in host.clips_of(data)
        if strip.action == data.action and getattr(strip, "action_slot", None) == slot
    ]
    if len(tweaked) != 1:
        name = data.action.name if data.action else ""
        raise RetimeError(f'the NLA plays the action "{name}" {len(tweaked)} times: it cannot be retimed')
    strip = tweaked[0]
    if strip.scale != 1.0 or strip.repeat != 1.0 or strip.use_reverse or strip.use_animated_time:
        raise RetimeError(f'the NLA strip "{strip.name}" is scaled, repeated or reversed: apply that first')
    return strip.action_frame_start - strip.frame_start
