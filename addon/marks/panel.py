"""The sub-panel "Marks": pin an event, say that there is no jump, and what is marked by hand so far."""

from bpy.types import Context, UILayout

from .. import results
from ..sidebar.editors import ChosenPart, in_editors
from . import marks


class _Marks(ChosenPart):
    bl_label = "Marks"
    part_of = "setup"
    part = "marks"

    def draw(self, context: Context) -> None:
        layout, latest = self.layout, results.latest(context.scene)
        column = layout.column(align=True)
        column.operator_menu_enum("leapwright.pin_event", "event", text="Pin Event", icon="PINNED")
        if latest is not None and latest.audit.jumps:
            column.operator("leapwright.no_jump_here")
        name = "" if latest is None else latest.audit.name
        listed = list(enumerate(marks.all_of(context.scene)))
        for number, entry in listed:
            if entry.track == name:
                _draw(layout.column(align=True), entry, number)
        for number, entry in listed:
            if entry.track != name:
                row = layout.row()
                row.label(text=f"{entry.track}: {_said(entry)}", translate=False)
                _clear(row, number)


def _draw(column: UILayout, entry: marks.LEAPWRIGHT_PG_marks, number: int) -> None:
    """Draw the marks of one jump of the audited track, a row a pin; their frames can be typed."""
    if entry.is_no_jump:
        row = _clearable(column.row(align=True), "No Jump", number)
        row.prop(entry, "first", text="")
        row.prop(entry, "last", text="")
    for event, label, *_ in marks.PINNABLE:
        if event in entry.pinned:
            _clearable(column.row(align=True), label, number, event).prop(entry, event, text="")


def _clearable(row: UILayout, label: str, number: int, event: str = "all") -> UILayout:
    """Draw a label and the button that clears it; return where its values go, between the two."""
    split = row.split(factor=0.4, align=True)
    split.label(text=label)
    values = split.row(align=True)
    _clear(row, number, event)
    return values


def _clear(row: UILayout, number: int, event: str = "all") -> None:
    button = row.operator("leapwright.clear_pins", text="", icon="X")
    button.row, button.event = number, event


def _said(entry: marks.LEAPWRIGHT_PG_marks) -> str:
    """Say in one line what is marked on a track that is not the audited one."""
    if entry.is_no_jump:
        return f"no jump {entry.first:.0f}–{entry.last:.0f}"
    pins = [f"{event} {getattr(entry, event):.7g}" for event, *_ in marks.PINNABLE if event in entry.pinned]
    return ", ".join(pins)


CLASSES = in_editors(_Marks, "marks", "setup")
