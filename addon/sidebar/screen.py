"""The first screen: the verdict, push and air as measured beside asked, the one mend, and the next jump."""

from bpy.types import Context, UILayout

from ...analysis.jump import Jump
from .. import results
from ..choosing import FollowedFor
from ..refusals import capitalized
from ..retiming import forecasts
from ..retiming import settings as retime_settings
from ..retiming.settings import CHOICES
from ..retiming.words import findings_named, listed, moves
from . import figures, rows
from .icons import icon_of
from .mend_button import draw_mend
from .tables import draw_table
from .verdict import Judged, Verdict, icon_name, said, verdict_of
from .wrapping import paragraph


def draw_screen(layout: UILayout, context: Context, result: results.Result) -> None:
    """Draw the first screen of the chosen jump; of a track without a jump, why it has none.

    At its end the button that follows the center of mass, where that would settle what is unsure.
    """
    number, box = rows.of_window(context.window_manager).chosen, layout.box().column()
    jump = result.jump(number)
    if jump is not None:
        _draw_jump(box, context, result, jump, number)
    else:
        for note in result.audit.notes[-1:] or ("no jump found",):
            paragraph(box, context, capitalized(note), icon_value=icon_of("note"))
    if result.basis.why.choice is FollowedFor.NO_BODY:
        box.operator("leapwright.follow_center_of_mass")


def _draw_jump(box: UILayout, context: Context, result: results.Result, jump: Jump, number: int) -> None:
    """Draw the verdict, the two figures and the mend, and where the next jump is."""
    judged = verdict_of(jump, result.basis.settings.limits)
    paragraph(box, context, said(jump, judged), icon_value=icon_of(icon_name(jump, judged)))
    if judged.verdict is Verdict.DOUBTFUL:
        row = box.row(align=True)
        row.operator("leapwright.jump_here")
        row.operator("leapwright.no_jump_here", text="It Is None")
    _draw_mend(box, context, jump, judged, result=result, number=number)
    _draw_next(box, result, jump, number)


def _draw_mend(
    box: UILayout, context: Context, jump: Jump, judged: Judged, *, result: results.Result, number: int
) -> None:
    """Draw push and air beside what is asked, and the mend; or what it would make of them."""
    shown = forecasts.shown_beside(context.scene, result, number)
    if shown is not None and not shown.done:
        _draw_preview(box, context, shown, number)
        return
    draw_table(box, context, ("", "Frames", "Asked"), figures.first(jump))
    if shown is not None:
        if shown.forecast.goes:
            paragraph(box, context, f"Mended: {findings_named(shown.forecast.goes)}")
        return
    if judged.finding is not None:
        button = box.column()
        button.scale_y = 1.2
        draw_mend(button, result, jump=number, finding=judged.finding)


def _draw_preview(box: UILayout, context: Context, shown: forecasts.Shown, number: int) -> None:
    """Tell what the mend would move, and the buttons that do it or leave it."""
    draw_table(box, context, ("", "Now", "Mended"), figures.mended(shown.forecast))
    paragraph(box, context, listed(moves(shown.forecast)), "KEYFRAME")
    row, chosen = box.row(align=True), retime_settings.of_window(context.window_manager)
    row.scale_y = 1.2
    button = row.operator("leapwright.retime_jump", text="Retime")
    for name in CHOICES:
        setattr(button, name, getattr(chosen, name))
    button.jump = number + 1
    row.operator("leapwright.drop_forecast", text="Leave")


def _draw_next(box: UILayout, result: results.Result, jump: Jump, number: int) -> None:
    count = len(result.audit.jumps)
    row = box.row(align=True)
    which = f"Jump {number + 1} of {count}, " if count > 1 else "One jump, "
    row.label(text=f"{which}{figures.span(jump)}", translate=False)
    if count > 1:
        row.operator("leapwright.choose_jump", text="", icon="TRIA_LEFT").step = -1
        row.operator("leapwright.choose_jump", text="", icon="TRIA_RIGHT").step = 1
