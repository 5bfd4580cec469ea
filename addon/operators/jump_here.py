"""Jump Here: say by hand that what may be none is a jump."""

from bpy.types import Context, Operator

from ...analysis.jump import Jump
from ...analysis.track import Marks
from ..blender_words import Outcome
from ..marks import marking, pinning


class LEAPWRIGHT_OT_jump_here(marking.MarkingJump, Operator):
    """Say that the chosen jump is one, by pinning its takeoff and its landing where they are."""

    bl_idname = "leapwright.jump_here"
    bl_label = "It Is a Jump"
    bl_description = "Say that this is a jump, by pinning its takeoff and landing, and audit again"
    bl_options = {"REGISTER", "UNDO"}

    def mark(self, context: Context, sheet: marking.Sheet, jump: Jump) -> Outcome:
        """Pin its takeoff and landing where they are."""
        kept = [mark for mark in sheet.track.marks if not pinning.belongs(mark, jump)]
        takeoff, landing = (round(event.frame, 1) for event in (jump.takeoff, jump.landing))
        after = sheet.marked((*kept, Marks(takeoff=takeoff, landing=landing)))
        if not any(pinning.has_pin(other, "takeoff", takeoff) for other in after.audit.jumps):
            return self.refuse("Pinned there, its takeoff and landing make no jump", level="WARNING")
        after.keep(context, chosen=sheet.chosen)
        self.report({"INFO"}, f"A jump from frame {takeoff:g} to {landing:g}")
        return {"FINISHED"}


CLASSES = (LEAPWRIGHT_OT_jump_here,)
