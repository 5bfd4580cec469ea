"""The sub-panel "Footage": which clip and marker are followed, and a length that is known in the picture."""

from bpy.types import Context

from ..refusals import capitalized
from ..settings import shown_in
from ..sidebar.editors import ChosenPart, in_editors, settings_column
from ..sidebar.wrapping import paragraph
from .marker import FILMED_CAUTION
from .settings import BETWEEN_MARKERS


class _Footage(ChosenPart):
    bl_label = "Footage"
    part_of = "setup"
    part = "footage"

    def draw(self, context: Context) -> None:
        said, column = context.scene.leapwright_footage, settings_column(self.layout)
        column.active = shown_in(context).follow == "footage"
        column.prop(said, "clip")
        if said.clip is None:
            return
        column.prop_search(said, "marker", said.clip.tracking, "tracks")
        column.prop(said, "known")
        if said.known == BETWEEN_MARKERS:
            column.prop_search(said, "first", said.clip.tracking, "tracks")
            column.prop_search(said, "second", said.clip.tracking, "tracks")
        else:
            column.prop(said, "pixels")
        column.prop(said, "length")
        column.prop(said, "rate")
        paragraph(self.layout, context, capitalized(FILMED_CAUTION), "INFO")


CLASSES = in_editors(_Footage, "footage", "setup")
