"""The panel "Leapwright": the audit's button, the verdict on the chosen jump, the jumps; under it what is off.

Draws, never computes; the same in the 3D viewport, the Dope Sheet and the Graph Editor.
"""

from bpy.types import Context, UILayout

from ...analysis.errors import SourceError
from ...analysis.finding import SEVERITIES, Finding
from ...analysis.jump import Jump
from .. import results, view
from ..audited import lacking
from ..basis import asked_of
from ..blender_words import Icon
from ..refusals import capitalized
from ..sources import SCENE_SOURCES
from ..target import target_of
from . import figures, rows
from .editors import Room, in_editors, is_timeline
from .icons import SOUND_ICON, icon_of
from .jumps import chosen, draw_jumps
from .mend_button import MEND_TEXT, draw_mend, has_mend
from .screen import draw_screen
from .state import draw_state
from .verdict import finding_code, finding_frames, finding_named, verdict_of
from .wrapping import button_fits, label_fits, paragraph

BESIDE_MEND, BESIDE_HELP = 0.68, 0.87
"""Share of a finding's width that its name has beside the buttons of mend and manual, and beside the latter alone."""

BESIDE_SWITCHES = 74.0
"""Pixels at scale 1 that the switches of Live and of the overlay take (seen in 5.2)."""

BESIDE_LABEL = 62.0
"""Pixels at scale 1 that two buttons, and the grip of a panel, take beside its name (seen in 5.2)."""

PIN_BY_HAND = "If there is a jump, pin its takeoff and landing under Setup, Marks"
"""What is said where an audit found none, which stands over it."""


class _Audit(Room):
    bl_label = "Leapwright"

    @classmethod
    def poll(cls, _context: Context) -> bool:
        return True

    def draw_header_preset(self, context: Context) -> None:
        """Draw the buttons of a day's shots and of the manual at the end of the panel's head; the first is in the File
        menu too, and left to it where the panel's name would be cut.
        """
        if label_fits(context, _Audit.bl_label, beside=BESIDE_LABEL):
            self.layout.operator("leapwright.review_shots", text="", icon="FILE_FOLDER", emboss=False)
        self.layout.operator("leapwright.open_manual", text="", icon="HELP", emboss=False)

    def draw(self, context: Context) -> None:
        layout = self.layout
        button = layout.row()
        button.scale_y = 1.4
        result = results.latest(context.scene)
        _draw_audit(button, context, result)
        row = layout.row(align=True)
        if result is None:
            draw_target(row, context)
            _draw_switches(row, context)
            return
        beside = label_fits(context, result.audit.name, beside=BESIDE_SWITCHES)
        _draw_name(row if beside else layout.column(align=True), context, result)
        _draw_switches(row if beside else layout, context, wide=not beside)
        if not draw_state(layout, context, result):
            return
        draw_screen(layout, context, result)
        if not is_timeline(context):
            draw_jumps(layout, context, result)


class _Findings(Room):
    bl_label = "Findings"

    def draw(self, context: Context) -> None:
        jump = chosen(context)
        if jump is None:
            paragraph(self.layout, context, PIN_BY_HAND if _has_none(context) else lacking(context))
            return
        if not jump.findings:
            _draw_none(self.layout, context, jump)
        number = rows.of_window(context.window_manager).chosen
        said: set[str] = set()
        for place, finding in enumerate(jump.findings):
            _draw_finding(self.layout, context, finding, jump=number, place=place, said=said)


def _draw_audit(layout: UILayout, context: Context, result: results.Result | None) -> None:
    """Draw the button that audits; with the name of what it reads, where something else is shown."""
    try:
        target = target_of(context)
    except SourceError:
        target = None  # the button is gray, and says why
    if result is None or target is None or asked_of(target) == result.basis.asked or target.name == result.audit.name:
        layout.operator("leapwright.audit_jump")
    else:
        layout.operator("leapwright.audit_jump", text=f"Audit {target.name}", translate=False)


def _has_none(context: Context) -> bool:
    """Say whether what is followed was audited, and no jump found."""
    result = results.latest(context.scene)
    return result is not None and not result.audit.jumps


