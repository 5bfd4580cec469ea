"""Take one session of pictures inside a windowed Blender, then quit: `blender --python inside.py -- SESSION …`."""

import importlib
import sys
import traceback
from pathlib import Path

import addon_utils
import bpy

sys.path.insert(0, str(Path(__file__).resolve().parent))  # Blender has its own, not the script's folder

from sessions import PACKAGE, SESSIONS
from window import OUT, SESSION, ZIP


def installed(open_: set[str], closed: set[str]) -> None:
    """Install the extension, and have its panels begin open or closed."""
    bpy.ops.extensions.package_install_files(repo="user_default", filepath=ZIP, enable_on_install=False)
    package = importlib.import_module(f"{PACKAGE}.addon.registration")
    for module in package.PARTS:
        for kind in getattr(module, "CLASSES", ()):
            name = kind.__name__.rpartition("_PT_")[2].rpartition("_")[0]
            if "_PT_" in kind.__name__ and name in open_:
                kind.bl_options = set()
            elif "_PT_" in kind.__name__ and name in closed:
                kind.bl_options = {"DEFAULT_CLOSED"}
    _cleared()
    addon_utils.enable(PACKAGE, default_set=True)


def _cleared() -> None:
    """Take Blender's own panels off the tab, so that there is room for ours."""
    kinds = [getattr(bpy.types, name) for name in dir(bpy.types) if "_PT_" in name]
    gone = {kind.__name__ for kind in kinds if getattr(kind, "bl_category", "") == "Animation"}
    for kind in kinds:
        if kind.__name__ in gone or getattr(kind, "bl_parent_id", "") in gone:
            bpy.utils.unregister_class(kind)


def main() -> None:
    """Take the session's pictures from a timer, so that the window draws in between; then quit."""
    take, open_, closed = SESSIONS[SESSION]
    bpy.context.preferences.view.show_splash = False
    installed(open_, closed)
    running = take()

    def tick() -> float | None:
        try:
            return next(running)
        except StopIteration:
            (Path(OUT) / f"{SESSION}.done").touch()
        except Exception:  # whatever it is: say it, and end the Blender that nobody watches
            traceback.print_exc()
        sys.stdout.flush()
        bpy.ops.wm.quit_blender()
        return None

    bpy.app.timers.register(tick, first_interval=2.0, persistent=True)


if __name__ == "__main__":
    main()
