"""The button that shows a finding's mend: gray while keys are dragged, when mends are not planned yet."""

from bpy.types import UILayout

from .. import results
from ..retiming.mending import keeps_for, may_be_mended

MEND_TEXT = "Mend…"


def has_mend(result: results.Result, *, jump: int, finding: int) -> bool:
    """Say whether moving keys in time mends a finding; both by their places from 0."""
    of, found = result.jump(jump), result.finding(jump, finding)
    if of is None or found is None:
        return False
    return may_be_mended(found.code) if result.is_preview else bool(keeps_for(of, found.code))


def draw_mend(layout: UILayout, result: results.Result, *, jump: int, finding: int) -> None:
    """Draw it for a finding, both by their places from 0; nothing for what moving keys in time does not mend."""
    if not has_mend(result, jump=jump, finding=finding):
        return
    row = layout.row()
    row.enabled = not result.is_preview
    button = row.operator("leapwright.mend_finding", text=MEND_TEXT)
    button.jump, button.finding = jump + 1, finding
