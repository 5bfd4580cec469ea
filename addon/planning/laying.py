"""Lay a plan into the scene: timeline markers, a guide curve, and the five keys of its path.

The keys' handles lie at a third of the way to the next key, on the path's own slopes: so each stretch is the
quadratic that the law asks for, on every part of a frame. Whatever may not be keyed is refused before anything
is changed.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import bpy
import numpy as np
from bpy.types import Curve, FCurve, Object, PoseBone, Scene

from ...analysis.arrays import Array
from ...analysis.errors import PlanError
from ...analysis.planning.path import path_at
from ...analysis.planning.plan import Plan
from .. import host
from ..reading import placement
from ..reading.channels import Motion
from ..rigs import is_rig
from ..scene import key_time
from ..target import Target
from .keyable import (
    curves_at,
    driven_notes,
    key_indices,
    owner_of,
    path_of,
    refuse_if_fixed,
    refuse_if_keyed,
    refuse_if_locked,
)
from .place import Place

GUIDE, OF_PLAN = "Jump Guide", "leapwright_plan_of"
"""What a guide is called, and the property that tells what it was planned for."""
HALF_TICK_SHARE = 0.03
"""Half the length of a tick, as a share of the jump's size; twice as long at a key (ours)."""
UNMOVING_SHARE = 1e-6
"""Movement under which a channel does not move, as a share of the path's size."""


@dataclass(frozen=True, slots=True, eq=False)
class Laid:
    """Keys ready to be written. frames: (k,) of the action; values: (k, 3); slopes: (k, 2, 3), a frame of the
    action, before and after each key; axes: the channels that move; notes: what was not taken along."""

    target: Target
    owner: Object | PoseBone
    frames: Array
    values: Array
    slopes: Array
    axes: tuple[int, ...]
    notes: tuple[str, ...]


def prepare_keys(scene: Scene, plan: Plan, place: Place, target: Target, *, replace: bool) -> Laid:
    """Work out the keys of a plan for a location, changing nothing. Raises PlanError when they may not be set."""
    refuse_if_fixed(target)
    owner = owner_of(target)
    if isinstance(owner, PoseBone) and is_rig(target.thing):
        matrix, notes = placement.of_bone(target.thing, owner, Motion(target.thing), done="laid")
    else:
        matrix, notes = placement.of_object(target.object, done="laid")
    turn = matrix[:3, :3]
    if abs(np.linalg.det(turn)) < 1e-12:
        raise PlanError(f'"{target.name}" lies in something scaled to nothing: it cannot be placed')
    back = np.linalg.inv(turn)
    points = place.points(*_column(plan, "height", "across"))
    values = (points - matrix[:3, 3]) @ back.T
    if isinstance(owner, Object):
        values -= np.array(owner.delta_location)
    frames, rate = _action_frames(scene, plan, target)
    ways = [place.ways(*(np.array([slope[side] for slope in column]) for column in _slopes(plan))) for side in (0, 1)]
    slopes = np.stack(ways, axis=1) @ back.T / rate
    moved = np.ptp(values, axis=0)
    heard = [curve for curve in curves_at(target.thing.animation_data, path_of(owner)) if not host.is_silent(curve)]
    # A channel that is keyed and would go on as it is takes the body off the path, so it is keyed to stand.
    keyed = {curve.array_index for curve in heard}
    axes = tuple(axis for axis in range(3) if moved[axis] > UNMOVING_SHARE * moved.max() or axis in keyed)
    refuse_if_locked(target, owner, axes)
    if not replace:
        refuse_if_keyed(target, [curve for curve in heard if curve.array_index in axes], frames[0], frames[-1])
    notes += driven_notes(target, owner, axes)
    return Laid(target, owner, frames, values, slopes, axes, tuple(notes))


def lay_keys(laid: Laid) -> None:
    """Write the keys; keys that lie between them on the same channels are replaced."""
    for axis in laid.axes:
        curve = _curve(laid, axis)
        for number in key_indices(curve, laid.frames[0], laid.frames[-1]):
            curve.keyframe_points.remove(curve.keyframe_points[number], fast=True)
        for frame, value in zip(laid.frames, laid.values[:, axis], strict=True):
            curve.keyframe_points.insert(frame, value, options={"FAST"})
        _shape(curve, laid.frames, laid.values[:, axis], laid.slopes[:, :, axis])
        curve.update()


