"""A print of all that the place of an object depends on, to tell whether a reading of it still holds.

Values that curves or drivers set are left out: they follow the user's frame, and the curves are in the print.
"""

import hashlib
from collections.abc import Iterable, Iterator, Sequence

import numpy as np
from bpy.types import (
    ID,
    Action,
    Armature,
    Constraint,
    Curve,
    FCurve,
    FCurveKeyframePoints,
    Mesh,
    NlaStrip,
    Object,
    Scene,
)
from bpy.utils import escape_identifier

from .. import host
from ..rigs import Rig, is_rig
from .curves import BEZIER
from .dependencies import driver_targets, pointers
from .plain_values import Movements, Rows, column, columns, custom, holder_and_property, plain

PLAIN_MODIFIERS = {"SUBSURF", "MIRROR", "SOLIDIFY", "BEVEL"}


class UnknowableError(Exception):
    """A place depends on what cannot be printed in full: scripts, physics, node trees, other files."""


def digest_of_state(scene: Scene, blocks: Sequence[ID]) -> bytes:
    """Digest the state of what a reading in this scene depends on.

    Raises UnknowableError where it depends on more than that.
    """
    digest = hashlib.blake2b(digest_size=16)
    moved = {block.session_uid: _moved(block) for block in blocks}
    for block in blocks:
        for said in _block(block, scene, moved):
            digest.update(said if isinstance(said, bytes) else repr(said).encode())
    return digest.digest()


def _block(block: ID, scene: Scene, all_moved: dict[int, Movements]) -> Iterator[object]:
    moved = all_moved[block.session_uid]
    yield block.session_uid, block.name
    yield from _animation(block, scene, all_moved)
    yield from custom(block, moved.get("", {}))
    if isinstance(block, Object):
        yield from _object(block, moved)
        if block.data is not None and block.data.session_uid in all_moved and not is_rig(block):
            yield from _shape(block, moved)
    elif isinstance(block, Armature):
        yield block.pose_position, [(bone.name, bone.parent and bone.parent.name) for bone in block.bones]
        yield from columns(block.bones, {}, ("matrix_local",))
    elif isinstance(block, Scene):
        render = block.render
        yield render.frame_map_old, render.frame_map_new, render.use_simplify, render.simplify_subdivision
    elif isinstance(block, Mesh):
        yield from (column(block.vertices, "co", np.float32, 3), column(block.loops, "vertex_index", np.int32, 1))
    elif isinstance(block, Curve):
        yield from _rope(block, moved)
    elif isinstance(block, Action):
        yield from (said for curve in host.all_curves_of(block) for said in _curve(curve))
    elif block.id_type not in {"CAMERA", "LIGHT"}:
        raise UnknowableError(block.name)


def _moved(block: ID) -> Movements:
    data = getattr(block, "animation_data", None)
    moved: Movements = {}
    if data is not None:
        clips = (curve for clip in host.clips_of(data) for curve in host.curves_of(clip))
        for curve in (*host.curves_of(data), *clips, *data.drivers):
            holder, name = holder_and_property(curve.data_path)
            moved.setdefault(holder, {}).setdefault(name, set()).add(curve.array_index)
    return moved


def _animation(block: ID, scene: Scene, all_moved: dict[int, Movements]) -> Iterator[object]:
    data = getattr(block, "animation_data", None)
    if data is None:
        return
    yield plain(data, {})
    yield data.action and data.action.session_uid, getattr(data, "action_slot_handle", 0)
    for track in data.nla_tracks:
        yield track.mute, track.is_solo
        yield from _strips(track.strips)
    for curve in data.drivers:
        driver = curve.driver
        if driver.type == "SCRIPTED" and not driver.is_simple_expression:
            raise UnknowableError(driver.expression)
        # One that was found invalid at any frame is not evaluated from then on.
        yield driver.type, driver.expression, driver.use_self, driver.is_valid
        yield from _curve(curve)
        for variable in driver.variables:
            yield variable.name, variable.type
    for target in driver_targets(block):
        yield target.id and target.id.session_uid
        yield plain(target, {})
        asked = target.id or scene
        yield from _asked(asked, target.data_path, all_moved.get(asked.session_uid, {}))


