"""The sub-panel "Setup": what is followed, and the world it is judged by; its parts are other modules'."""

from bpy.types import Context

from .. import results
from ..rigs import is_rig
from ..settings import ACTIVE, shown_in
from ..sources import SCENE_SOURCES
from .editors import ChosenPart, Room, draw_parts, in_editors, settings_column
from .panel import draw_target


class _Setup(Room):
    bl_label = "Setup"
    bl_options = {"DEFAULT_CLOSED"}

    def draw(self, _context: Context) -> None:
        draw_parts(self.layout, "setup", columns=3)


class _Follow(ChosenPart):
    bl_label = "Follow"
    part_of = "setup"
    part = "follow"

    def draw(self, context: Context) -> None:
        settings, column = shown_in(context), settings_column(self.layout)
        column.prop(settings, "follow")
        source = SCENE_SOURCES.get(settings.follow)
        fields = source.fields if source else ()
        if "thing" in fields:
            column.prop(settings, "thing")
        if "bone" in fields and settings.thing is not None and is_rig(settings.thing):
            column.prop_search(settings, "bone", settings.thing.pose, "bones")
        if results.latest(context.scene) is None or settings.follow != ACTIVE:
            draw_target(self.layout, context)
        if source is None or source.in_space:
            self.layout.operator("leapwright.import_motion", text="Import Motion Capture…", icon="IMPORT")


CLASSES = (*in_editors(_Setup, "setup", "audit"), *in_editors(_Follow, "follow", "setup"))
