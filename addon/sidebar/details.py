"""The sub-panel "Details": every figure of the chosen jump, its events, and how its track was read."""

from bpy.types import Context

from ...analysis.jump import Jump
from .. import results
from ..audited import lacking
from ..refusals import capitalized
from . import figures
from .editors import ChosenPart, Room, draw_parts, in_editors
from .jumps import chosen
from .tables import LONG_NAMES_SHARE, draw_table
from .wrapping import paragraph


class _Details(Room):
    bl_label = "Details"
    bl_options = {"DEFAULT_CLOSED"}

    def draw(self, context: Context) -> None:
        if chosen(context) is None:
            self.layout.label(text=lacking(context))
            return
        draw_parts(self.layout, "details", columns=3)


class _OfJump(ChosenPart):
    """A part that shows one thing of the chosen jump."""

    part_of = "details"

    def draw(self, context: Context) -> None:
        result, jump = results.latest(context.scene), chosen(context)
        if result is not None and jump is not None:
            self.draw_jump(context, result, jump)

    def draw_jump(self, context: Context, result: results.Result, jump: Jump) -> None:
        """Draw it for the chosen jump of the latest audit."""
        raise NotImplementedError


class _Timing(_OfJump):
    bl_label = "Timing"
    part = "timing"

    def draw_jump(self, context: Context, result: results.Result, jump: Jump) -> None:
        """Draw durations, then gravity and paces."""
        draw_table(self.layout, context, ("Frames", "Jump", "Asked"), figures.timing(jump))
        draw_table(self.layout, context, None, figures.paces(jump, result.world, context.scene.unit_settings))


class _Sizes(_OfJump):
    bl_label = "Sizes"
    part = "sizes"

    def draw_jump(self, context: Context, result: results.Result, jump: Jump) -> None:
        """Draw lengths and ratios."""
        shown = figures.sizes(jump, context.scene.unit_settings)
        draw_table(self.layout, context, ("", "Jump", "At Most"), shown, names=LONG_NAMES_SHARE)


class _Events(_OfJump):
    bl_label = "Events"
    part = "events"

    def draw_jump(self, context: Context, result: results.Result, jump: Jump) -> None:
        """Draw frames and heights."""
        shown = figures.events(jump, context.scene.unit_settings)
        draw_table(self.layout, context, ("", "Frame", "Height"), shown)
        audit = result.audit
        for note in (f"read over frames {audit.frame_start:g}–{audit.frame_end:g}", *audit.notes):
            paragraph(self.layout, context, capitalized(note))


CLASSES = (
    *in_editors(_Details, "details", "audit"),
    *in_editors(_Timing, "timing", "details"),
    *in_editors(_Sizes, "sizes", "details"),
    *in_editors(_Events, "events", "details"),
)
