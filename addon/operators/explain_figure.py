"""Explain Figure: what a figure means, where the pointer rests on its name, or in a box on a click."""

from bpy.props import StringProperty
from bpy.types import Context, Menu, Operator, OperatorProperties

from ..blender_words import Outcome
from ..refusals import InWindow
from ..sidebar.meanings import MEANINGS


class LEAPWRIGHT_OT_explain_figure(InWindow, Operator):
    """Tell what a figure means."""

    bl_idname = "leapwright.explain_figure"
    bl_label = "Explain Figure"
    bl_description = "Show what this figure means"
    # No UNDO: nothing changes.
    bl_options = {"INTERNAL"}

    figure: StringProperty(name="Figure", description="Name the figure", options={"SKIP_SAVE"})

    @classmethod
    def description(cls, _context: Context, properties: OperatorProperties) -> str:
        """Tell what the figure means."""
        return MEANINGS.get(properties.figure, cls.bl_description)

    def execute(self, context: Context) -> Outcome:
        def drawn(menu: Menu, _context: Context) -> None:
            menu.layout.label(text=MEANINGS.get(self.figure, self.bl_description))

        context.window_manager.popup_menu(drawn, title=self.figure)  # type: ignore[arg-type]  # it is given a menu
        return {"FINISHED"}


CLASSES = (LEAPWRIGHT_OT_explain_figure,)
