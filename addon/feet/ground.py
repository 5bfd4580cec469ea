"""The ground under the feet where it is a mesh: rays cast down onto it, as Blender evaluates it.

Meters, z against the scene's gravity.
"""

import numpy as np
from bpy.types import Object, Scene
from mathutils import Matrix, Vector
from numpy.typing import ArrayLike

from ...analysis.arrays import Array
from ...analysis.errors import SourceError
from ..reading.dependencies import dependencies_of
from ..reading.private_scene import private_scene
from ..scene import unit_scale, upright

NO_GROUND_DEPTH = 100.0
"""Meters under a foot at which the ground is put where there is none: it never touches it."""


def ground_under(scene: Scene, mesh: Object, points: Array, frames: ArrayLike, *, above: float) -> Array:
    """Return (n, m): the height of a mesh under (n, m, 3) points over n frames, meters.

    The highest face at most `above` meters over a point counts; where there is none, NO_GROUND_DEPTH meters under it.
    Raises SourceError for an object that has no faces, and for a mesh that no point is ever over.
    """
    if mesh.type not in {"MESH", "CURVE", "SURFACE", "META", "FONT"}:
        raise SourceError(f'"{mesh.name}" has no faces to land on: choose a mesh')
    frames = np.asarray(frames, dtype=np.float64)
    turn, unit = upright(scene), unit_scale(scene)
    up = Vector(turn[2])
    starts = points @ turn / unit
    heights = points[:, :, 2] - NO_GROUND_DEPTH
    still = not _moves(scene, mesh)
    with private_scene(scene, mesh) as private:
        for row, frame in enumerate(frames.tolist()):
            if row == 0 or not still:
                shown = mesh.evaluated_get(private.show(frame))
                place = shown.matrix_world.copy()
                back = place.inverted_safe()
            for column, point in enumerate(starts[row]):
                hit = _hit(shown, place, back, Vector(point) + up * (above / unit), -up)
                if hit is not None:
                    heights[row, column] = float(turn[2] @ np.array(hit)) * unit
    if (heights == points[:, :, 2] - NO_GROUND_DEPTH).all():
        raise SourceError(f'the feet are never over "{mesh.name}": choose the mesh they land on')
    return heights


def _hit(shown: Object, place: Matrix, back: Matrix, start: Vector, down: Vector) -> Vector | None:
    """Tell where a ray of the scene meets an evaluated object, which is asked in its own space."""
    if shown.data is None or not len(getattr(shown.data, "polygons", ())):
        return None
    found, where, _normal, _face = shown.ray_cast(back @ start, (back.to_3x3() @ down).normalized())
    return place @ where if found else None


def _moves(scene: Scene, mesh: Object) -> bool:
    """Tell whether the mesh may change from frame to frame."""
    moved = (getattr(data, "animation_data", None) for data in dependencies_of(scene, mesh) if data != scene)
    return len(mesh.modifiers) > 0 or any(data is not None for data in moved)
