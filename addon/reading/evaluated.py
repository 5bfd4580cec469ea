"""Where bones and objects are once Blender has worked out their IK, constraints, drivers, parents and NLA.

Metres, z against the scene's gravity, read in a private copy of the scene: the user's is not touched.
"""

from collections.abc import Sequence

import numpy as np
from bpy.types import ID, Armature, Object, Scene
from numpy.typing import ArrayLike

from ...analysis.errors import SourceError
from ..scene import metres, upright
from .dependencies import dependencies_of
from .private_scene import private_scene
from .sample_cache import kept


def evaluated_points(scene: Scene, thing: Object, bones: Sequence[str], frames: ArrayLike) -> np.ndarray:
    """Return (n, m, 2, 3): heads and tails of m pose bones over n frames of the timeline, whole or not.

    Raises SourceError when the object has no such bone, and in Edit Mode, where bones have no pose.

        evaluated_points(scene, brindle, ["root", "chest"], range(1, 49))[:, 0, 0]  # heads of the root
    """
    _check_bones(thing, bones)
    reads, frames = _posed(scene, thing), np.asarray(frames, dtype=np.float64)
    what = ("points", tuple(bones), frames.tobytes())
    world = kept(scene, thing, what, reads=reads, read=lambda: _points(scene, thing, bones, frames))
    return world @ upright(scene).T * metres(scene)


def evaluated_frames(scene: Scene, thing: Object, bones: Sequence[str], frames: ArrayLike) -> np.ndarray:
    """Return (n, m, 4, 3): head, tail, and ends of the x and z axes laid off from the head, as long as the bone.

    Of m pose bones over n frames of the timeline; raises what `evaluated_points` does.
    """
    _check_bones(thing, bones)
    reads, frames = _posed(scene, thing), np.asarray(frames, dtype=np.float64)
    what = ("frames", tuple(bones), frames.tobytes())
    world = kept(scene, thing, what, reads=reads, read=lambda: _frames(scene, thing, bones, frames))
    return world @ upright(scene).T * metres(scene)


def evaluated_origin(scene: Scene, thing: Object, frames: ArrayLike) -> np.ndarray:
    """Return (n, 3): an object's origin over n frames of the timeline, whole or not.

    Raises SourceError where an armature that it depends on is in Edit Mode, and has no pose.
    """
    reads, frames = _posed(scene, thing), np.asarray(frames, dtype=np.float64)
    what = ("origin", frames.tobytes())
    world = kept(scene, thing, what, reads=reads, read=lambda: _origin(scene, thing, frames))
    return world @ upright(scene).T * metres(scene)


def _check_bones(thing: Object, bones: Sequence[str]) -> None:
    lacking = next((bone for bone in bones if thing.pose is None or bone not in thing.pose.bones), None)
    if lacking is not None:
        raise SourceError(f'"{thing.name}" has no bone "{lacking}"')


def _posed(scene: Scene, thing: Object) -> list[ID]:
    """Return what the object depends on, once every armature among it has a pose."""
    reads = dependencies_of(scene, thing)
    edited = next((data.name for data in reads if isinstance(data, Armature) and data.is_editmode), None)
    if edited is not None:
        raise SourceError(f'"{edited}" has no pose in Edit Mode: leave it and audit again')
    return reads


def _points(scene: Scene, thing: Object, bones: Sequence[str], frames: np.ndarray) -> np.ndarray:
    order = {name: row for row, name in enumerate(thing.pose.bones.keys())}
    rows = [order[bone] for bone in bones]
    ends = np.empty((2, len(frames), len(order), 3), np.float32)
    places = np.empty((len(frames), 4, 4))
    with private_scene(scene, thing, bones) as private:
        for number, frame in enumerate(frames.tolist()):
            shown = thing.evaluated_get(private.show(frame))
            shown.pose.bones.foreach_get("head", ends[0, number].reshape(-1))
            shown.pose.bones.foreach_get("tail", ends[1, number].reshape(-1))
            places[number] = shown.matrix_world
    local = ends[:, :, rows].transpose(1, 2, 0, 3).astype(np.float64)
    return np.einsum("nij,nmej->nmei", places[:, :3, :3], local) + places[:, None, None, :3, 3]


def _frames(scene: Scene, thing: Object, bones: Sequence[str], frames: np.ndarray) -> np.ndarray:
    order = {name: row for row, name in enumerate(thing.pose.bones.keys())}
    rows = [order[bone] for bone in bones]
    lengths = np.array([thing.data.bones[bone].length for bone in bones])
    columns = np.empty((len(frames), len(order), 4, 4), np.float32)
    places = np.empty((len(frames), 4, 4))
    with private_scene(scene, thing, bones) as private:
        for number, frame in enumerate(frames.tolist()):
            shown = thing.evaluated_get(private.show(frame))
            shown.pose.bones.foreach_get("matrix", columns[number].reshape(-1))
            places[number] = shown.matrix_world
    # Blender lays matrices out by columns: the axes x, y, z, then the head; y runs to the tail.
    head, axes = columns[:, rows, 3, :3], columns[:, rows, :3, :3][:, :, [1, 0, 2]]
    ends = head[:, :, None] + axes * lengths[:, None, None]
    local = np.concatenate([head[:, :, None], ends], axis=2).astype(np.float64)
    return np.einsum("nij,nmej->nmei", places[:, :3, :3], local) + places[:, None, None, :3, 3]


def _origin(scene: Scene, thing: Object, frames: np.ndarray) -> np.ndarray:
    world = np.empty((len(frames), 3))
    with private_scene(scene, thing) as private:
        for number, frame in enumerate(frames.tolist()):
            world[number] = thing.evaluated_get(private.show(frame)).matrix_world.translation
    return world
