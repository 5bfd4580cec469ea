"""What the windows show, and whether audits follow by themselves: neither saved with a file nor undone."""

import bpy
from bpy.props import BoolProperty, EnumProperty, PointerProperty
from bpy.types import PropertyGroup, WindowManager

from .saved import Saved

PLAN = [
    ("goal", "Goal", "Show what the jump is to reach"),
    ("more", "More", "Show where the jump lands, how far it goes and when it starts"),
    ("timing", "Timing", "Show what whole frames cost, and the timings beside this one"),
    ("poses", "Poses", "Show the height frame by frame"),
]
DETAILS = [
    ("timing", "Timing", "Show frames and paces"),
    ("sizes", "Sizes", "Show lengths and ratios"),
    ("events", "Events", "Show frames and heights of the events"),
]
SETUP = [
    ("follow", "Follow", "Choose what carries the jump"),
    ("feet", "Feet", "Choose what touches the ground"),
    ("body", "Body", "Choose what the center of mass is made of"),
    ("footage", "Footage", "Choose the clip and a known length"),
    ("marks", "Marks", "Pin events by hand"),
    ("settings", "Settings", "Choose the gravity and the kind of jumper"),
]
"""Parts of the panels of these names: one is shown at a time, so that all panels have room when open."""
OVERLAY_EDITORS = {"VIEW_3D", "DOPESHEET_EDITOR", "GRAPH_EDITOR"}


class LEAPWRIGHT_PG_view(PropertyGroup):
    """Switches of all windows, and which part of a panel is shown.

    Operators turn the switches, so that what they change is drawn at once.
    """

    use_live: BoolProperty(name="Live", description="Audit again by itself when keys change", default=True)
    show_overlay: BoolProperty(name="Overlay", description="Show jumps in the viewport", default=True)
    show_events: BoolProperty(name="Events", description="Show events over the keys", default=True)
    plan: EnumProperty(name="Plan", description="Choose what is shown", items=PLAN)
    details: EnumProperty(name="Details", description="Choose what is shown", items=DETAILS)
    setup: EnumProperty(name="Setup", description="Choose what is shown", items=SETUP)


CLASSES = (LEAPWRIGHT_PG_view,)


def of_window(manager: WindowManager | None = None) -> LEAPWRIGHT_PG_view:
    """Return the switches of all windows."""
    return (manager or bpy.data.window_managers[0]).leapwright_view


def redraw() -> None:
    """Have every editor drawn again in which something of the add-on is shown."""
    for manager in bpy.data.window_managers:
        for window in manager.windows:
            for area in window.screen.areas:
                if area.type in OVERLAY_EDITORS:
                    area.tag_redraw()


SAVED = Saved(bpy.types.WindowManager, "leapwright_view", CLASSES, lambda: PointerProperty(type=LEAPWRIGHT_PG_view))
register, unregister = SAVED.register, SAVED.unregister
