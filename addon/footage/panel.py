"""The sub-panel "Footage": which clip and marker are followed, and a length that is known in the picture."""

from bpy.types import Context, Panel

from ..settings import shown_in
from ..sidebar.panel import EDITORS
from .settings import BETWEEN, of_scene


class _Footage:
    bl_region_type = "UI"
    bl_category = "Animation"
    bl_label = "Footage"

    @classmethod
    def poll(cls, context: Context) -> bool:
        return shown_in(context).follow == "footage"

    def draw(self, context: Context) -> None:
        said, column = of_scene(context.scene), self.layout.column()
        column.use_property_split = True
        column.use_property_decorate = False
        column.prop(said, "clip")
        if said.clip is None:
            return
        column.prop_search(said, "marker", said.clip.tracking, "tracks")
        column.prop(said, "known")
        if said.known == BETWEEN:
            column.prop_search(said, "first", said.clip.tracking, "tracks")
            column.prop_search(said, "second", said.clip.tracking, "tracks")
        else:
            column.prop(said, "pixels")
        column.prop(said, "length")
        column.prop(said, "rate")


CLASSES = tuple(
    type(
        f"LEAPWRIGHT_PT_footage_{tag}",
        (_Footage, Panel),
        {
            "bl_space_type": space,
            "bl_idname": f"LEAPWRIGHT_PT_footage_{tag}",
            "bl_parent_id": f"LEAPWRIGHT_PT_audit_{tag}",
            "__doc__": _Footage.__doc__,
        },
    )
    for space, tag in EDITORS.items()
)
