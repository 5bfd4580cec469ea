"""The sub-panel "Feet": which bones touch the ground, where that is, and what the chosen jump's feet do."""

from bpy.types import Context, UILayout

from ...analysis.jump import Jump
from .. import results
from ..sidebar import rows
from ..sidebar.editors import ChosenPart, in_editors
from ..sidebar.wrapping import paragraph
from ..target import rig_or_none
from .settings import FEET_OFF, GROUND_HEIGHT, GROUND_MESH, LEAPWRIGHT_PG_feet, mode_of

NO_RIG_NO_FEET = "Only an armature has feet"


class _Feet(ChosenPart):
    bl_label = "Feet"
    part_of = "setup"
    part = "feet"

    def draw(self, context: Context) -> None:
        rig = rig_or_none(context, has="feet")
        if rig is None:
            paragraph(self.layout, context, NO_RIG_NO_FEET)
            return
        feet, column = rig.leapwright_feet, self.layout.column()
        column.row(align=True).prop(feet, "reading", expand=True)
        column.active = mode_of(rig) != FEET_OFF
        if not feet.bones:
            paragraph(column, context, "Bones named like feet are taken", "INFO")
        for number, foot in enumerate(feet.bones):
            row = column.row(align=True)
            row.prop_search(foot, "bone", rig.pose, "bones", text="")
            row.operator("leapwright.remove_foot", text="", icon="X").row = number
        row = column.row(align=True)
        row.operator("leapwright.find_feet")
        row.operator("leapwright.add_foot")
        _draw_ground(column, feet)
        result = results.latest(context.scene)
        jump = result.jump(rows.of_window(context.window_manager).chosen) if result else None
        if jump is not None:
            _draw_jump(column, context, jump)


def _draw_ground(layout: UILayout, feet: LEAPWRIGHT_PG_feet) -> None:
    column = layout.column()
    column.use_property_split = True
    column.use_property_decorate = False
    column.prop(feet, "ground")
    if feet.ground == GROUND_HEIGHT:
        column.prop(feet, "ground_height")
    elif feet.ground == GROUND_MESH:
        column.prop(feet, "ground_mesh")


def _draw_jump(layout: UILayout, context: Context, jump: Jump) -> None:
    if jump.feet is None:
        return
    for said, foot, body in (
        ("The feet leave at {:.1f}, the body takes off at {:.1f}", jump.feet.off, jump.takeoff),
        ("The feet touch at {:.1f}, the body lands at {:.1f}", jump.feet.on, jump.landing),
    ):
        if foot is not None:
            paragraph(layout, context, said.format(foot.value, body.frame))


CLASSES = in_editors(_Feet, "feet", "setup")
