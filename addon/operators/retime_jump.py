"""Retime Jump: move a character's keys so that push and flight of one jump belong together, then audit again."""

from bpy.types import Context, Operator

from ...analysis.errors import LeapwrightError
from ...analysis.retiming.aim import KEEP_TIMES
from ...analysis.retiming.forecast import differences
from ..blender_words import Outcome
from ..retiming import forecasts
from ..retiming.operator import RetimesJump, audit_again, say_fit
from ..retiming.settings import draw_choices
from ..retiming.words import NO_KEY_MOVES, moved_summary, remarks


class LEAPWRIGHT_OT_retime_jump(RetimesJump, Operator):
    """Move the keys that carry a jump."""

    bl_idname = "leapwright.retime_jump"
    bl_label = "Retime Jump"
    bl_description = "Move the character's keys so that push and flight belong together"
    bl_options = {"REGISTER", "UNDO"}

    def execute(self, context: Context) -> Outcome:
        try:
            if self.keep == KEEP_TIMES:
                return say_fit(self, context)
            target, settings, plan = self.prepared(context)
        except LeapwrightError as refusal:
            return self.refuse(refusal)
        if not plan.write():
            self.report({"INFO"}, "; ".join((NO_KEY_MOVES, *remarks(plan.forecast))))
            return {"CANCELLED"}
        # From here on keys have moved: whatever happens, this is a step to undo.
        try:
            result = audit_again(context, target, settings, number=self.jump)
        except LeapwrightError as refusal:
            self.report({"WARNING"}, f"Retimed, but it cannot be audited: {refusal}")
            return {"FINISHED"}
        differs = differences(plan.forecast, result.audit)
        shown = forecasts.Shown(plan.forecast, result, self.jump - 1, self.chosen(), done=True, differs=differs)
        forecasts.keep(context.scene, shown)
        if differs:
            self.report({"WARNING"}, f"Retimed, but not as forecast: {'; '.join(differs)}")
        else:
            self.report({"INFO"}, f"Jump {self.jump}: {moved_summary(plan.forecast)}")
        return {"FINISHED"}

    def draw(self, context: Context) -> None:
        self.layout.prop(self, "jump")
        draw_choices(self.layout, self)


CLASSES = (LEAPWRIGHT_OT_retime_jump,)
