"""The sub-panel "Details": every figure of the chosen jump, its events, and how its track was read."""

from bpy.types import Context

from .. import results
from ..audited import UNAUDITED
from ..refusals import sentence
from . import figures
from .editors import Part, Room, draw_parts, in_editors
from .jumps import chosen
from .tables import draw_table
from .wrapping import paragraph


class _Details(Room):
    bl_label = "Details"
    bl_options = {"DEFAULT_CLOSED"}

    def draw(self, context: Context) -> None:
        result = results.latest(context.scene)
        if result is None:
            self.layout.label(text=UNAUDITED)
            return
        draw_parts(self.layout, "details", columns=3)


class _OfJump(Part):
    """A part that shows one thing of the chosen jump."""

    part_of = "details"

    def draw(self, context: Context) -> None:
        if chosen(context) is not None:
            self.draw_jump(context)


class _Timing(_OfJump):
    bl_label = "Timing"
    part = "timing"

    def draw_jump(self, context: Context) -> None:
        """Draw durations, then gravity and paces."""
        jump, world = chosen(context), results.latest(context.scene).world
        draw_table(self.layout, ("Frames", "Measured", "Asked"), figures.timing(jump))
        draw_table(self.layout, None, figures.paces(jump, world, context.scene.unit_settings))


class _Sizes(_OfJump):
    bl_label = "Sizes"
    part = "sizes"

    def draw_jump(self, context: Context) -> None:
        """Draw lengths and ratios."""
        world, units = results.latest(context.scene).world, context.scene.unit_settings
        draw_table(self.layout, ("", "Measured", "Expected"), figures.sizes(chosen(context), world, units))


class _Events(_OfJump):
    bl_label = "Events"
    part = "events"

    def draw_jump(self, context: Context) -> None:
        """Draw frames and heights."""
        shown = figures.events(chosen(context), context.scene.unit_settings)
        draw_table(self.layout, ("", "Frame", "Height"), shown)
        audit = results.latest(context.scene).audit
        for note in (f"read over frames {audit.frame_start:g}–{audit.frame_end:g}", *audit.notes):
            paragraph(self.layout, context, sentence(note))


CLASSES = (
    *in_editors(_Details, "details", "audit"),
    *in_editors(_Timing, "timing", "details"),
    *in_editors(_Sizes, "sizes", "details"),
    *in_editors(_Events, "events", "details"),
)
