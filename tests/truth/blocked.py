"""Pose blocking drawn by the host itself: keys on whole frames, its own default handles. Needs bpy."""

import zlib

import numpy as np

from .answer import Motion
from .compose import compose, draw_leap
from .keyed import by_keys, pose_keys

KINDS = {"bezier poses": {}, "bezier poses, uneven": {"uneven": 0.6}, "bezier poses on twos": {}}


def make(kind: str, seed: int) -> Motion:
    """Key the poses of a jump on an object's location and sample its curves; the events are the keys."""
    rng = np.random.default_rng([zlib.crc32(kind.encode()), seed])
    step = 2 if kind.endswith("on twos") else 1
    leap = draw_leap(rng, 24.0, push=(2.0 * step, np.inf), air=(6.0 * step, np.inf), **KINDS[kind])
    motion = compose(kind, seed, rng, [leap], 24.0)
    keys, poses = pose_keys(motion, rng, step=step)
    frames = np.arange(keys[0], keys[-1] + 4)
    drawn = drawn_by_host(keys, poses, frames)
    return by_keys(motion, keys, drawn, frames=frames, key_frames=keys, interpolation="bezier")


def drawn_by_host(keys: np.ndarray, poses: np.ndarray, frames: np.ndarray) -> np.ndarray:
    """(n, 3) positions at these frames of an object keyed at `keys`, as the host's defaults draw it."""
    import bpy

    body = bpy.data.objects.new("blocked", None)
    try:
        for frame, place in zip(keys, poses, strict=True):
            body.location = place
            body.keyframe_insert("location", frame=frame)
        curves = _curves(body)
        return np.column_stack([[curve.evaluate(frame) for frame in frames] for curve in curves])
    finally:
        action = body.animation_data and body.animation_data.action
        bpy.data.objects.remove(body)
        if action:
            bpy.data.actions.remove(action)


def _curves(body) -> list:
    """Return the three location curves, in a slotted action or a legacy one."""
    held = body.animation_data
    if hasattr(held, "action_slot") and held.action_slot:
        return list(held.action.layers[0].strips[0].channelbag(held.action_slot).fcurves)
    return list(held.action.fcurves)