def _asked(block: ID, path: str, moved: Movements) -> Iterator[object]:
    """Tell what a driver reads, of whatever owner, unless it follows the frame."""
    base = path.rpartition("[")[0] if path[-2:-1].isdigit() else path
    holder, name = holder_and_property(base)
    if path and not path.startswith("frame_") and name not in moved.get(holder, {}):
        try:
            value = block.path_resolve(path)
        except ValueError:
            return
        if isinstance(value, bool | int | float | str):
            yield value


def _strips(strips: Iterable[NlaStrip]) -> Iterator[object]:
    for strip in strips:
        # Where its influence is animated it follows the frame; otherwise it is not read.
        yield plain(strip, {"influence": {0}})
        yield strip.action and strip.action.session_uid, getattr(strip, "action_slot_handle", 0)
        yield from (said for curve in strip.fcurves for said in _curve(curve))
        yield [plain(modifier, {}) for modifier in strip.modifiers]
        yield from _strips(strip.strips)


def _object(thing: Object, moved: Movements) -> Iterator[object]:
    if thing.rigid_body is not None:
        raise UnknowableError(thing.name)
    yield thing.parent and thing.parent.session_uid, thing.data and thing.data.session_uid
    yield plain(thing, moved.get("", {}))
    yield from _constraints(thing.constraints, "", moved)
    if not is_rig(thing):
        return
    bones = thing.pose.bones
    yield from columns(bones, _rows(thing, moved))
    for bone in bones:
        if bone.keys() or bone.constraints:
            path = f'pose.bones["{escape_identifier(bone.name)}"]'
            yield from custom(bone, moved.get(path, {}))
            yield from _constraints(bone.constraints, f"{path}.", moved)


def _rows(thing: Rig, moved: Movements) -> Rows:
    order = {name: row for row, name in enumerate(thing.pose.bones.keys())}
    rows: Rows = {}
    for holder, channels in moved.items():
        for channel, indices in channels.items():
            bone, _ = host.bone_of_path(f"{holder}.{channel}") or ("", "")
            if bone in order:
                rows.setdefault(channel, []).extend((order[bone], index) for index in indices)
    return rows


def _constraints(constraints: Iterable[Constraint], path: str, moved: Movements) -> Iterator[object]:
    for constraint in constraints:
        own = f'{path}constraints["{escape_identifier(constraint.name)}"]'
        names = pointers(type(constraint))  # type: ignore[arg-type]  # a class can be hashed: mypy asks its instances
        yield constraint.type, plain(constraint, moved.get(own, {}))
        yield [getattr(getattr(constraint, name), "session_uid", None) for name in names]
        for number, end in enumerate(getattr(constraint, "targets", ())):
            yield end.target and end.target.session_uid, plain(end, moved.get(f"{own}.targets[{number}]", {}))


def _shape(thing: Object, moved: Movements) -> Iterator[object]:
    if thing.vertex_groups or any(modifier.type not in PLAIN_MODIFIERS for modifier in thing.modifiers):
        raise UnknowableError(thing.name)
    for modifier in thing.modifiers:
        yield plain(modifier, moved.get(f'modifiers["{escape_identifier(modifier.name)}"]', {}))
        mirror = getattr(modifier, "mirror_object", None)
        yield mirror and mirror.session_uid


def _rope(curve: Curve, moved: Movements) -> Iterator[object]:
    yield plain(curve, moved.get("", {}))
    for spline in curve.splines:
        yield plain(spline, {})
        for points in (spline.points, spline.bezier_points):
            yield from columns(points, {})


def _curve(curve: FCurve) -> Iterator[object]:
    yield curve.data_path, curve.array_index, curve.mute, curve.extrapolation, host.is_silent(curve)
    if len(curve.keyframe_points):
        yield from _keys(curve.keyframe_points)
    elif len(curve.sampled_points):
        yield column(curve.sampled_points, "co", np.float32, 2)
    for modifier in curve.modifiers:
        yield modifier.type
        yield plain(modifier, {})
        for point in getattr(modifier, "control_points", ()):
            yield plain(point, {})
        yield list(getattr(modifier, "coefficients", ()))


def _keys(points: FCurveKeyframePoints) -> Iterator[bytes]:
    for name in ("co", "handle_left", "handle_right"):
        yield column(points, name, np.float32, 2)
    kinds = column(points, "interpolation", np.int32, 1)
    yield kinds
    if np.frombuffer(kinds, np.int32).max() > BEZIER:
        yield column(points, "easing", np.int32, 1)
        for name in ("amplitude", "back", "period"):
            yield column(points, name, np.float32, 1)
