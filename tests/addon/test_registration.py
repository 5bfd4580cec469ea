"""The add-on comes and goes without a trace."""

import inspect
import subprocess
import sys

import bpy
from leapwright.addon import registration

CODE = """
import bpy
from leapwright import addon
before = {name: len(getattr(bpy.app.handlers, name)) for name in ("load_pre", "load_post", "depsgraph_update_post")}
for _ in range(3):
    addon.register()
    assert hasattr(bpy.types.Scene, "leapwright") and hasattr(bpy.types.WindowManager, "leapwright")
    assert hasattr(bpy.types, "LEAPWRIGHT_PT_audit_view3d")
    addon.unregister()
    addon.unregister()
    assert not hasattr(bpy.types.Scene, "leapwright") and not hasattr(bpy.types.WindowManager, "leapwright")
    assert not hasattr(bpy.types, "LEAPWRIGHT_PT_audit_view3d")
assert before == {name: len(getattr(bpy.app.handlers, name)) for name in before}
addon.register()  # and left so: the process must still end well
print("done")
"""


def test_registering_is_undone_whole_and_the_process_ends_well():
    """Blender 4.2 and 4.5 as modules crash or hang at exit on whatever is still registered."""
    done = subprocess.run([sys.executable, "-c", CODE], capture_output=True, text=True, timeout=120)
    assert done.stdout.strip().endswith("done"), done.stderr
    assert done.returncode == 0


def test_it_is_registered_here(scene):
    assert isinstance(scene.leapwright, bpy.types.PropertyGroup)


def test_no_property_group_has_a_method():
    """Blender 4.2 as a module crashes at exit over any, even unregistered."""
    groups = [cls for cls in registration.CLASSES if issubclass(cls, bpy.types.PropertyGroup)]
    assert len(groups) > 3
    assert not [(cls.__name__, name) for cls in groups for name, value in vars(cls).items() if inspect.isroutine(value)]
