"""Hold as Before, Let Go: keep the audit that is shown, to be compared with those that come after it."""

from bpy.types import Context, Operator

from .. import results, view
from ..audited import OfAudit
from ..blender_words import Outcome
from ..refusals import Refusing


class LEAPWRIGHT_OT_hold_audit(OfAudit, Operator):
    """Hold the latest audit as the one before."""

    bl_idname = "leapwright.hold_audit"
    bl_label = "Hold as Before"
    bl_description = "Hold this audit, to see it beside the next ones"
    # No UNDO: nothing in the file changes.
    bl_options = {"REGISTER"}

    def execute(self, context: Context) -> Outcome:
        results.hold(context.scene, results.latest(context.scene))
        view.redraw()
        return {"FINISHED"}


class LEAPWRIGHT_OT_let_go(Refusing, Operator):
    """Let the audit that is held go."""

    bl_idname = "leapwright.let_go"
    bl_label = "Let Go"
    bl_description = "Compare no more"
    # No UNDO: nothing in the file changes.
    bl_options = {"REGISTER"}

    @classmethod
    def poll(cls, context: Context) -> bool:
        if results.held(context.scene) is None:
            cls.poll_message_set("No audit is held")
            return False
        return True

    def execute(self, context: Context) -> Outcome:
        results.hold(context.scene, None)
        view.redraw()
        return {"FINISHED"}


CLASSES = (LEAPWRIGHT_OT_hold_audit, LEAPWRIGHT_OT_let_go)
