"""The panel "Leapwright": what to follow, Audit Jump, the jumps, what is off, the figures.

Draws, never computes; the same in the 3D viewport, the Dope Sheet and the Graph Editor.
"""

from collections.abc import Iterable

from bpy.types import Context, Panel, PropertyGroup, UILayout, UIList

from ...analysis.errors import SourceError
from ...analysis.finding import Finding
from ...analysis.jump import Jump
from .. import results
from ..refusals import sentence
from ..settings import ACTIVE, CUSTOM, shown_in
from ..target import target_of
from . import figures, rows
from .state import draw_state
from .wrapping import paragraph

SEVERITY_ICONS = {"note": "INFO", "check": "ERROR", "fix": "CANCEL"}
SOUND_ICON = "CHECKMARK"
OTHER_ICONS = {"PREVIEW_RANGE", "FORWARD", "BLANK1", "BONE_DATA", "OBJECT_DATA", "RESTRICT_SELECT_OFF", "IMPORT"}
MOST_ROWS = 6


class LEAPWRIGHT_UL_jumps(UIList):
    """The jumps of the latest audit: number, frames in the air, height; the icon is the gravest finding."""

    bl_idname = "LEAPWRIGHT_UL_jumps"

    def draw_item(
        self,
        context: Context,
        layout: UILayout,
        _data: PropertyGroup,
        _item: PropertyGroup,
        _icon: int,
        _active_data: PropertyGroup,
        _active_property: str,
        index: int,
    ) -> None:
        result = results.latest(context.scene)
        jump = result.jump(index) if result else None
        if jump is None:
            return
        gravest = SEVERITY_ICONS[jump.findings[0].severity] if jump.findings else SOUND_ICON
        row = layout.row()
        row.label(text=f"{index + 1}", icon=gravest, translate=False)
        row.label(text=figures.span(jump), translate=False)
        right = row.row()
        right.alignment = "RIGHT"
        right.label(text=figures.height(jump, context.scene.unit_settings), translate=False)

    def filter_items(self, context: Context, data: PropertyGroup, property_name: str) -> tuple[list[int], list[int]]:
        """Hide the rows past the last jump of this scene."""
        result = results.latest(context.scene)
        count = len(result.audit.jumps) if result else 0
        return [self.bitflag_filter_item * (n < count) for n in range(len(getattr(data, property_name)))], []


class _Room:
    bl_region_type = "UI"
    bl_category = "Animation"


class _Audit(_Room):
    bl_label = "Leapwright"

    def draw(self, context: Context) -> None:
        layout = self.layout
        button = layout.row()
        button.scale_y = 1.5
        button.operator("leapwright.audit_jump")
        _draw_follow(layout, context)
        result = results.latest(context.scene)
        if result is None:
            return
        draw_state(layout, context, result)
        audit, listed = result.audit, rows.of_window(context.window_manager)
        span = f"{audit.frame_start:g}–{audit.frame_end:g}"
        paragraph(layout, context, f"{audit.name}, frames {span}", "PREVIEW_RANGE")
        if audit.jumps:
            shown = min(len(audit.jumps) + 1, MOST_ROWS)
            name = LEAPWRIGHT_UL_jumps.bl_idname
            layout.template_list(name, "", listed, "rows", listed, "chosen", rows=shown, maxrows=MOST_ROWS)
        for note in audit.notes:
            paragraph(layout, context, sentence(note), "INFO")


class _OfJump(_Room):
    """A sub-panel that shows one thing of the chosen jump."""

    @classmethod
    def poll(cls, context: Context) -> bool:
        return _chosen(context) is not None


class _Findings(_OfJump):
    bl_label = "Findings"

    def draw(self, context: Context) -> None:
        jump = _chosen(context)
        if not jump.findings:
            self.layout.label(text="Nothing is off", icon=SOUND_ICON)
        number = rows.of_window(context.window_manager).chosen
        for place, finding in enumerate(jump.findings):
            _draw_finding(self.layout, context, finding, jump=number, place=place)


class _Timing(_OfJump):
    bl_label = "Timing"

    def draw(self, context: Context) -> None:
        jump, world = _chosen(context), results.latest(context.scene).world
        draw_table(self.layout, ("Frames", "Measured", "Expected"), figures.timing(jump))
        draw_table(self.layout, None, figures.paces(jump, world, context.scene.unit_settings))


class _Sizes(_OfJump):
    bl_label = "Sizes"
    bl_options = {"DEFAULT_CLOSED"}

    def draw(self, context: Context) -> None:
        world, units = results.latest(context.scene).world, context.scene.unit_settings
        draw_table(self.layout, ("", "Measured", "Expected"), figures.sizes(_chosen(context), world, units))