def _draw_name(layout: UILayout, context: Context, result: results.Result) -> None:
    """Draw what was audited; a bone under its object, where there is no room for both in a line."""
    icon: Icon = SCENE_SOURCES[result.basis.source].icon
    thing, slash, part = result.audit.name.rpartition("/")
    if not slash or label_fits(context, result.audit.name):
        layout.label(text=result.audit.name, icon=icon, translate=False)
        return
    layout.label(text=thing, icon=icon, translate=False)
    layout.label(text=part, icon="BLANK1", translate=False)


def _draw_switches(layout: UILayout, context: Context, *, wide: bool = False) -> None:
    """Draw the switches of Live and of what is drawn; wide: over the whole width."""
    switches, row = view.of_window(context.window_manager), layout.row(align=True)
    row.alignment = "EXPAND" if wide else "RIGHT"
    row.operator("leapwright.toggle_live", text="Live", depress=switches.use_live)
    if context.space_data is not None and context.space_data.type == "VIEW_3D":
        row.operator("leapwright.toggle_overlay", text="", icon="OVERLAY", depress=switches.show_overlay)
    else:
        row.operator("leapwright.toggle_events", text="", icon="MARKER_HLT", depress=switches.show_events)


def _draw_none(layout: UILayout, context: Context, jump: Jump) -> None:
    """Draw that nothing was found; where the push may be off all the same, not as if that were sure."""
    result = results.latest(context.scene)
    unsure = result is not None and verdict_of(jump, result.basis.settings.limits).push_is_unsure
    text, picture = ("Nothing is surely off", SEVERITIES[0]) if unsure else ("Nothing is off", SOUND_ICON)
    layout.label(text=text, icon_value=icon_of(picture))


def draw_target(layout: UILayout, context: Context) -> None:
    """Draw what Audit Jump would read, or why it cannot."""
    try:
        target = target_of(context)
    except SourceError as refusal:
        paragraph(layout, context, str(refusal), "INFO")
        return
    layout.label(text=target.name, icon=target.kind.icon, translate=False)


def _draw_finding(
    layout: UILayout, context: Context, finding: Finding, *, jump: int, place: int, said: set[str]
) -> None:
    """Draw its name, the buttons of mend and manual, what is off, and what mends it, where none before said so.

    In a narrow sidebar the mend's button stands under the rest, and the frames under the name: they would be cut.
    """
    box, result = layout.box().column(), results.latest(context.scene)
    mends = result is not None and has_mend(result, jump=jump, finding=place)
    beside = mends and button_fits(context, MEND_TEXT, share=1 - BESIDE_MEND)
    head = box.split(factor=BESIDE_MEND if beside else BESIDE_HELP)
    name = head.row()
    name.alignment = "LEFT"
    picture, named = icon_of(finding.severity), finding_named(finding)
    is_whole = label_fits(context, named, share=BESIDE_MEND if beside else BESIDE_HELP)
    button = name.operator(
        "leapwright.go_to_finding",
        text=named if is_whole else finding_code(finding),
        icon_value=picture,
        translate=False,
        emboss=False,
    )
    button.jump, button.finding = jump, place
    right = head.row(align=True)
    if result is not None and beside:
        draw_mend(right, result, jump=jump, finding=place)
    right.alignment = "RIGHT"
    button = right.operator("leapwright.open_manual", text="", icon="HELP", emboss=False)
    button.page, button.section = "findings", finding.code
    if not is_whole:
        box.label(text=finding_frames(finding), icon="BLANK1", translate=False)
    units = context.scene.unit_settings
    paragraph(box, context, capitalized(figures.in_words(finding.template, finding.values, units)))
    mend_said = capitalized(figures.in_words(finding.mend_template, finding.values, units))
    if mend_said and mend_said not in said:
        said.add(mend_said)
        paragraph(box, context, mend_said, "FORWARD")
    if result is not None and mends and not beside:
        draw_mend(box, result, jump=jump, finding=place)


CLASSES = (*in_editors(_Audit, "audit"), *in_editors(_Findings, "findings", "audit"))
