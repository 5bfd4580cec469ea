"""Audit Jump: read the followed track and say what is off in its jumps."""

from bpy.types import Context, Operator

from ...analysis.audit import Audit
from ...analysis.errors import LeapwrightError
from ...analysis.finding import SEVERITIES
from ..auditing import audit_followed
from ..blender_words import Outcome
from ..refusals import Refusing
from ..target import target_of


class LEAPWRIGHT_OT_audit_jump(Refusing, Operator):
    """Audit the followed track."""

    bl_idname = "leapwright.audit_jump"
    bl_label = "Audit Jump"
    bl_description = "Check the timing of the jumps of what is followed, changing nothing"
    # No UNDO: an audit changes nothing in the file, so there is nothing to undo.
    bl_options = {"REGISTER"}

    @classmethod
    def poll(cls, context: Context) -> bool:
        return cls.allowed(lambda: target_of(context))

    def execute(self, context: Context) -> Outcome:
        try:
            audit = audit_followed(context).audit
        except LeapwrightError as refusal:
            return self.refuse(refusal)
        self.report({"INFO"} if audit.jumps else {"WARNING"}, audit_summary(audit))
        return {"FINISHED"}


def audit_summary(audit: Audit) -> str:
    """Say in one line what was found."""
    if not audit.jumps:
        return f"{audit.name}: {audit.notes[-1] if audit.notes else 'no jump found'}"
    ranks = [finding.rank for jump in audit.jumps for finding in jump.findings]
    counts = [f"{ranks.count(rank)} {SEVERITIES[rank]}" for rank in (2, 1, 0) if rank in ranks]
    jumps = "1 jump" if len(audit.jumps) == 1 else f"{len(audit.jumps)} jumps"
    return f"{audit.name}: {jumps}, {', '.join(counts) or 'nothing is off'}"


CLASSES = (LEAPWRIGHT_OT_audit_jump,)