class _Events(_OfJump):
    bl_label = "Events"
    bl_options = {"DEFAULT_CLOSED"}

    def draw(self, context: Context) -> None:
        shown = figures.events(_chosen(context), context.scene.unit_settings)
        draw_table(self.layout, ("", "Frame", "Height"), shown)


class _Settings(_Room):
    bl_label = "Settings"
    bl_options = {"DEFAULT_CLOSED"}
    bl_order = 1  # last, after the sub-panels of other modules

    def draw(self, context: Context) -> None:
        settings, column = shown_in(context), self.layout.column()
        column.use_property_split = True
        column.use_property_decorate = False
        column.prop(settings, "gravity")
        if settings.gravity == CUSTOM:
            column.prop(settings, "gravity_custom")
        column.prop(settings, "kind")
        column.prop(settings, "step")
        row = column.row(heading="Smallest Hop")
        row.prop(settings, "use_smallest_hop", text="")
        hop = row.row()
        hop.active = settings.use_smallest_hop
        hop.prop(settings, "smallest_hop", text="")


def _chosen(context: Context) -> Jump | None:
    result = results.latest(context.scene)
    return result.jump(rows.of_window(context.window_manager).chosen) if result else None


def _draw_follow(layout: UILayout, context: Context) -> None:
    settings, column = shown_in(context), layout.column()
    column.use_property_split = True
    column.use_property_decorate = False
    column.prop(settings, "follow")
    if settings.follow not in (ACTIVE, "footage"):
        column.prop(settings, "thing")
    if settings.follow == "bone" and settings.thing is not None and settings.thing.pose is not None:
        column.prop_search(settings, "bone", settings.thing.pose, "bones")
    _draw_target(layout, context)
    if settings.follow != "footage":
        layout.operator("leapwright.import_motion", text="Import Motion Capture…", icon="IMPORT")


def _draw_target(layout: UILayout, context: Context) -> None:
    """What is followed, where neither the settings nor the latest audit name it; or why nothing is."""
    try:
        target = target_of(context)
    except SourceError as refusal:
        paragraph(layout, context, str(refusal), "INFO")
        return
    result = results.latest(context.scene)
    if shown_in(context).follow == ACTIVE and not (result and result.audit.name == target.name):
        paragraph(layout, context, target.name, "BONE_DATA" if target.bone else "OBJECT_DATA")


def _draw_finding(layout: UILayout, context: Context, finding: Finding, *, jump: int, place: int) -> None:
    box = layout.box().column()
    name = finding.code.replace("-", " ").capitalize()
    first, last = (f"{frame:.0f}" for frame in finding.frames)
    frames = first if first == last else f"{first}–{last}"
    row = box.row()
    row.alignment = "LEFT"
    button = row.operator(
        "leapwright.go_to_finding",
        text=f"{name}, {frames}",
        icon=SEVERITY_ICONS[finding.severity],
        translate=False,
        emboss=False,
    )
    button.jump, button.finding = jump, place
    units = context.scene.unit_settings
    paragraph(box, context, sentence(figures.in_words(finding.template, finding.values, units)))
    if finding.mend_template:
        mend = figures.in_words(finding.mend_template, finding.values, units)
        paragraph(box, context, sentence(mend), "FORWARD")


def draw_table(layout: UILayout, heads: tuple[str, str, str] | None, shown: Iterable[figures.Figure]) -> None:
    """Draw rows of three texts under their heads, if any."""
    column = layout.column(align=True)
    column.scale_y = 0.85
    if heads:
        _draw_row(column, heads).active = False
    for figure in shown:
        _draw_row(column, (figure.label, figure.measured, figure.expected))


def _draw_row(column: UILayout, texts: tuple[str, str, str]) -> UILayout:
    split = column.split(factor=0.46)
    split.label(text=texts[0])
    for text in texts[1:]:
        cell = split.row()
        cell.alignment = "RIGHT"
        cell.label(text=text)
    return split


def _in_editor(space: str, tag: str) -> list[type[Panel]]:
    """Make the panel and its sub-panels for one editor."""
    top = f"LEAPWRIGHT_PT_audit_{tag}"
    parts = {"audit": _Audit, "findings": _Findings, "timing": _Timing, "sizes": _Sizes}
    parts |= {"events": _Events, "settings": _Settings}
    made = []
    for name, base in parts.items():
        known = {"bl_space_type": space, "bl_idname": f"LEAPWRIGHT_PT_{name}_{tag}", "__doc__": base.__doc__}
        if base is not _Audit:
            known["bl_parent_id"] = top
        made.append(type(known["bl_idname"], (base, Panel), known))
    return made


EDITORS = {"VIEW_3D": "view3d", "DOPESHEET_EDITOR": "dopesheet", "GRAPH_EDITOR": "graph"}
CLASSES = (LEAPWRIGHT_UL_jumps, *(cls for space, tag in EDITORS.items() for cls in _in_editor(space, tag)))
