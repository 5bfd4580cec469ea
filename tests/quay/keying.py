"""Lay keys on a channel of an object or a pose bone, handles included."""

import itertools
from collections.abc import Sequence

import bpy
from leapwright.addon.host import curves_of

Curved = Sequence[tuple[float, float]]


def lay(
    owner: bpy.types.Object | bpy.types.PoseBone,
    path: str,
    index: int,
    frames: Sequence[float],
    values: Sequence[float],
    *,
    slopes: Curved | None = None,
    stepped: bool = False,
) -> None:
    """Key one channel.

    slopes: for each key the slope before and after it, per frame; the handles then lie at a third of
    the way to the next key, so that the curve is the cubic with those slopes. None: the host's default
    handles. stepped: each value is held until the next key.
    """
    holder = owner.id_data
    owner.keyframe_insert(path, index=index, frame=frames[0], group=owner.name)
    full = path if holder == owner else f"{owner.path_from_id()}.{path}"
    curve = next(c for c in curves_of(holder.animation_data) if c.data_path == full and c.array_index == index)
    points = curve.keyframe_points
    points.add(len(frames) - len(points))
    points.foreach_set("co", [n for pair in zip(frames, values, strict=True) for n in pair])
    for point in points:
        point.interpolation = "CONSTANT" if stepped else "BEZIER"
        kind = "AUTO_CLAMPED" if slopes is None else "FREE"
        point.handle_left_type = point.handle_right_type = kind
    if slopes is not None:
        _shape(points, frames, values, slopes)
    curve.update()


def _shape(points, frames: Sequence[float], values: Sequence[float], slopes: Curved) -> None:
    gaps = [b - a for a, b in itertools.pairwise(frames)]
    left, right = [gaps[0], *gaps], [*gaps, gaps[-1]]
    for i, point in enumerate(points):
        before, after = slopes[i]
        point.handle_left = frames[i] - left[i] / 3, values[i] - before * left[i] / 3
        point.handle_right = frames[i] + right[i] / 3, values[i] + after * right[i] / 3
