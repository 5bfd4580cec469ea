"""Live, Overlay, Events: turn what the windows show, and whether audits follow by themselves, on and off."""

from bpy.types import Context, Operator

from .. import view
from ..blender_words import Outcome
from ..live import following
from ..refusals import InWindow


class _Toggle(InWindow):
    """Turn a switch and have everything drawn again. No UNDO: the switches belong to the windows, not to the file."""

    bl_options = {"REGISTER"}
    switch = ""

    def execute(self, context: Context) -> Outcome:
        switches = view.of_window(context.window_manager)
        setattr(switches, self.switch, not getattr(switches, self.switch))
        following.catch_up()
        view.redraw()
        return {"FINISHED"}


class LEAPWRIGHT_OT_toggle_live(_Toggle, Operator):
    """Turn Live on or off."""

    bl_idname = "leapwright.toggle_live"
    bl_label = "Live"
    bl_description = "Audit again by itself while keys are moved"
    switch = "use_live"


class LEAPWRIGHT_OT_toggle_overlay(_Toggle, Operator):
    """Turn the drawing in the viewport on or off."""

    bl_idname = "leapwright.toggle_overlay"
    bl_label = "Overlay"
    bl_description = "Show the arcs of the jumps in the viewport"
    switch = "show_overlay"


class LEAPWRIGHT_OT_toggle_events(_Toggle, Operator):
    """Turn the drawing over the keys on or off."""

    bl_idname = "leapwright.toggle_events"
    bl_label = "Events"
    bl_description = "Show takeoff, apex and landing over the keys"
    switch = "show_events"


CLASSES = (LEAPWRIGHT_OT_toggle_live, LEAPWRIGHT_OT_toggle_overlay, LEAPWRIGHT_OT_toggle_events)
