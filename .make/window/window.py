"""A window of Blender that is looked at: shots opened, the viewport turned, pictures taken.

A picture is the whole window as Blender draws it, with a .json beside it that says what of it is shown: left, bottom,
width and height in pixels.
"""

import json
import os
import shlex
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import bpy

SESSION, ZIP, SHOTS, OUT = (sys.argv[sys.argv.index("--") + 1 :] + [""] * 4)[:4]
"""What this Blender was started for: the session, the extension's zip, the folders of shots and of pictures."""
DRAWN = 1.5
"""Seconds that a window gets to draw what was changed."""
TRIES, SLIDES = 10, 9
Steps = Iterator[float]


def window() -> bpy.types.Window:
    """Return the window."""
    return bpy.context.window_manager.windows[0]


def area_of(kind: str) -> bpy.types.Area:
    """Return the largest editor of a kind."""
    return max((area for area in window().screen.areas if area.type == kind), key=lambda area: area.width * area.height)


def region_of(area: bpy.types.Area, kind: str) -> bpy.types.Region:
    """Return a region of an editor."""
    return next(region for region in area.regions if region.type == kind)


def call(operator: Callable[..., object], kind: str = "VIEW_3D", **properties: object) -> None:
    """Call an operator as if from an editor."""
    area = area_of(kind)
    with bpy.context.temp_override(window=window(), area=area, region=region_of(area, "WINDOW")):
        operator(**properties)


def taken(name: str, box: tuple[int, int, int, int]) -> None:
    """Take a picture of which a box is shown; by Blender, or by the command that the environment names.

    Software that draws for a display without a graphics card may hand Blender a black window.
    """
    path, command = str(Path(OUT) / f"{name}.png"), os.environ.get("SCREENSHOT", "")
    if command:
        subprocess.run([*shlex.split(command), path], check=True)
    else:
        with bpy.context.temp_override(window=window(), area=window().screen.areas[0]):
            bpy.ops.screen.screenshot(filepath=path)
    (Path(OUT) / f"{name}.json").write_text(json.dumps(box), encoding="utf-8")


def sidebar(high: int = 620) -> tuple[int, int, int, int]:
    """Return the box of the sidebar's upper part."""
    region = region_of(area_of("VIEW_3D"), "UI")
    high = min(high, region.height)
    return region.x, region.y + region.height - high, region.width, high


def on_tab(area: bpy.types.Area) -> Steps:
    """Open an editor's sidebar on the add-on's tab, which is there once the sidebar has been drawn."""
    area.spaces.active.show_region_ui = True
    for _ in range(TRIES):
        area.tag_redraw()
        yield DRAWN
        try:
            region_of(area, "UI").active_panel_category = "Animation"
            return
        except (AttributeError, TypeError):
            continue
    raise RuntimeError("the sidebar is not drawn")


def opened(shot: str, *, whole: bool = True) -> Steps:
    """Open a shot in a viewport that fills the window, seen from the side."""
    bpy.ops.wm.open_mainfile(filepath=str(Path(SHOTS) / f"{shot}.blend"), load_ui=False)
    yield DRAWN
    while whole and len(window().screen.areas) > 1:
        call(bpy.ops.screen.screen_full_area)
        yield DRAWN
    space = area_of("VIEW_3D").spaces.active
    space.show_region_ui, space.show_region_toolbar, space.show_gizmo = True, False, False
    space.overlay.show_text = space.overlay.show_extras = space.overlay.show_bones = False
    space.overlay.show_floor = space.overlay.show_axis_x = space.overlay.show_cursor = False
    yield from on_tab(area_of("VIEW_3D"))
    call(bpy.ops.view3d.view_axis, type="FRONT")
    yield DRAWN


def look(x: float, z: float, away: float, *, beside: int = 0) -> None:
    """Turn the viewport's middle to a place, so far away; or so many pixels right of its middle."""
    space = area_of("VIEW_3D").spaces.active
    seen, wide = space.region_3d, region_of(area_of("VIEW_3D"), "WINDOW").width
    seen.view_perspective = "ORTHO"
    seen.view_location, seen.view_distance = (x - beside * away * _across(space.lens) / wide, 0.0, z), away


def away_for(wide: float, high: float, pixels: tuple[int, int]) -> float:
    """Return how far away a view has to be for so many units to fit into so many pixels."""
    area = area_of("VIEW_3D")
    unit = region_of(area, "WINDOW").width / _across(area.spaces.active.lens)
    return max(wide / pixels[0], high / pixels[1]) * unit


def _across(lens: float) -> float:
    """Return how many units a view shows for each that it is away: twice a sensor of 36 mm over its lens."""
    return 2 * 36.0 / lens


def middle(wide: int, high: int) -> tuple[int, int, int, int]:
    """Return a box about the middle of the viewport."""
    region = region_of(area_of("VIEW_3D"), "WINDOW")
    return region.x + (region.width - wide) // 2, region.y + (region.height - high) // 2, wide, high


def with_sidebar(wide: int, high: int) -> tuple[int, int, int, int]:
    """Return a box of the viewport's right part, the sidebar in it."""
    region = region_of(area_of("VIEW_3D"), "UI")
    return region.x + region.width - wide, region.y + region.height - high, wide, high


def part(name: str, value: str) -> None:
    """Show one part of a panel."""
    setattr(bpy.context.window_manager.leapwright_view, name, value)


def settled() -> Steps:
    """Wait until panels that slide to their places lie there."""
    for _ in range(SLIDES):
        for area in window().screen.areas:
            area.tag_redraw()
        yield DRAWN / 3


def audit() -> Steps:
    """Audit what is selected."""
    call(bpy.ops.leapwright.audit_jump)
    yield from settled()
