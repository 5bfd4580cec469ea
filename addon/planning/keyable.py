"""Whether a location may be keyed, asked before anything is changed: each refusal says what would settle it."""

from collections.abc import Iterable, Iterator, Sequence

from bpy.types import AnimData, Context, FCurve, Object, PoseBone

from ...analysis.errors import PlanError
from .. import host
from ..reading.channels import AXES
from ..target import Target, chosen_target, with_root

ONE_FRAME = 1e-3
"""Frames within which two keys are on one frame."""


def owner_of(target: Target) -> Object | PoseBone:
    """Return what holds the location. Raises PlanError for a bone that is not there, or cannot move."""
    thing = target.object
    if not target.kind.is_keyed:
        raise PlanError(f'"{target.name}" is measured, not keyed: follow an object or a bone to key')
    if not target.bone:
        return thing
    bone = thing.pose.bones.get(target.bone) if thing.pose else None
    if bone is None:
        raise PlanError(f'"{thing.name}" has no bone "{target.bone}"')
    if thing.mode == "EDIT":
        raise PlanError(f'"{target.name}" has no pose in Edit Mode: leave it first')
    if bone.bone.use_connect and bone.parent is not None:
        raise PlanError(f'"{target.name}" is connected to its parent, so location keys do nothing: key another')
    return bone


def refuse_if_no_key_can_be(context: Context) -> None:
    """Raise LeapwrightError where nothing is followed, or what is cannot be keyed at all."""
    target = with_root(chosen_target(context))
    owner_of(target)
    refuse_if_fixed(target)


def path_of(owner: Object | PoseBone) -> str:
    """Return the data path of its location."""
    return "location" if isinstance(owner, Object) else owner.path_from_id("location")


def refuse_if_fixed(target: Target) -> None:
    """Raise PlanError when no key can be set on the object at all, or none would be heard."""
    thing, data = target.thing, target.thing.animation_data
    if not thing.is_editable:
        raise PlanError(f'"{thing.name}" is linked from another file: make a library override of it first')
    if thing.override_library is not None and thing.override_library.is_system_override:
        raise PlanError(f'the override of "{thing.name}" is not editable: make it so first')
    if data is None:
        return
    if data.action is not None and not data.action.is_editable:
        raise PlanError(f'the action "{data.action.name}" is linked: give "{thing.name}" one of its own first')
    if data.use_nla and not data.use_tweak_mode and any(True for _ in host.clips_of(data)):
        raise PlanError(f'"{thing.name}" is moved by NLA strips: tweak the one to be keyed, or mute their tracks')


def refuse_if_locked(target: Target, owner: Object | PoseBone, axes: Iterable[int]) -> None:
    """Raise PlanError when one of these channels of the location is locked, driven, muted, modified or baked."""
    path, data = path_of(owner), target.thing.animation_data
    curves = {curve.array_index: curve for curve in curves_at(data, path)}
    drivers = _driven(data, path)
    for axis in axes:
        named = f'location {AXES[axis]} of "{target.name}"'
        if owner.lock_location[axis]:
            raise PlanError(f"{named} is locked: unlock it first")
        if axis in drivers:
            raise PlanError(f"{named} is driven: mute its driver first")
        if axis in curves and (reason := _fixed(curves[axis])):
            raise PlanError(f"{named} {reason}")
    if isinstance(owner, Object) and any(not host.is_silent(curve) for curve in curves_at(data, "delta_location")):
        raise PlanError(f'the delta location of "{target.name}" is keyed: key its location instead')


def driven_notes(target: Target, owner: Object | PoseBone, axes: Iterable[int]) -> tuple[str, ...]:
    """Say which other channels of the location are driven, and so may leave the path."""
    left = sorted(_driven(target.thing.animation_data, path_of(owner)) - set(axes))
    names = " and ".join(AXES[axis] for axis in left)
    return (f'location {names} of "{target.name}" is driven, and not part of the path',) if left else ()


def _driven(data: AnimData | None, path: str) -> set[int]:
    """Return the channels at a data path that a driver sets."""
    found = [curve for curve in data.drivers if curve.data_path == path] if data is not None else []
    return {curve.array_index for curve in found if not curve.mute}


def refuse_if_keyed(target: Target, curves: Sequence[FCurve], first: float, last: float) -> None:
    """Raise PlanError when keys lie from one frame of the action to another, both in."""
    count = sum(1 for curve in curves for _ in key_indices(curve, first, last))
    if count:
        keys = "a key" if count == 1 else f"{count} keys"
        raise PlanError(
            f'the location of "{target.name}" has {keys} from frame {first:g} to {last:g}: turn on Replace Keys, '
            "or crouch at another frame"
        )


def curves_at(data: AnimData | None, path: str) -> list[FCurve]:
    """List the curves at a data path of the assigned action."""
    return [curve for curve in host.curves_of(data) if curve.data_path == path] if data is not None else []


def key_indices(curve: FCurve, first: float, last: float) -> Iterator[int]:
    """Yield the indices of a curve's keys from one frame to another, both in, last first."""
    for number in range(len(curve.keyframe_points) - 1, -1, -1):
        if first - ONE_FRAME <= curve.keyframe_points[number].co.x <= last + ONE_FRAME:
            yield number


def _fixed(curve: FCurve) -> str | None:
    if curve.lock or (curve.group is not None and curve.group.lock):
        return "has a locked curve: unlock it first"
    if curve.mute or (curve.group is not None and curve.group.mute):
        return "has a muted curve: unmute it first"
    if len(curve.sampled_points):
        return "is baked to samples: convert it to keys first"
    if any(not modifier.mute for modifier in curve.modifiers):
        return "has curve modifiers: mute or apply them first"
    return None
