"""Build the shots of Tern Quay as .blend files: `python -m tests.quay.build FOLDER [SHOT…]`."""

import argparse
import atexit
import os
import shutil
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

# Before bpy is imported: it would otherwise start from, and write to, the person's own Blender.
if "bpy" not in sys.modules and "BLENDER_USER_RESOURCES" not in os.environ:
    user = os.environ["BLENDER_USER_RESOURCES"] = tempfile.mkdtemp(prefix="tern-quay-")
    atexit.register(shutil.rmtree, user, ignore_errors=True)

import bpy

from .brindle import brindle, pose
from .harbor import camera, harbor, light, prop
from .moss import moss
from .motion import FPS
from .palette import COLORS
from .shapes import linear
from .shots import SHOTS, Shot


def build(shot: Shot, folder: Path) -> Path:
    """Build one shot and save it; return the file. Replaces what is open in the host."""
    bpy.ops.wm.read_homefile(use_factory_startup=True, use_empty=True)
    scene, motion = bpy.context.scene, shot.motion()
    scene.name = shot.name
    scene.render.fps, scene.render.fps_base = FPS, 1.0
    scene.frame_start, scene.frame_end = 1, int(motion.last.frame)
    scene.render.resolution_x, scene.render.resolution_y = 960, 540
    scene.gravity = (0.0, 0.0, -shot.gravity)
    harbor()
    light()
    camera(motion)
    if shot.prop:
        prop(shot.prop, motion)
    rig = brindle()
    pose(rig, motion, shot.drawn, steady=shot.moss)
    if shot.moss:
        moss(motion)
    _show(rig)
    path = folder / f"{shot.name}.blend"
    with _quiet():
        bpy.ops.wm.save_as_mainfile(filepath=str(path), check_existing=False, compress=True)
    return path


@contextmanager
def _quiet() -> Iterator[None]:
    """Keep the host's own "Saved" off stdout, which gets one line for each shot."""
    sys.stdout.flush()
    kept, nowhere = os.dup(1), os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, 1)
    try:
        yield
    finally:
        os.dup2(kept, 1)
        os.close(kept)
        os.close(nowhere)


def _show(rig: bpy.types.Object) -> None:
    """Leave the rig active, the rest not selectable, and every viewport showing a bright camera view."""
    for item in bpy.context.scene.objects:
        item.select_set(item == rig)
        item.hide_select = item.animation_data is None
    bpy.context.view_layer.objects.active = rig
    bpy.context.scene.frame_set(1)
    spaces = (space for screen in bpy.data.screens for area in screen.areas for space in area.spaces)
    for space in spaces:
        if space.type != "VIEW_3D" or space.region_3d is None:
            continue
        space.region_3d.view_perspective = "CAMERA"
        space.region_3d.view_camera_zoom = 16
        shading = space.shading
        shading.type, shading.light, shading.color_type = "SOLID", "STUDIO", "MATERIAL"
        shading.studio_light = "paint.sl"
        shading.show_cavity = shading.show_shadows = True
        shading.shadow_intensity = 0.25
        shading.background_type, shading.background_color = "VIEWPORT", linear(COLORS["sky"])


def main(argv: list[str]) -> int:
    """Build all shots, or those named, into a folder."""
    parser = argparse.ArgumentParser(prog="python -m tests.quay.build", description=__doc__)
    parser.add_argument("folder", type=Path)
    parser.add_argument("shots", nargs="*", metavar="SHOT", help="names of shots; all when none is given")
    asked = parser.parse_args(argv)
    unknown = set(asked.shots) - {shot.name for shot in SHOTS}
    if unknown:
        parser.error(f"no such shot: {', '.join(sorted(unknown))}")
    asked.folder.mkdir(parents=True, exist_ok=True)
    for shot in SHOTS:
        if not asked.shots or shot.name in asked.shots:
            path = build(shot, asked.folder.resolve())
            print(f"{path.name:<28} {shot.says}", flush=True)
    return 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
