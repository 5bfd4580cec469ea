"""Pin Event: say by hand at which frame an event of a jump lies."""

from bpy.props import EnumProperty
from bpy.types import Context, Operator

from ...analysis.audit import Audit
from ...analysis.errors import LeapwrightError
from ...analysis.notes import Said
from ..blender_words import Outcome
from ..marks import marking, marks, pinning
from ..refusals import capitalized

PIN_LABELS = {name: label for name, label, *_ in marks.PINNABLE}


class LEAPWRIGHT_OT_pin_event(marking.Marking, Operator):
    """Pin an event of a jump to the current frame."""

    bl_idname = "leapwright.pin_event"
    bl_label = "Pin Event"
    bl_description = "Pin an event of the chosen jump to the current frame, and audit again"
    bl_options = {"REGISTER", "UNDO"}

    event: EnumProperty(
        name="Event", description="Choose the event to pin", items=marks.PINNABLE, default="takeoff"
    )

    def execute(self, context: Context) -> Outcome:
        frame, label = round(context.scene.frame_float, marks.FRAME_DIGITS), PIN_LABELS[self.event]
        try:
            sheet = marking.sheet_of(context)
            jumps, track = sheet.audit.jumps, sheet.track
            place = pinning.jump_for(jumps, self.event, frame, fps=track.fps, chosen=sheet.chosen)
            after = sheet.marked(
                pinning.pinned(track.marks, jumps, self.event, frame, fps=track.fps, jump=place)
            )
        except LeapwrightError as refusal:
            return self.refuse(refusal)
        number = _pinned_in(after.audit, self.event, frame)
        if number is None and (place is not None or any(map(pinning.is_whole, after.added(sheet)))):
            return self.refuse(next((note.text for note in after.audit.said if note.said in LEFT_OUT), UNUSED))
        after.keep(context, chosen=number)
        if number is None:
            self.report({"WARNING"}, capitalized(_missing(after.audit, label, frame)))
        else:
            self.report({"INFO"}, f"{label} of jump {number + 1} pinned to frame {frame:g}")
        return {"FINISHED"}


UNUSED = "The pin would change nothing"
LEFT_OUT = {Said.MARKS_ORDER, Said.MARKS_OUTSIDE, Said.MARKS_LOW}
"""Notes that say why a pin is not used."""


def _pinned_in(audit: Audit, event: str, frame: float) -> int | None:
    return next((i for i, jump in enumerate(audit.jumps) if pinning.has_pin(jump, event, frame)), None)


def _missing(audit: Audit, label: str, frame: float) -> str:
    """Tell what the analysis says of pins that make no jump yet."""
    missing = [note.text for note in audit.said if note.said is Said.MARKS_MISSING]
    return missing[-1] if missing else f"{label} pinned to frame {frame:g}, where no jump was found"


CLASSES = (LEAPWRIGHT_OT_pin_event,)
