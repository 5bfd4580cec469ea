"""Choose Jump: show another jump of the latest audit, and move to its takeoff."""

from bpy.props import IntProperty
from bpy.types import Context, Operator

from .. import view
from ..audited import OfJump, audit_in
from ..blender_words import Outcome
from ..sidebar import rows


class LEAPWRIGHT_OT_choose_jump(OfJump, Operator):
    """Step to the next jump, or the one before."""

    bl_idname = "leapwright.choose_jump"
    bl_label = "Next Jump"
    bl_description = "Show the next jump, or the one before, and move to its takeoff"
    # As Blender's own frame jumps: many in a row are one step back.
    bl_options = {"UNDO_GROUPED"}
    bl_undo_group = "Next Jump"

    step: IntProperty(name="Step", description="Set how many jumps on", default=1, options={"SKIP_SAVE"})

    def execute(self, context: Context) -> Outcome:
        result, listed = audit_in(context), rows.of_window(context.window_manager)
        listed.chosen, listed.finding = (listed.chosen + self.step) % len(result.audit.jumps), -1
        context.scene.frame_current = round(result.audit.jumps[listed.chosen].takeoff.frame)
        view.redraw()
        return {"FINISHED"}


CLASSES = (LEAPWRIGHT_OT_choose_jump,)
