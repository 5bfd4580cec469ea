"""The sub-panel "Settings" of Setup: the gravity, the kind of jumper and the step that jumps are judged by."""

from bpy.types import Context

from ..settings import CUSTOM, shown_in
from .editors import ChosenPart, in_editors, settings_column


class _Settings(ChosenPart):
    bl_label = "Settings"
    part_of = "setup"
    part = "settings"

    def draw(self, context: Context) -> None:
        settings, column = shown_in(context), settings_column(self.layout)
        column.prop(settings, "gravity")
        if settings.gravity == CUSTOM:
            column.prop(settings, "gravity_custom")
        column.prop(settings, "kind")
        column.prop(settings, "step")
        column.prop(settings, "judge")
        row = column.row(heading="Smallest Hop")
        row.prop(settings, "use_smallest_hop", text="")
        hop = row.row()
        hop.active = settings.use_smallest_hop
        hop.prop(settings, "smallest_hop", text="")


CLASSES = in_editors(_Settings, "settings", "setup")
