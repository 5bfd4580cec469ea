"""The curve that the host itself draws through keys: an action's F-curves, evaluated in the process."""

from collections.abc import Iterator
from contextlib import contextmanager

import numpy as np

INTERPOLATIONS = {"constant": 0, "linear": 1, "bezier": 2}
HANDLES = {"flat": 0, "auto": 1, "vector": 2, "clamped": 4}
"""The host's own numbers of Keyframe.interpolation and of handle types (free, auto, vector, auto clamped)."""


def drawn(
    keys: np.ndarray, poses: np.ndarray, frames: np.ndarray, *, joined: str = "bezier", handles: str = "clamped"
) -> np.ndarray:
    """(n, 3) positions at `frames` of what is keyed at (k,) `keys` with (k, 3) `poses`.

    handles: flat ones are free, level, and reach a third of the way to the next key.
    """
    with _curves(poses.shape[1]) as curves:
        columns = []
        for curve, values in zip(curves, poses.T, strict=True):
            points = curve.keyframe_points
            points.add(len(keys))
            points.foreach_set("co", _pairs(keys, values))
            points.foreach_set("interpolation", np.full(len(keys), INTERPOLATIONS[joined], np.int32))
            for side in ("left", "right"):
                points.foreach_set(f"handle_{side}_type", np.full(len(keys), HANDLES[handles], np.int32))
            if handles == "flat":
                third = np.diff(keys, prepend=keys[0] - 1, append=keys[-1] + 1) / 3
                for side, reach in (("left", -third[:-1]), ("right", third[1:])):
                    points.foreach_set(f"handle_{side}", _pairs(keys + reach, values))
            curve.update()
            columns.append([curve.evaluate(frame) for frame in frames])
    return np.column_stack(columns)


def _pairs(frames: np.ndarray, values: np.ndarray) -> np.ndarray:
    return np.column_stack([frames, values]).astype(np.float32).ravel()


@contextmanager
def _curves(count: int) -> Iterator[list]:
    """New location curves of an action that is thrown away: legacy, or in the bag of a slot."""
    import bpy

    action = bpy.data.actions.new("drawn")
    try:
        if hasattr(action, "fcurves"):
            bag = action
        else:
            slot = action.slots.new("OBJECT", "drawn")
            bag = action.layers.new("drawn").strips.new(type="KEYFRAME").channelbag(slot, ensure=True)
        yield [bag.fcurves.new("location", index=index) for index in range(count)]
    finally:
        bpy.data.actions.remove(action)
