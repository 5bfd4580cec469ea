"""The line that says that what is shown is not of the scene as it is, with the button that mends it."""

from bpy.types import Context, UILayout

from .. import results, view
from ..live import following
from ..live.freshness import State, state_of
from .wrapping import paragraph

STATE_WORDS = {
    State.CHANGED: "Out of date",
    State.UNSURE: "May be out of date",
    State.GONE: "No longer in the scene",
}


def draw_state(layout: UILayout, context: Context, result: results.Result) -> bool:
    """Draw the line where it is needed; not where Live is about to audit a path of keys again.

    Return whether there is still something to show under it.
    """
    state = state_of(context.scene, result)
    live = view.of_window(context.window_manager).use_live
    if state is State.FRESH or (state is State.CHANGED and live and not result.basis.evaluated and following.is_due()):
        return True
    box = layout.box()
    if state is State.GONE:
        paragraph(box, context, STATE_WORDS[state], "UNLINKED")
        return False
    row = box.split(factor=0.65)
    row.label(text=STATE_WORDS[state], icon="FILE_REFRESH")
    row.operator("leapwright.audit_jump", text="Audit")
    return True
