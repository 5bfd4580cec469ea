"""Make the manual's pictures from a real window: `blender SHOT.blend --python .pictures/shoot.py -- FOLDER`.

SHOT is tq020_crate_floaty of the demo, in a Blender with the extension enabled, in a window that fills a screen
of 1600 by 900 pixels.
"""

import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import bpy

SIZE = "1200x675"
"""Pixels of a picture."""
FOLDER = Path(sys.argv[-1] if "--" in sys.argv else "/job/out")
LOOK, ACROSS = (-2.2, 0.0, 2.1), 5.0
"""Where the viewport looks at, and how many units it shows."""


def viewport() -> tuple[bpy.types.Area, bpy.types.Region]:
    """Return the 3D viewport and its main region."""
    area = next(area for area in bpy.context.window_manager.windows[0].screen.areas if area.type == "VIEW_3D")
    return area, next(region for region in area.regions if region.type == "WINDOW")


def in_viewport(call: object, **properties: object) -> None:
    """Call an operator as if from the viewport."""
    area, region = viewport()
    with bpy.context.temp_override(window=bpy.context.window_manager.windows[0], area=area, region=region):
        call(**properties)


def opened() -> None:
    """Open the sidebar on its tab, and look at the jump from the side."""
    area, _ = viewport()
    area.spaces.active.show_region_ui = True
    for region in area.regions:
        if region.type == "UI":
            region.active_panel_category = "Animation"
    in_viewport(bpy.ops.view3d.view_axis, type="FRONT")
    seen = area.spaces.active.region_3d
    seen.view_location, seen.view_distance = LOOK, ACROSS


def saved(name: str) -> None:
    """Take a picture of the screen, with ImageMagick's `import`."""
    small = ["-resize", SIZE, "+dither", "-colors", "120", f"PNG8:{FOLDER / name}.png"]
    subprocess.run(["import", "-window", "root", *small], check=True)


def steps() -> Iterator[float]:
    """Take the pictures in turn; yield how many seconds to let the window draw."""
    area, _ = viewport()
    area.spaces.active.show_region_ui = True
    yield 2.0
    opened()
    in_viewport(bpy.ops.leapwright.audit_jump)
    yield 3.0
    saved("panel")
    in_viewport(bpy.ops.leapwright.mend_finding, jump=1, finding=0)
    yield 3.0
    saved("mend")
    in_viewport(bpy.ops.leapwright.retime_jump, keep="nothing", jump=1)
    yield 3.0
    saved("mended")
    area.ui_type = "DOPESHEET"
    area.spaces.active.show_region_ui = True
    yield 2.0
    for region in area.regions:
        if region.type == "UI":
            region.active_panel_category = "Animation"
    with bpy.context.temp_override(area=area, region=next(r for r in area.regions if r.type == "WINDOW")):
        bpy.ops.action.view_all()
    yield 3.0
    saved("keys")


def main() -> None:
    """Run the steps from a timer, so that the window draws in between."""
    running = steps()

    def tick() -> float | None:
        try:
            return next(running)
        except StopIteration:
            bpy.ops.wm.quit_blender()
            return None

    bpy.app.timers.register(tick, first_interval=2.0)


if __name__ == "__main__":
    main()
