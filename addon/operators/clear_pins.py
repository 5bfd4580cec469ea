"""Clear Pins: take marks by hand back."""

from typing import TYPE_CHECKING

from bpy.props import EnumProperty, IntProperty
from bpy.types import Context, Operator

from ...analysis.errors import LeapwrightError
from .. import results
from ..blender_words import Outcome
from ..marks import marking, marks

if TYPE_CHECKING:
    from bpy.types import bpy_prop_collection_idprop  # not there before Blender 5.0

ALL = "all"
CLEARED = [(ALL, "All", "Clear all events", 0), *marks.PINNABLE]


class LEAPWRIGHT_OT_clear_pins(marking.Marking, Operator):
    """Take back one pin, the marks of one jump, or all of the followed track."""

    bl_idname = "leapwright.clear_pins"
    bl_label = "Clear Pins"
    bl_description = "Clear pins, so that the event is found again"
    bl_options = {"REGISTER", "UNDO"}

    row: IntProperty(
        name="Row",
        description="Number of the marks in the scene, from 0; −1 for all of the followed track",
        default=-1,
        min=-1,
        options={"SKIP_SAVE"},
    )
    event: EnumProperty(
        name="Event", description="Choose the event to clear", items=CLEARED, default=ALL, options={"SKIP_SAVE"}
    )

    @classmethod
    def poll(cls, context: Context) -> bool:
        if not marks.all_of(context.scene):
            cls.poll_message_set("Nothing is pinned in this scene")
            return False
        return True

    def execute(self, context: Context) -> Outcome:
        listed = context.scene.leapwright_marks
        try:
            if self.row < 0:
                name = marking.sheet_of(context).track.name
                rows = [number for number, entry in enumerate(listed) if entry.track == name]
            else:
                rows = [self.row] if self.row < len(listed) else []
        except LeapwrightError as refusal:
            return self.refuse(refusal)
        if sum(_clear(listed, number, self.event) for number in reversed(rows)) == 0:
            self.report({"WARNING"}, "There is no such pin")
            return {"CANCELLED"}
        latest = results.latest(context.scene)
        try:
            sheet = marking.sheet_of(context)
        except LeapwrightError:
            return {"FINISHED"}  # cleared all the same
        if latest is not None and latest.audit.name == sheet.track.name:
            sheet.keep(context, chosen=sheet.chosen)
        return {"FINISHED"}


def _clear(listed: "bpy_prop_collection_idprop[marks.LEAPWRIGHT_PG_marks]", number: int, event: str) -> bool:
    """Take an event out of the marks in this row, or the row; say whether that changed anything."""
    entry = listed[number]
    if event == ALL or entry.pinned == {event}:
        listed.remove(number)
        return True
    if event not in entry.pinned:
        return False
    entry.pinned = entry.pinned - {event}
    return True


CLASSES = (LEAPWRIGHT_OT_clear_pins,)
