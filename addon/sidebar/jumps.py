"""The list of jumps: number, frames in the air, height, and what is gravest; two buttons where it may be none."""

from bpy.types import Context, PropertyGroup, UILayout, UIList

from ...analysis.certainty import Certainty
from ...analysis.jump import Jump
from .. import results
from ..basis import target_in
from . import figures, rows
from .icons import icon_of
from .verdict import icon_name, verdict_of

JUMP_ROWS = 5


class LEAPWRIGHT_UL_jumps(UIList):
    """The jumps of the latest audit; the picture is that of the verdict."""

    bl_idname = "LEAPWRIGHT_UL_jumps"

    def draw_item(
        self,
        context: Context,
        layout: UILayout,
        _data: PropertyGroup | None,
        _item: PropertyGroup | None,
        _icon: int | None,
        _active_data: PropertyGroup,
        _active_property: str | None,
        index: int | None,
        _flt_flag: int | None = None,
    ) -> None:
        result = results.latest(context.scene)
        jump = result.jump(index) if result and index is not None else None
        if index is None or result is None or jump is None:
            return
        row, judged = layout.row(), verdict_of(jump, result.basis.settings.limits)
        row.label(text=f"{index + 1}", icon_value=icon_of(icon_name(jump, judged)), translate=False)
        row.label(text=figures.span(jump), translate=False)
        right = row.row()
        right.alignment = "RIGHT"
        sure = "" if jump.certainty is Certainty.SURE else f"{jump.certainty.value}, "
        right.label(text=f"{sure}{figures.height(jump, context.scene.unit_settings)}", translate=False)

    def filter_items(  # type: ignore[override]  # Blender takes lists, which the stubs call arrays
        self, context: Context, data: PropertyGroup, property_name: str
    ) -> tuple[list[int], list[int]]:
        """Hide the rows past the last jump of this scene."""
        result = results.latest(context.scene)
        count = len(result.audit.jumps) if result else 0
        return [self.bitflag_filter_item * (n < count) for n in range(len(getattr(data, property_name)))], []


def chosen(context: Context) -> Jump | None:
    """Return the jump that is shown; None where what was audited is gone."""
    result = results.latest(context.scene)
    if result is None or target_in(context.scene, result.basis) is None:
        return None
    return result.jump(rows.of_window(context.window_manager).chosen)


def draw_jumps(layout: UILayout, context: Context, result: results.Result) -> None:
    """Draw the list where there is more than one to choose from."""
    count = len(result.audit.jumps)
    if count < 2:
        return
    listed, name = rows.of_window(context.window_manager), LEAPWRIGHT_UL_jumps.bl_idname
    shown = min(count, JUMP_ROWS)
    layout.template_list(name, "", listed, "rows", listed, "chosen", rows=shown, maxrows=shown)


CLASSES = (LEAPWRIGHT_UL_jumps,)
