"""Mend Finding: show what the retiming that mends a finding would do, ready to be applied."""

from bpy.props import IntProperty
from bpy.types import Context, Operator, OperatorProperties

from ...analysis.errors import LeapwrightError
from ..audited import audit_in
from ..blender_words import Outcome
from ..retiming import settings as retime_settings
from ..retiming.mending import keeps_for
from ..retiming.operator import RetimesJump
from ..retiming.settings import CHOICES
from ..sidebar import rows


class LEAPWRIGHT_OT_mend_finding(RetimesJump, Operator):
    """Preview the mend of a finding; where the nearest one is refused, the next one."""

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
        keeps = () if jump is None or found is None else keeps_for(jump, found.code)
        if not keeps:
            return self.refuse("Moving keys in time does not mend this", level="WARNING")
        chosen = retime_settings.of_window(context.window_manager)
        chosen.keep, chosen.pace = keeps[0], 1.0
        for name in CHOICES:
            setattr(self, name, getattr(chosen, name))
        rows.of_window(context.window_manager).finding = self.finding
        refused: list[LeapwrightError] = []
        for keep in keeps:
            chosen.keep = self.keep = keep
            try:
                return self.show(context)
            except LeapwrightError as refusal:
                refused.append(refusal)
        chosen.keep = self.keep = keeps[0]
        return self.refuse(refused[0])


CLASSES = (LEAPWRIGHT_OT_mend_finding,)
