"""The sub-panel "Compare": the audit that is held as before, beside the one that is shown now."""

from bpy.types import Context

from .. import results
from . import figures, rows
from .editors import Room, in_editors
from .tables import LONG_NAMES_SHARE, draw_table


class _Compare(Room):
    bl_label = "Compare"
    bl_options = {"DEFAULT_CLOSED"}

    def draw(self, context: Context) -> None:
        layout, now, before = self.layout, results.latest(context.scene), results.held(context.scene)
        row = layout.row(align=True)
        row.operator("leapwright.hold_audit", text="Hold as Before" if before is None else "Hold Anew")
        if before is None:
            return
        row.operator("leapwright.let_go")
        if now is None or now is before:
            layout.label(text="Change something to compare")
            return
        number = rows.of_window(context.window_manager).chosen
        was, jump = before.jump(number), now.jump(number)
        if was is None or jump is None:
            layout.label(text="The jump is in one of them only")
            return
        shown = figures.side_by_side(was, jump, context.scene.unit_settings)
        draw_table(layout, context, ("", "Before", "Now"), shown, names=LONG_NAMES_SHARE)


CLASSES = in_editors(_Compare, "compare", "audit")
