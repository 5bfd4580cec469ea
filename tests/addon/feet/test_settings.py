"""What is set for a character's feet is saved with it, and can be read while the add-on is disabled."""

import subprocess
import sys

import bpy
from leapwright.addon.feet import settings as feet_settings

from tests.addon.day import saved
from tests.addon.walker import floor, walker

CODE = """
import sys, bpy
from leapwright.addon.feet import settings as feet_settings
bpy.ops.wm.open_mainfile(filepath=sys.argv[1])
assert feet_settings.of_rig(bpy.data.objects["Brindle"]) is None
with feet_settings.readable():
    feet = feet_settings.of_rig(bpy.data.objects["Brindle"])
    print([foot.bone for foot in feet.bones], feet.ground, feet.ground_mesh.name)
assert not hasattr(bpy.types.Object, "leapwright_feet")
"""


def test_feet_are_saved_with_the_armature_and_read_without_the_add_on(scene, tmp_path):
    rig = walker()
    feet = feet_settings.of_rig(rig)
    feet.bones.add().bone = "foot.R"
    feet.ground, feet.ground_mesh = "mesh", floor()
    path = saved(tmp_path / "tq.blend")
    done = subprocess.run([sys.executable, "-c", CODE, str(path)], capture_output=True, text=True, timeout=120)
    assert done.stdout.strip().endswith("['foot.R'] mesh Deck"), done.stderr
    assert done.returncode == 0


def test_reading_them_leaves_the_running_add_on_alone(scene):
    rig = walker()
    with feet_settings.readable():
        assert feet_settings.of_rig(rig) is not None
    assert hasattr(bpy.types.Object, "leapwright_feet")


def test_a_file_that_saved_the_tick_reads_the_feet_and_shows_it(scene, tmp_path):
    feet_settings.of_rig(walker()).use_feet = True
    feet_settings.of_rig(walker(name="Moss"))
    path = saved(tmp_path / "tq.blend")
    bpy.ops.wm.read_homefile(use_factory_startup=True, use_empty=True)
    bpy.ops.wm.open_mainfile(filepath=str(path))
    ticked, other = (bpy.data.objects[name] for name in ("Brindle", "Moss"))
    assert feet_settings.mode_of(ticked) == feet_settings.of_rig(ticked).reading == "on"
    assert feet_settings.mode_of(other) == "auto"
    feet_settings.of_rig(ticked).reading = "auto"
    assert feet_settings.mode_of(ticked) == "auto", "what is chosen now counts, not the tick of old"
