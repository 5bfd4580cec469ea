"""The sub-panel "Retime": what to keep, the jump before and after, and the button that moves the keys."""

from bpy.types import Context, OperatorProperties, UILayout

from ...analysis.retiming.aim import KEEP_TIMES
from ...analysis.retiming.fit import fit_of
from .. import results
from ..audited import lacking
from ..blender_words import Icon
from ..sidebar import jumps, rows
from ..sidebar.editors import Room, in_editors
from ..sidebar.wrapping import paragraph
from . import forecasts
from . import settings as retime_settings
from .settings import CHOICES, Choices, draw_choices
from .words import findings_named, fit_sentence, listed, moves, remarks, table


class _Retime(Room):
    bl_label = "Retime"
    bl_options = {"DEFAULT_CLOSED"}

    def draw(self, context: Context) -> None:
        layout, chosen = self.layout, retime_settings.of_window(context.window_manager)
        result, number = results.latest(context.scene), rows.of_window(context.window_manager).chosen
        jump = jumps.chosen(context)
        if result is None or jump is None:
            layout.label(text=lacking(context))
            return
        draw_choices(layout, chosen)
        if chosen.keep == KEEP_TIMES:
            fit = fit_of(jump)
            paragraph(layout, context, fit_sentence(fit, context.scene.unit_settings), "INFO")
            return
        buttons = layout.row(align=True)
        for name in ("leapwright.forecast_retime", "leapwright.retime_jump"):
            _hand_over(buttons.operator(name), chosen, number)
        shown = forecasts.shown_beside(context.scene, result, number)
        if shown is not None:
            _draw_forecast(layout, context, shown, stale=shown.chosen != tuple(getattr(chosen, n) for n in CHOICES))


def _hand_over(button: OperatorProperties, chosen: Choices, number: int) -> None:
    for name in CHOICES:
        setattr(button, name, getattr(chosen, name))
    button.jump = number + 1


def _draw_forecast(layout: UILayout, context: Context, shown: forecasts.Shown, *, stale: bool) -> None:
    column = layout.column(align=True)
    column.active = not stale or shown.done
    column.scale_y = 0.85
    _draw_row(column, ("", "Before", "After" if shown.done else "Forecast"))
    for label, before, after, _ in table(shown.forecast):
        _draw_row(column, (label, before, after))
    lines = layout.column(align=True)
    lines.active = column.active
    listed_codes: tuple[tuple[str, tuple[str, ...], Icon], ...] = (
        ("Gone: {}", shown.forecast.goes, "CHECKMARK"),
        ("New: {}", shown.forecast.comes, "ERROR"),
        ("Not as forecast: {}", shown.differs, "ERROR"),
    )
    for text, codes, icon in listed_codes:
        if codes:
            paragraph(lines, context, text.format(findings_named(codes)), icon)
    paragraph(lines, context, listed(moves(shown.forecast)), "KEYFRAME")
    for remark in remarks(shown.forecast):
        paragraph(lines, context, remark, "INFO")


def _draw_row(column: UILayout, texts: tuple[str, str, str]) -> None:
    split = column.split(factor=0.5)
    split.label(text=texts[0])
    for text in texts[1:]:
        cell = split.row()
        cell.alignment = "RIGHT"
        cell.label(text=text)


CLASSES = in_editors(_Retime, "retime", "audit")
