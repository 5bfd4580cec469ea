"""Select the keys that a finding speaks of: those of what was audited, on its frames."""

from collections.abc import Iterator

from bpy.types import FCurve

from . import host
from .target import Target

FRAMES_BESIDE_FINDING = 0.5
"""Most frames by which a key lies outside a finding's own frames and is still spoken of."""


def select_keys(target: Target, first: float, last: float) -> int:
    """Select the keys of a target's object on these frames of its action, and no others; return how many.

    Of a bone, those that carry it; of an armature whose center of mass was read, those of all its bones.
    """
    count = 0
    for curve in _curves(target):
        for key in curve.keyframe_points:
            chosen = (
                _carries(target, curve) and first - FRAMES_BESIDE_FINDING <= key.co.x <= last + FRAMES_BESIDE_FINDING
            )
            key.select_control_point = key.select_left_handle = key.select_right_handle = chosen
            count += chosen
    return count


def _curves(target: Target) -> Iterator[FCurve]:
    data = getattr(target.thing, "animation_data", None)
    yield from host.curves_of(data) if data is not None else ()


def _carries(target: Target, curve: FCurve) -> bool:
    bone = host.bone_of_path(curve.data_path)
    if target.source == "bone":
        return bone == (target.bone, "location")
    return bone is not None if target.source == "center_of_mass" else curve.data_path == "location"
