"""The sub-panel "Setup": what is followed, and the world it is judged by; its parts are other modules'."""

from bpy.types import Context

from ..settings import ACTIVE, shown_in
from .editors import Room, in_editors, split
from .panel import draw_target


class _Setup(Room):
    bl_label = "Setup"
    bl_options = {"DEFAULT_CLOSED"}

    def draw(self, context: Context) -> None:
        settings, column = shown_in(context), split(self.layout)
        column.prop(settings, "follow")
        if settings.follow not in (ACTIVE, "footage"):
            column.prop(settings, "thing")
        if settings.follow == "bone" and settings.thing is not None and settings.thing.pose is not None:
            column.prop_search(settings, "bone", settings.thing.pose, "bones")
        draw_target(self.layout, context)
        if settings.follow != "footage":
            self.layout.operator("leapwright.import_motion", text="Import Motion Capture…", icon="IMPORT")


CLASSES = in_editors(_Setup, "setup", "audit")