def lay_guide(scene: Scene, plan: Plan, place: Place, *, followed: str = "") -> Object:
    """Add a curve from takeoff to landing with a tick a frame; it is never rendered and can be moved freely.

    followed: what it is planned for; the guide of an earlier plan for the same goes.
    """
    for former in [thing for thing in scene.objects if thing.get(OF_PLAN) == followed]:
        data = former.data
        bpy.data.objects.remove(former)
        if isinstance(data, Curve) and not data.users:
            bpy.data.curves.remove(data)
    curve = bpy.data.curves.new(GUIDE, "CURVE")
    curve.dimensions, curve.resolution_u = "3D", 64
    takeoff, landing = plan.keys[1], plan.keys[3]
    frames = np.arange(takeoff.frame, landing.frame + 1)
    arc = curve.splines.new("BEZIER")
    arc.bezier_points.add(1)
    third = (landing.frame - takeoff.frame) / 3.0
    for point, key in zip(arc.bezier_points, (takeoff, landing), strict=True):
        middle = place.ways(key.height, key.across)
        side = 1 if key is takeoff else 0
        reach = place.ways(key.height_slope[side], key.across_slope[side]) * third
        point.handle_left_type = point.handle_right_type = "FREE"
        point.co = middle.tolist()
        point.handle_left, point.handle_right = (middle - reach).tolist(), (middle + reach).tolist()
    for start, end in _ticks(plan, place, frames):
        tick = curve.splines.new("POLY")
        tick.points.add(1)
        tick.points[0].co, tick.points[1].co = (*start, 1.0), (*end, 1.0)
    guide = bpy.data.objects.new(GUIDE, curve)
    guide[OF_PLAN] = followed
    guide.location = place.origin.tolist()
    guide.hide_render, guide.show_in_front = True, True
    scene.collection.objects.link(guide)
    return guide


def _ticks(plan: Plan, place: Place, frames: Array) -> Array:
    """Give (n, 2, 3) ends: across the path, on its plane; up and down lie apart where it goes nowhere."""
    heights, across = path_at(plan.keys, frames)
    ahead = path_at(plan.keys, frames + 1e-3)
    behind = path_at(plan.keys, frames - 1e-3)
    rise, run = ahead[0] - behind[0], ahead[1] - behind[1]
    rise[[0, -1]] = [plan.keys[1].height_slope.after, plan.keys[3].height_slope.before]
    run[[0, -1]] = plan.keys[2].across_slope.after
    length = np.hypot(rise, run)
    size = HALF_TICK_SHARE * (plan.exact.height + plan.goal.distance)
    keyed = np.isin(frames, [key.frame for key in plan.keys])
    half = size * np.where(keyed, 2.0, 1.0) / np.where(length > 0.0, length, 1.0)
    level = np.where(length > 1e-12, rise, 1.0)
    normal = place.ways(-run * half, np.where(length > 1e-12, level * half, size * 2.0))
    middle = place.ways(heights, across)
    first = middle if plan.goal.distance == 0.0 else middle - normal
    return np.stack([first, middle + normal], axis=1)


def _column(plan: Plan, *names: str) -> list[Array]:
    return [np.array([getattr(key, name) for key in plan.keys]) for name in names]


def _slopes(plan: Plan) -> tuple[list[Sequence[float]], list[Sequence[float]]]:
    return [key.height_slope for key in plan.keys], [key.across_slope for key in plan.keys]


def _action_frames(scene: Scene, plan: Plan, target: Target) -> tuple[Array, float]:
    """Return the keys' frames in the action's own time, and frames of the action per frame of the timeline."""
    frames = _column(plan, "frame")[0] * key_time(scene)
    data = target.thing.animation_data
    if data is not None and data.use_tweak_mode:
        frames = np.array([data.nla_tweak_strip_time_to_scene(frame, invert=True) for frame in frames.tolist()])
    rate = (frames[-1] - frames[0]) / (plan.keys[-1].frame - plan.keys[0].frame)
    if np.abs(np.diff(frames) - rate * np.diff(_column(plan, "frame")[0])).max() > 1e-3 or rate <= 0.0:
        raise PlanError("the tweaked NLA strip does not run evenly forward over these frames: key it elsewhere")
    return frames, float(rate)


def _curve(laid: Laid, axis: int) -> FCurve:
    """Return the channel's curve; a new one is empty."""
    path = path_of(laid.owner)
    for _ in range(2):
        for curve in curves_at(laid.target.thing.animation_data, path):
            if curve.array_index == axis:
                return curve
        if not laid.owner.keyframe_insert("location", index=axis, frame=laid.frames[0]):
            break
    raise PlanError(f'Blender lets no key be set on "{laid.target.name}"')


def _shape(curve: FCurve, frames: Array, values: Array, slopes: Array) -> None:
    """Set the handles of the keys at these frames; the outer ones lie level, a third of a stretch away."""
    gaps = np.diff(frames) / 3.0
    before, after = np.append(gaps[0], gaps), np.append(gaps, gaps[-1])
    points = list(curve.keyframe_points)
    for n, (frame, value) in enumerate(zip(frames, values, strict=True)):
        point = min(points, key=lambda point: abs(point.co.x - frame))
        smooth = np.isclose(slopes[n, 0], slopes[n, 1], rtol=1e-6, atol=1e-12)
        point.interpolation = "BEZIER"
        point.handle_left_type = point.handle_right_type = "ALIGNED" if smooth else "FREE"
        point.handle_left = frame - before[n], value - slopes[n, 0] * before[n]
        point.handle_right = frame + after[n], value + slopes[n, 1] * after[n]
