"""The sub-panel "Center of Mass": which bones are which segments, what they weigh, and what has no bone."""

from bpy.types import Context, PropertyGroup, UILayout, UIList

from ...analysis.errors import LeapwrightError
from ...analysis.mass.segments import OWN_MASS
from ..refusals import capitalized
from ..rigs import Rig
from ..sidebar.editors import ChosenPart, in_editors
from ..sidebar.wrapping import paragraph
from ..target import rig_or_none
from .rig import body_of_rig
from .settings import LEAPWRIGHT_PG_body, LEAPWRIGHT_PG_body_bone

BODY_ROWS = 4
NO_RIG_NO_BODY = "Only an armature has a body"
UNMAPPED = "Without a table, the bones named like a whole human body are taken"
"""Said without looking: telling the names takes longer than a panel may."""


class LEAPWRIGHT_UL_body(UIList):
    """The bones of the body: name, and segment, or the mass where it is the bone's own."""

    bl_idname = "LEAPWRIGHT_UL_body"

    def draw_item(
        self,
        _context: Context,
        layout: UILayout,
        _data: PropertyGroup | None,
        item: LEAPWRIGHT_PG_body_bone | None,
        _icon: int | None,
        _active_data: PropertyGroup,
        _active_property: str | None,
        _index: int | None = None,
        _flt_flag: int | None = None,
    ) -> None:
        if item is None:
            return
        split = layout.split(factor=0.55)
        split.label(text=item.bone or "No bone", icon="BONE_DATA", translate=False)
        split.prop(item, "mass" if item.segment == OWN_MASS else "segment", text="", emboss=False)


class _Body(ChosenPart):
    bl_label = "Center of Mass"
    part_of = "setup"
    part = "body"

    def draw(self, context: Context) -> None:
        rig, column = rig_or_none(context, has="a body"), self.layout.column()
        if rig is None:
            paragraph(column, context, NO_RIG_NO_BODY)
            return
        body = rig.data.leapwright_body
        row = column.row(align=True)
        row.operator("leapwright.map_body")
        row.operator("leapwright.weigh_body")
        if body.bones:
            _draw_table(column, rig, body)
            _draw_state(column, context, rig)
        else:
            column.operator("leapwright.add_body_bone")
            paragraph(column, context, UNMAPPED, "INFO")
        column.operator("leapwright.show_center_of_mass")


def _draw_table(layout: UILayout, rig: Rig, body: LEAPWRIGHT_PG_body) -> None:
    shown = min(len(body.bones), BODY_ROWS)
    name = LEAPWRIGHT_UL_body.bl_idname
    layout.template_list(name, "", body, "bones", body, "chosen", rows=shown, maxrows=shown)
    row = layout.row(align=True)
    row.operator("leapwright.add_body_bone")
    row.operator("leapwright.remove_body_bone").row = body.chosen
    column = layout.column()
    column.use_property_split = True
    column.use_property_decorate = False
    if body.chosen < len(body.bones):
        chosen = body.bones[body.chosen]
        column.prop_search(chosen, "bone", rig.pose, "bones")
        column.prop(chosen, "segment")
        if chosen.segment == OWN_MASS:
            column.prop(chosen, "mass")
            column.prop(chosen, "along")
            column.prop(chosen, "aside")
    if any(row.segment != OWN_MASS for row in body.bones):
        column.prop(body, "table")


def _draw_state(layout: UILayout, context: Context, rig: Rig) -> None:
    """Say what the body is known by, or what is wrong with it."""
    try:
        found = body_of_rig(rig)
    except LeapwrightError as refusal:
        paragraph(layout, context, capitalized(str(refusal)), "INFO")
        return
    paragraph(layout, context, capitalized(found.known), "INFO")
    if found.warning:
        paragraph(layout, context, capitalized(found.warning), "ERROR")


CLASSES = (LEAPWRIGHT_UL_body, *in_editors(_Body, "body", "setup"))
