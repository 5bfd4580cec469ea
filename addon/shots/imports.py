"""Motion files through Blender's own importers: .bvh, .fbx and .glb, each into an empty scene.

What such a file does not say of itself, its frame rate, unit or up axis, is found here and told in a note.
"""

import re
from collections.abc import Callable, Iterator
from itertools import pairwise
from pathlib import Path

import addon_utils
import bpy
import numpy as np
from bpy.types import Object, Scene

from ...analysis.errors import SourceError
from ..reading.channels import Motion

UNITS = (("metres", 1.0, 0.3, 5.0), ("inches", 0.0254, 40.0, 95.0), ("centimetres", 0.01, 95.0, 260.0),
         ("millimetres", 0.001, 950.0, 2600.0))  # fmt: skip
"""Name, metres, and between which heights a skeleton is taken to be in it (ours: a person, or an animal by metres)."""
ON_ITS_BACK = 2.5
"""How much longer along z than along y a skeleton is whose file has z up (ours: no animal stands so long)."""
EVEN = 0.01
"""Share of a frame within which the spacing of keys makes a whole frame rate (ours)."""


def import_motion(path: Path) -> list[str]:
    """Open a motion file in place of what was open; return notes on what was taken for granted.

    Raises SourceError with what Blender's importer says where it refuses.
    """
    try:
        if path.stat().st_size == 0:
            raise SourceError("the file is empty")
    except OSError as error:
        raise SourceError(f"it cannot be opened: {(error.strerror or str(error)).lower()}") from None
    return IMPORTERS[path.suffix.lower()](path)


def _bvh(path: Path) -> list[str]:
    def read(up: str, forward: str) -> None:
        _read(path, "io_anim_bvh", lambda: bpy.ops.import_anim.bvh(
            filepath=str(path), update_scene_fps=True, axis_up=up, axis_forward=forward))  # fmt: skip

    read("Y", "-Z")
    notes = list(_cut_short(path))
    extent = _extent(_armature())
    if extent[1] > ON_ITS_BACK * extent[2]:  # what its file calls z lies along the scene's y
        read("Z", "Y")
        extent = _extent(_armature())
        notes.append("its skeleton stands along z: z taken as up, not y")
    unit = next(((name, size) for name, size, least, most in UNITS if least <= extent[2] <= most), None)
    if unit is None:
        notes.append(f"its unit is not known: a skeleton {extent[2]:.3g} units tall is read as metres")
    elif unit[0] != "metres":
        _armature().scale *= unit[1]
        notes.append(f"read in {unit[0]}: its skeleton is {extent[2]:.0f} units tall")
    return notes


def _cut_short(path: Path) -> Iterator[str]:
    """Say how many frames a .bvh lacks: the importer takes what is there without a word."""
    lines = path.read_text(encoding="utf-8", errors="replace").splitlines()
    count = next((row for row, line in enumerate(lines) if line.strip().lower().startswith("frames:")), None)
    if count is not None:
        told, there = lines[count].partition(":")[2].strip(), sum(bool(line.strip()) for line in lines[count + 2 :])
        if told.isdigit() and there < int(told):
            yield f"it is cut short: {there} of its {told} frames are there"


def _fbx(path: Path) -> list[str]:
    _read(path, "io_scene_fbx", lambda: bpy.ops.import_scene.fbx(filepath=str(path)))
    return []


def _glb(path: Path) -> list[str]:
    def read(fps: int) -> Scene:
        def load() -> None:
            bpy.context.scene.render.fps = fps
            bpy.ops.import_scene.gltf(filepath=str(path))

        _read(path, "io_scene_gltf2", load)
        return bpy.context.scene

    scene = read(24)
    fps = 24.0 / _spacing(scene)
    if round(fps) != 24 and abs(fps - round(fps)) < EVEN * fps and 8 <= fps <= 240:
        read(round(fps))
    return [f"it has no frame rate: {bpy.context.scene.render.fps} fps taken, from its keys"]


IMPORTERS: dict[str, Callable[[Path], list[str]]] = {".bvh": _bvh, ".fbx": _fbx, ".glb": _glb}
"""By suffix, in lower case with its dot."""


def _read(path: Path, importer: str, load: Callable[[], object]) -> None:
    """Run one of Blender's importers in an empty file."""
    bpy.ops.wm.read_homefile(use_factory_startup=True, use_empty=True)
    addon_utils.enable(importer)
    try:
        load()
    except RuntimeError as error:
        raise SourceError(
            f"Blender's {path.suffix[1:].lower()} importer refuses it: damaged, cut short or of another kind "
            f"({_said(error, path)})"
        ) from None


def _said(error: RuntimeError, path: Path) -> str:
    """What the importer said, in one line, of a traceback its last."""
    text = str(error).partition("\nLocation:")[0].strip()
    if "Traceback" in text:
        text = text.splitlines()[-1].removeprefix("Exception: ")
    text = text.removeprefix("Error: ").replace(str(path), path.name)
    return re.sub(r"\s+", " ", text).rstrip(".")


def _armature() -> Object:
    found = next((thing for thing in bpy.context.scene.objects if thing.type == "ARMATURE"), None)
    if found is None or not found.data.bones:
        raise SourceError("it holds no skeleton")
    return found


def _extent(armature: Object) -> np.ndarray:
    """Width, depth and height of the skeleton at rest, units of the file, turned as it was imported."""
    ends = np.array([end[:] for bone in armature.data.bones for end in (bone.head_local, bone.tail_local)])
    return np.ptp(ends @ np.array(armature.matrix_world.to_3x3()).T, axis=0)


def _spacing(scene: Scene) -> float:
    """Frames between neighbouring keys, the least there is; 1 without two."""
    return min((step for thing in scene.objects for step in _steps(thing)), default=1.0)


def _steps(thing: Object) -> Iterator[float]:
    if thing.animation_data is None:
        return
    motion = Motion(thing)
    for path in motion:
        if path.endswith("location"):
            for channel in motion.channels(path):
                yield from (late - early for early, late in pairwise(channel.keys()[0]) if late - early > EVEN)
