"""Forecast: what retiming a jump would do, shown beside the jump as it is."""

from bpy.types import Context, Operator

from ...analysis.errors import LeapwrightError
from ..retiming import forecasts
from ..retiming.operator import RetimesJump, audited, say_fit
from ..retiming.settings import TIMES
from ..retiming.words import summary


class LEAPWRIGHT_OT_forecast_retime(RetimesJump, Operator):
    """Show what retiming would do."""

    bl_idname = "leapwright.forecast_retime"
    bl_label = "Forecast"
    bl_description = "Show the jump before and after, moving no key"
    # No UNDO: nothing in the file changes.
    bl_options = {"REGISTER"}

    def execute(self, context: Context) -> set[str]:
        try:
            if self.keep == TIMES:
                return say_fit(self, context)
            target, settings, plan = self.prepared(context)
            result = audited(context, target, settings, number=self.jump)
        except LeapwrightError as refusal:
            return self.refuse(refusal)
        forecasts.keep(context.scene, forecasts.Shown(plan.forecast, result, self.jump - 1, self.chosen()))
        self.report({"INFO"}, f"Jump {self.jump}: {summary(plan.forecast)}")
        return {"FINISHED"}


CLASSES = (LEAPWRIGHT_OT_forecast_retime,)
