"""Motion files through Blender's own importers: .bvh, .fbx and .glb, each into an empty scene.

What such a file does not say of itself is found here and told in a note.
"""

from collections.abc import Callable, Iterator
from pathlib import Path

import addon_utils
import bpy
import numpy as np
from bpy.types import Object, Scene

from ..reading.channels import Motion
from . import bvh
from .bvh import run_importer

WHOLE_RATE_SHARE = 0.01
"""Distance from a whole frame rate within which the spacing of keys makes it, as a share of a frame (ours)."""


def import_motion(path: Path) -> list[str]:
    """Open a motion file in place of what was open; return notes on what was taken for granted.

    Raises SourceError for a file that is not there or empty, and with what Blender's importer says where it refuses.
    """
    return IMPORTERS[path.suffix.lower()](path)


def _bvh(path: Path) -> list[str]:
    _empty_with(bvh.IMPORTER)
    return bvh.add_bvh(bpy.context, path, use_file_rate=True)[1]


def _fbx(path: Path) -> list[str]:
    _empty_with("io_scene_fbx")
    run_importer(path, lambda: bpy.ops.import_scene.fbx(filepath=str(path)))
    return []


def _glb(path: Path) -> list[str]:
    def read(fps: int) -> Scene:
        _empty_with("io_scene_gltf2")
        bpy.context.scene.render.fps = fps
        run_importer(path, lambda: bpy.ops.import_scene.gltf(filepath=str(path)))
        return bpy.context.scene

    scene = read(24)
    fps = 24.0 / _spacing(scene)
    if round(fps) != 24 and abs(fps - round(fps)) < WHOLE_RATE_SHARE * fps and 8 <= fps <= 240:
        read(round(fps))
    return [f"it has no frame rate: {bpy.context.scene.render.fps} fps taken, from its keys"]


IMPORTERS: dict[str, Callable[[Path], list[str]]] = {".bvh": _bvh, ".fbx": _fbx, ".glb": _glb}
"""By suffix, in lower case with its dot."""


def _empty_with(importer: str) -> None:
    """Open an empty file, one of Blender's importers turned on."""
    bpy.ops.wm.read_homefile(use_factory_startup=True, use_empty=True)
    addon_utils.enable(importer)


def _spacing(scene: Scene) -> float:
    """Return frames between neighboring keys, the least there is; 1 without two."""
    return min((step for thing in scene.objects for step in _steps(thing)), default=1.0)


def _steps(thing: Object) -> Iterator[float]:
    if thing.animation_data is None:
        return
    motion = Motion(thing)
    for path in motion:
        if path.endswith("location"):
            for channel in motion.channels(path):
                steps = np.diff(np.frombuffer(channel.keys()[0]))
                yield from steps[steps > WHOLE_RATE_SHARE].tolist()
