"""Export a .blend to files of other formats: `python -m tests.addon.exporting SHOT FIRST LAST FILE…`.

It runs in its own process, because the host's exporters are large programs, and one of them has crashed its host.
"""

import os
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

from tests.house import ROOT


def export(shot: Path, first: int, last: int, *files: Path) -> None:
    """Let a child process write a .blend, which must be on disk, to files whose names say the format."""
    call = [sys.executable, "-m", "tests.addon.exporting", *map(str, (shot, first, last, *files))]
    done = subprocess.run(call, cwd=ROOT, capture_output=True, text=True, timeout=300)
    assert done.returncode == 0, done.stdout + done.stderr


def main(shot: str, first: str, last: str, *files: str) -> None:
    user = os.environ["BLENDER_USER_RESOURCES"] = tempfile.mkdtemp(prefix="leapwright-export-")
    try:
        import bpy

        bpy.ops.wm.open_mainfile(filepath=shot)
        for name in files:
            if name.endswith(".bvh"):
                bpy.ops.export_anim.bvh(filepath=name, frame_start=int(first), frame_end=int(last))
            elif name.endswith(".fbx"):
                bpy.ops.export_scene.fbx(
                    filepath=name, object_types={"ARMATURE"}, add_leaf_bones=False, bake_anim_simplify_factor=0.0
                )
            else:
                bpy.ops.export_scene.gltf(filepath=name)
    finally:
        shutil.rmtree(user, ignore_errors=True)
    sys.stdout.flush()
    os._exit(0)  # at an orderly exit Blender 4.2 and 4.5 may crash, or wait for ever


if __name__ == "__main__":
    main(*sys.argv[1:])
