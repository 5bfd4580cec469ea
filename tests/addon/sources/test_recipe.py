"""The recipe for a new source, followed to the letter in a copy of the project: one file, and it can be followed."""

import re
import shutil
import subprocess
import sys

RECIPE = re.compile(r"`(addon/sources/\w+\.py)`:\n\n```python\n(.*?)^```$", re.MULTILINE | re.DOTALL)
RUN = """
import bpy
from leapwright_copy import addon
from leapwright_copy.addon import results
addon.register()
bpy.ops.wm.read_homefile(use_factory_startup=True)
scene, cube = bpy.context.scene, bpy.data.objects["Cube"]
scene.render.fps, scene.gravity = 24, (0.0, 0.0, -9.80665)
for frame in range(1, 50):
    air = (frame - 20) / 24
    push = 0.6 + 0.4 * min(max((frame - 12) / 8, 0), 1) ** 2
    cube.location.z = push if frame < 20 else max(1.0 + 2.4 * air - 4.903325 * air**2, 1.0)
    cube.keyframe_insert("location", index=2, frame=frame)
scene.leapwright.follow, scene.leapwright.thing = "top", cube
assert bpy.ops.leapwright.audit_jump() == {"FINISHED"}
result = results.latest(scene)
shown = [item.name for item in type(scene.leapwright).bl_rna.properties["follow"].enum_items]
print("told", result.audit.name, result.track.positions[0, 2].round(3), len(result.audit.jumps), *shown, sep="|")
addon.unregister()
"""


def test_one_file_makes_a_source_that_can_be_followed(root, tmp_path):
    for folder in ("analysis", "addon"):
        shutil.copytree(root / folder, tmp_path / "leapwright_copy" / folder)
    ((path, code),) = RECIPE.findall((root / "DEVELOPERS.md").read_text(encoding="utf-8"))
    (tmp_path / "leapwright_copy" / path).write_text(code, encoding="utf-8")
    done = subprocess.run([sys.executable, "-c", RUN], cwd=tmp_path, capture_output=True, text=True, timeout=120)
    told = next((line.split("|") for line in done.stdout.splitlines() if line.startswith("told|")), None)
    assert told is not None, done.stdout + done.stderr
    _, name, height, jumps, *shown = told
    assert (name, float(height), jumps) == ("Cube/top", 2.6, "1")  # 0.6 m, raised by the default cube's 2 m
    assert "Top" in shown
