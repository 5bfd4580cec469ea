"""The sub-panel "Feet": which bones touch the ground, where that is, and what the chosen jump's feet do."""

from bpy.types import Context, Panel, UILayout

from ...analysis.errors import LeapwrightError
from ...analysis.jump import Jump
from .. import results
from ..sidebar import rows
from ..sidebar.panel import EDITORS
from ..sidebar.wrapping import paragraph
from ..target import followed_rig
from .settings import HEIGHT, MESH, OFF, LEAPWRIGHT_PG_feet, mode_of, of_rig


class _Feet:
    bl_region_type = "UI"
    bl_category = "Animation"
    bl_label = "Feet"
    bl_options = {"DEFAULT_CLOSED"}

    @classmethod
    def poll(cls, context: Context) -> bool:
        try:
            return followed_rig(context, has="feet") is not None
        except LeapwrightError:
            return False

    def draw(self, context: Context) -> None:
        rig = followed_rig(context, has="feet")
        feet, column = of_rig(rig), self.layout.column()
        column.row(align=True).prop(feet, "reading", expand=True)
        column.active = mode_of(rig) != OFF
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
    if feet.ground == HEIGHT:
        column.prop(feet, "ground_height")
    elif feet.ground == MESH:
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


CLASSES = tuple(
    type(
        f"LEAPWRIGHT_PT_feet_{tag}",
        (_Feet, Panel),
        {
            "bl_space_type": space,
            "bl_idname": f"LEAPWRIGHT_PT_feet_{tag}",
            "bl_parent_id": f"LEAPWRIGHT_PT_audit_{tag}",
            "__doc__": _Feet.__doc__,
        },
    )
    for space, tag in EDITORS.items()
)
