"""Drop Forecast: put a previewed mend away; nothing was changed by it."""

from bpy.types import Context, Operator

from .. import view
from ..blender_words import Outcome
from ..refusals import Refusing
from ..retiming import forecasts


class LEAPWRIGHT_OT_drop_forecast(Refusing, Operator):
    """Put the preview away."""

    bl_idname = "leapwright.drop_forecast"
    bl_label = "Drop Forecast"
    bl_description = "Put the preview away, leaving the keys as they are"
    # No UNDO: nothing in the file changes.
    bl_options = {"REGISTER"}

    @classmethod
    def poll(cls, context: Context) -> bool:
        if not forecasts.has_forecast(context.scene):
            cls.poll_message_set("Nothing is previewed")
            return False
        return True

    def execute(self, context: Context) -> Outcome:
        forecasts.drop(context.scene)
        view.redraw()
        return {"FINISHED"}


CLASSES = (LEAPWRIGHT_OT_drop_forecast,)
