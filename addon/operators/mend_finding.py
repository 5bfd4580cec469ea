"""Mend Finding: show what the retiming that mends a finding would do, ready to be applied."""

from bpy.props import IntProperty
from bpy.types import Context, Operator, OperatorProperties

from ..audited import audit_in
from ..blender_words import Outcome
from ..retiming import settings as retime_settings
from ..retiming.mending import keep_for
from ..retiming.operator import RetimesJump
from ..retiming.settings import CHOICES
from ..sidebar import rows


class LEAPWRIGHT_OT_mend_finding(RetimesJump, Operator):
    """Preview the mend of a finding."""

    bl_idname = "leapwright.mend_finding"
    bl_label = "Mend"
    bl_description = "Show the jump as it would be with this mended, before any key moves"
    # No UNDO: nothing in the file changes.
    bl_options = {"REGISTER"}

    finding: IntProperty(
        name="Finding", description="Number of the finding in its jump, from 0", min=0, options={"SKIP_SAVE"}
    )

    @classmethod
    def description(cls, _context: Context, _properties: OperatorProperties) -> str:
        """Say that it is a preview."""
        return cls.bl_description

    def execute(self, context: Context) -> Outcome:
        result = audit_in(context)
        jump, found = result.jump(self.jump - 1), result.finding(self.jump - 1, self.finding)
        keep = None if jump is None or found is None else keep_for(jump, found.code)
        if keep is None:
            return self.refuse("Moving keys in time does not mend this", level="WARNING")
        chosen = retime_settings.of_window(context.window_manager)
        chosen.keep, chosen.pace = keep, 1.0
        for name in CHOICES:
            setattr(self, name, getattr(chosen, name))
        rows.of_window(context.window_manager).finding = self.finding
        return self.forecast(context)


CLASSES = (LEAPWRIGHT_OT_mend_finding,)
