"""Turned on and off, loaded, undone and deleted under it, with Live and the overlay on: no error, nothing left."""

import subprocess
import sys

START = """
import gc
import bpy
from leapwright import addon
from leapwright.addon import menus, results, view
from leapwright.addon.live import changes, following
from leapwright.addon.overlay import arcs, keyed_time, viewport
from tests.addon.scenery import empty, hopping

NAMES = [name for name in dir(bpy.app.handlers) if isinstance(getattr(bpy.app.handlers, name), list)]

def counts():
    menu = [len(getattr(bpy.types, name).draw._draw_funcs) if hasattr(getattr(bpy.types, name).draw, "_draw_funcs")
            else 1 for name in menus.MENUS]
    drawn = len(viewport._handlers) + len(keyed_time._handlers) + len(menus._keys)
    timer = bpy.app.timers.is_registered(following._tick)
    return [len(getattr(bpy.app.handlers, name)) for name in NAMES], menu, drawn, timer, len(changes._heard)

def audited():
    thing = hopping(empty())
    bpy.context.view_layer.objects.active = thing
    bpy.ops.leapwright.audit_jump()
    return thing

def moved(thing):
    thing.location.z = 3.0
    thing.keyframe_insert("location", frame=20)
    bpy.context.view_layer.update()
"""
FIFTY = """
addon.register()
addon.unregister()
before = counts()
for turn in range(50):
    addon.register()
    if turn % 10 == 0:
        bpy.ops.wm.read_homefile(use_factory_startup=True, use_empty=True)
        moved(audited())
        assert bpy.app.timers.is_registered(following._tick)
        assert arcs.drawing_in(bpy.context.scene) is not None
    addon.unregister()
assert counts() == before, (before, counts())
print("done")
"""
THROUGH = """
addon.register()
bpy.ops.wm.read_homefile(use_factory_startup=True, use_empty=True)
first = counts()
audited()
path = bpy.app.tempdir + "quay.blend"
bpy.ops.wm.save_as_mainfile(filepath=path)
for _ in range(3):
    bpy.ops.ed.undo_push(message="hopping")
    thing = bpy.context.scene.objects["Crate"]
    bpy.context.view_layer.objects.active = thing
    bpy.ops.leapwright.audit_jump()
    moved(thing)
    following._tick()
    bpy.ops.ed.undo_push(message="moved")
    bpy.ops.ed.undo()
    following._tick()
    bpy.ops.ed.redo()
    following._tick()
    bpy.ops.ed.undo()
    following._tick()
    bpy.data.objects.remove(bpy.context.scene.objects["Crate"])
    bpy.context.view_layer.update()
    following._tick()
    assert arcs.drawing_in(bpy.context.scene) is None
    bpy.ops.wm.open_mainfile(filepath=path)
    assert results.latest(bpy.context.scene) is None and view.of_window().use_live
    gc.collect()
following._tick()
if bpy.app.timers.is_registered(following._tick):
    bpy.app.timers.unregister(following._tick)
assert counts() == first, (first, counts())
print("done")
"""


def run(code, root):
    done = subprocess.run(
        [sys.executable, "-c", START + code], capture_output=True, text=True, cwd=root, timeout=300
    )
    assert done.returncode == 0 and done.stdout.strip().endswith("done"), done.stdout + done.stderr
    assert "Traceback" not in done.stdout + done.stderr and "Error" not in done.stderr


def test_turned_on_and_off_fifty_times_it_leaves_no_handler_timer_menu_or_key(root):
    run(FIFTY, root)


def test_files_undo_redo_and_a_deleted_object_pass_under_it(root):
    run(THROUGH, root)
