"""What the windows show, and whether audits follow by themselves: neither saved with a file nor undone."""

import bpy
from bpy.props import BoolProperty, PointerProperty
from bpy.types import PropertyGroup, WindowManager

EDITORS = {"VIEW_3D", "DOPESHEET_EDITOR", "GRAPH_EDITOR"}


class LEAPWRIGHT_PG_view(PropertyGroup):
    """Switches of all windows; operators turn them, so that what they change is drawn at once."""

    use_live: BoolProperty(name="Live", description="Audit again by itself when keys change", default=True)
    show_overlay: BoolProperty(name="Overlay", description="Show jumps in the viewport", default=True)
    show_events: BoolProperty(name="Events", description="Show events over the keys", default=True)


CLASSES = (LEAPWRIGHT_PG_view,)


def of_window(manager: WindowManager | None = None) -> LEAPWRIGHT_PG_view:
    """Return the switches of all windows."""
    return (manager or bpy.data.window_managers[0]).leapwright_view


def redraw() -> None:
    """Have every editor drawn again in which something of the add-on is shown."""
    for manager in bpy.data.window_managers:
        for window in manager.windows:
            for area in window.screen.areas:
                if area.type in EDITORS:
                    area.tag_redraw()


def register() -> None:
    """Give the window manager its switches."""
    bpy.types.WindowManager.leapwright_view = PointerProperty(type=LEAPWRIGHT_PG_view)


def unregister() -> None:
    """Take the switches away."""
    del bpy.types.WindowManager.leapwright_view
