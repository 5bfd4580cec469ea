"""Where bones and objects are once Blender has worked out their IK, constraints, drivers, parents and NLA.

Meters, z against the scene's gravity, read in a private copy of the scene: the user's is not touched.
"""

from collections.abc import Callable, Iterator, Sequence
from typing import cast

import numpy as np
from bpy.types import ID, Armature, Object, Scene
from numpy.typing import ArrayLike

from ...analysis.arrays import Array
from ...analysis.errors import SourceError
from ..rigs import Rig, is_rig
from ..scene import unit_scale, upright
from .dependencies import dependencies_of
from .private_scene import private_scene
from .sample_cache import kept

Shown = Iterator[tuple[int, Rig]]
"""Numbers of the frames asked for, each with the object as it is evaluated there."""
Read = Callable[[Rig, Sequence[str], int, Shown], Array]


def evaluated_points(scene: Scene, thing: Object, bones: Sequence[str], frames: ArrayLike) -> Array:
    """Return (n, m, 2, 3): heads and tails of m pose bones over n frames of the timeline, whole or not.

    Raises SourceError when the object has no such bone, and in Edit Mode, where bones have no pose.

        evaluated_points(scene, brindle, ["root", "chest"], range(1, 49))[:, 0, 0]  # heads of the root
    """
    _check_bones(thing, bones)
    return _in_meters(scene, thing, bones, frames, _points)


def evaluated_frames(scene: Scene, thing: Object, bones: Sequence[str], frames: ArrayLike) -> Array:
    """Return (n, m, 4, 3): head, tail, and ends of the x and z axes laid off from the head, as long as the bone.

    Of m pose bones over n frames of the timeline; raises what `evaluated_points` does.
    """
    _check_bones(thing, bones)
    return _in_meters(scene, thing, bones, frames, _frames)


def evaluated_origin(scene: Scene, thing: Object, frames: ArrayLike) -> Array:
    """Return (n, 3): an object's origin over n frames of the timeline, whole or not.

    Raises SourceError where an armature that it depends on is in Edit Mode, and has no pose.
    """
    return _in_meters(scene, thing, (), frames, _origin)


def _check_bones(thing: Object, bones: Sequence[str]) -> None:
    lacking = next((bone for bone in bones if not is_rig(thing) or bone not in thing.pose.bones), None)
    if lacking is not None:
        raise SourceError(f'"{thing.name}" has no bone "{lacking}"')


def _in_meters(scene: Scene, thing: Object, bones: Sequence[str], frames: ArrayLike, read: Read) -> Array:
    """Return what `read` tells of the scene's units, kept from before or read now, in meters and upright."""
    reads, frames = _posed(scene, thing), np.asarray(frames, dtype=np.float64)

    def fresh() -> Array:
        with private_scene(scene, thing, bones or [""], reads=reads) as private:
            # Where bones are asked for, it is known to be an armature; else no pose is read.
            rig = cast(Rig, thing)
            shown = ((row, rig.evaluated_get(private.show(frame))) for row, frame in enumerate(frames.tolist()))
            return read(rig, bones, len(frames), shown)

    world = kept(scene, thing, (read.__name__, tuple(bones), frames.tobytes()), reads=reads, read=fresh)
    return world @ upright(scene).T * unit_scale(scene)


def _posed(scene: Scene, thing: Object) -> list[ID]:
    """Return what the object depends on, once every armature among it has a pose."""
    reads = dependencies_of(scene, thing)
    edited = next((data.name for data in reads if isinstance(data, Armature) and data.is_editmode), None)
    if edited is not None:
        raise SourceError(f'"{edited}" has no pose in Edit Mode: leave it and audit again')
    return reads


def _points(thing: Rig, bones: Sequence[str], count: int, shown: Shown) -> Array:
    ends = np.empty((2, count, len(thing.pose.bones), 3), np.float32)
    places = np.empty((count, 4, 4))
    for row, seen in shown:
        seen.pose.bones.foreach_get("head", ends[0, row].reshape(-1))
        seen.pose.bones.foreach_get("tail", ends[1, row].reshape(-1))
        places[row] = seen.matrix_world
    return _placed(ends[:, :, _rows(thing, bones)].transpose(1, 2, 0, 3), places)


def _frames(thing: Rig, bones: Sequence[str], count: int, shown: Shown) -> Array:
    lengths = np.array([thing.data.bones[bone].length for bone in bones])
    columns = np.empty((count, len(thing.pose.bones), 4, 4), np.float32)
    places = np.empty((count, 4, 4))
    for row, seen in shown:
        seen.pose.bones.foreach_get("matrix", columns[row].reshape(-1))
        places[row] = seen.matrix_world
    # Blender lays matrices out by columns: the axes x, y, z, then the head; y runs to the tail.
    columns = columns[:, _rows(thing, bones)]
    head, axes = columns[:, :, 3, :3], columns[:, :, :3, :3][:, :, [1, 0, 2]]
    ends = head[:, :, None] + axes * lengths[:, None, None]
    return _placed(np.concatenate([head[:, :, None], ends], axis=2), places)


def _origin(_thing: Rig, _bones: Sequence[str], count: int, shown: Shown) -> Array:
    world = np.empty((count, 3))
    for row, seen in shown:
        world[row] = seen.matrix_world.translation
    return world


def _rows(thing: Rig, bones: Sequence[str]) -> list[int]:
    order = {name: row for row, name in enumerate(thing.pose.bones.keys())}
    return [order[bone] for bone in bones]


def _placed(local: Array, places: Array) -> Array:
    """Take (n, m, e, 3) points of an armature to the world by its (n, 4, 4) places."""
    return np.einsum("nij,nmej->nmei", places[:, :3, :3], local.astype(np.float64)) + places[:, None, None, :3, 3]
