"""Go to Finding: move to the frame where something is off."""

from bpy.props import IntProperty
from bpy.types import Context, Operator, OperatorProperties

from .. import preferences, results
from ..audited import OfAudit, audit_in
from ..basis import target_in
from ..blender_words import Outcome
from ..selection import select_keys
from ..sidebar import rows


class LEAPWRIGHT_OT_go_to_finding(OfAudit, Operator):
    """Move to the first frame of a finding."""

    bl_idname = "leapwright.go_to_finding"
    bl_label = "Go to Finding"
    bl_description = "Move to the first frame of this finding"
    # As Blender's own frame jumps: many in a row are one step back.
    bl_options = {"UNDO_GROUPED"}
    bl_undo_group = "Go to Finding"

    jump: IntProperty(name="Jump", description="Number of the jump, from 0", min=0, options={"SKIP_SAVE"})
    finding: IntProperty(
        name="Finding", description="Number of the finding in its jump, from 0", min=0, options={"SKIP_SAVE"}
    )

    @classmethod
    def poll(cls, context: Context) -> bool:
        if not super().poll(context):
            return False
        if not any(jump.findings for jump in audit_in(context).audit.jumps):
            cls.poll_message_set("Nothing is off in this scene's latest audit")
            return False
        return True

    @classmethod
    def description(cls, context: Context, properties: OperatorProperties) -> str:
        """Say what is off in full, where the row shows its name only."""
        result = results.latest(context.scene)
        finding = result.finding(properties.jump, properties.finding) if result else None
        return cls.bl_description if finding is None else f"{cls.bl_description}: {finding.message}"

    def execute(self, context: Context) -> Outcome:
        result = audit_in(context)
        finding = result.finding(self.jump, self.finding)
        if finding is None:
            self.report({"WARNING"}, "The latest audit has no such finding")
            return {"CANCELLED"}
        listed = rows.of_window(context.window_manager)
        listed.chosen, listed.finding = self.jump, self.finding
        context.scene.frame_current = round(finding.frames[0])
        target = target_in(context.scene, result.basis)
        if preferences.of_person(context).select_keys and target is not None:
            select_keys(target, *finding.frames)
        return {"FINISHED"}


CLASSES = (LEAPWRIGHT_OT_go_to_finding,)
