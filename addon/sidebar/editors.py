"""The editors that the panels are in, and how a panel is made for each of them."""

from typing import cast

from bpy.types import Context, EnumProperty, Panel, UILayout

from .. import view
from ..bases import PanelPart

PANEL_EDITORS = {"VIEW_3D": "view3d", "DOPESHEET_EDITOR": "dopesheet", "GRAPH_EDITOR": "graph"}
"""Kinds of editors, and what the panels in each end on."""


class Room(PanelPart):
    """A panel in the sidebar of an editor; the Timeline has room for the verdict alone."""

    bl_region_type = "UI"
    bl_category = "Animation"

    @classmethod
    def poll(cls, context: Context) -> bool:
        """Leave the small editor to the first panel."""
        return not is_timeline(context)


class ChosenPart(Room):
    """A part of a panel that is shown while it is chosen there.

    part_of, part: the property of the view that chooses, and the value that chooses it
    """

    bl_options = {"HIDE_HEADER"}
    part_of = ""
    part = ""

    @classmethod
    def poll(cls, context: Context) -> bool:
        """Show it where it is chosen."""
        return super().poll(context) and getattr(view.of_window(), cls.part_of) == cls.part


def draw_parts(layout: UILayout, name: str, *, columns: int) -> None:
    """Draw the choice between the parts of a panel, so many in a row."""
    switches = view.of_window()
    rows = layout.column(align=True)
    for number, item in enumerate(cast(EnumProperty, switches.bl_rna.properties[name]).enum_items):
        if number % columns == 0:
            row = rows.row(align=True)
        row.prop_enum(switches, name, item.identifier)


def is_timeline(context: Context) -> bool:
    """Say whether the editor is the Timeline: a Dope Sheet that is a strip of a few rows."""
    return getattr(getattr(context, "space_data", None), "mode", "") == "TIMELINE"


def settings_column(layout: UILayout) -> UILayout:
    """Return a column of settings: names left, values right."""
    column = layout.column()
    column.use_property_split = True
    column.use_property_decorate = False
    return column


def in_editors(base: type[Room], name: str, parent: str = "") -> tuple[type[Panel], ...]:
    """Make a panel for every editor: name and parent as in LEAPWRIGHT_PT_name_view3d; no parent: a panel of its own."""
    made = []
    for space, tag in PANEL_EDITORS.items():
        identifier = f"LEAPWRIGHT_PT_{name}_{tag}"
        known = {"bl_space_type": space, "bl_idname": identifier, "__doc__": base.__doc__}
        if parent:
            known["bl_parent_id"] = f"LEAPWRIGHT_PT_{parent}_{tag}"
        made.append(type(identifier, (base, Panel), known))
    return tuple(made)
