"""Motion capture in .bvh files, added to the open scene by Blender's own importer.

What such a file does not say of itself, its unit and its up axis, is found here and told in a note.
"""

import re
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Literal

import bpy
import numpy as np
from bpy.types import Context, Object

from ...analysis.arrays import Array
from ...analysis.errors import SourceError
from ..rigs import Rig, is_rig
from ..scene import unit_scale

IMPORTER = "io_anim_bvh"
"""The add-on of Blender's that has the importer."""
SKELETON_UNITS = (("meters", 1.0, 0.3, 5.0), ("inches", 0.0254, 40.0, 95.0), ("centimeters", 0.01, 95.0, 260.0),
         ("millimeters", 0.001, 950.0, 2600.0))  # fmt: skip
"""Name, meters, and between which heights a skeleton is taken to be in it (ours: a person, or an animal by meters)."""
ON_ITS_BACK = 2.5
"""How much longer along z than along y a skeleton is whose file has z up (ours: no animal stands so long)."""

Axis = Literal["X", "Y", "Z", "-X", "-Y", "-Z"]


def add_bvh(context: Context, path: Path, *, use_file_rate: bool) -> tuple[Object, list[str]]:
    """Add a recording as an armature, selected and active; return it, and notes on what was taken for granted.

    use_file_rate sets the scene's frame rate to the file's, a pose a frame; without it the poses keep their times
    at the scene's rate, between its frames where they fall there. Raises SourceError as `run_importer` does, and
    for a file without a skeleton; then the scene is as it was.
    """
    with _as_it_was(context):
        rig = _read(context, path, use_file_rate, up="Y", forward="-Z")
        notes = list(_cut_short(path))
        extent = _extent(rig)
        if extent[1] > ON_ITS_BACK * extent[2]:  # what its file calls z lies along the scene's y
            _remove(rig)
            rig = _read(context, path, use_file_rate, up="Z", forward="Y")
            extent = _extent(rig)
            notes.append("its skeleton stands along z: z taken as up, not y")
        unit = next((unit for unit in SKELETON_UNITS if unit[2] <= extent[2] <= unit[3]), None)
        if unit is None:
            notes.append(f"its unit is not known: a skeleton {extent[2]:.3g} units tall is read as meters")
        elif unit[0] != "meters":
            notes.append(f"read in {unit[0]}: its skeleton is {extent[2]:.0f} units tall")
        rig.scale *= (unit[1] if unit else 1.0) / unit_scale(context.scene)
    return rig, notes


def run_importer(path: Path, load: Callable[[], object]) -> None:
    """Let one of Blender's importers load a file.

    Raises SourceError for a file that is not there or empty, and with what the importer says where it refuses.
    """
    try:
        if path.stat().st_size == 0:
            raise SourceError("the file is empty")
    except OSError as error:
        raise SourceError(f"it cannot be opened: {(error.strerror or str(error)).lower()}") from None
    try:
        load()
    except RuntimeError as error:
        raise SourceError(
            f"Blender's {path.suffix[1:].lower()} importer refuses it: damaged, cut short or of another kind "
            f"({_said(error, path)})"
        ) from None


def _said(error: RuntimeError, path: Path) -> str:
    """Tell what the importer said, in one line, of a traceback its last."""
    text = str(error).partition("\nLocation:")[0].strip()
    if "Traceback" in text:
        text = text.splitlines()[-1].removeprefix("Exception: ")
    text = text.removeprefix("Error: ").replace(str(path), path.name)
    return re.sub(r"\s+", " ", text).rstrip(".")


def _read(context: Context, path: Path, use_file_rate: bool, *, up: Axis, forward: Axis) -> Rig:
    run_importer(path, lambda: bpy.ops.import_anim.bvh(
        filepath=str(path), update_scene_fps=use_file_rate, use_fps_scale=not use_file_rate,
        axis_up=up, axis_forward=forward))  # fmt: skip
    rig = context.view_layer.objects.active  # as the importer leaves it
    if not is_rig(rig) or not rig.data.bones:
        raise SourceError("it holds no skeleton")
    return rig


@contextmanager
def _as_it_was(context: Context) -> Iterator[None]:
    """Take back what a refusal leaves half done: armatures, selection, frame rate."""
    before, render = set(bpy.data.objects), context.scene.render
    active, selected = context.view_layer.objects.active, context.selected_objects
    rate = render.fps, render.fps_base
    try:
        yield
    except SourceError:
        for left in filter(is_rig, set(bpy.data.objects) - before):
            _remove(left)
        render.fps, render.fps_base = rate
        for thing in selected:
            thing.select_set(True)
        context.view_layer.objects.active = active
        raise


def _remove(rig: Rig) -> None:
    armature, action = rig.data, rig.animation_data.action if rig.animation_data else None
    bpy.data.objects.remove(rig)
    bpy.data.armatures.remove(armature)
    if action is not None:
        bpy.data.actions.remove(action)


def _cut_short(path: Path) -> Iterator[str]:
    """Say how many frames a .bvh lacks: the importer takes what is there without a word."""
    lines = path.read_text(encoding="utf-8", errors="replace").splitlines()
    count = next((row for row, line in enumerate(lines) if line.strip().lower().startswith("frames:")), None)
    if count is not None:
        said, there = lines[count].partition(":")[2].strip(), sum(bool(line.strip()) for line in lines[count + 2 :])
        if said.isdigit() and there < int(said):
            yield f"it is cut short: {there} of its {said} frames are there"


def _extent(rig: Rig) -> Array:
    """Return width, depth and height of the skeleton at rest, units of the file, turned as it was imported."""
    ends = np.array([end[:] for bone in rig.data.bones for end in (bone.head_local, bone.tail_local)])
    return np.ptp(ends @ np.array(rig.matrix_world.to_3x3()).T, axis=0)
