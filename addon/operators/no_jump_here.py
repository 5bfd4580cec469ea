"""No Jump Here: say by hand that what was found is no jump."""

from bpy.types import Context, Operator

from ...analysis.jump import Jump
from ..blender_words import Outcome
from ..marks import marking, pinning


class LEAPWRIGHT_OT_no_jump_here(marking.MarkingJump, Operator):
    """Say that the chosen jump is none."""

    bl_idname = "leapwright.no_jump_here"
    bl_label = "No Jump Here"
    bl_description = "Say that the chosen jump is none, and audit again"
    bl_options = {"REGISTER", "UNDO"}

    def mark(self, context: Context, sheet: marking.Sheet, jump: Jump) -> Outcome:
        """Deny it, by the least that is enough."""
        first, last = jump.takeoff.frame, jump.landing.frame
        for by_hand in pinning.denied(sheet.track.marks, jump):
            after = sheet.marked(by_hand)
            if not any(first <= other.apex.frame <= last for other in after.audit.jumps):
                break
        after.keep(context, chosen=sheet.chosen)
        self.report({"INFO"}, f"No jump from frame {first:.0f} to {last:.0f}")
        return {"FINISHED"}


CLASSES = (LEAPWRIGHT_OT_no_jump_here,)
