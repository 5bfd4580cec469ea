"""Forecast: what retiming a jump would do, shown beside the jump as it is."""

from bpy.types import Context, Operator

from ..blender_words import Outcome
from ..retiming.operator import RetimesJump


class LEAPWRIGHT_OT_forecast_retime(RetimesJump, Operator):
    """Show what retiming would do."""

    bl_idname = "leapwright.forecast_retime"
    bl_label = "Forecast"
    bl_description = "Show the jump before and after, moving no key"
    # No UNDO: nothing in the file changes.
    bl_options = {"REGISTER"}

    def execute(self, context: Context) -> Outcome:
        return self.forecast(context)


CLASSES = (LEAPWRIGHT_OT_forecast_retime,)
