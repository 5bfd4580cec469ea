"""The overlay in the 3D viewport: one draw handler for what lies in the scene, one for what is written over it."""

import blf
import bpy
from bpy.types import SpaceView3D
from bpy_extras.view3d_utils import location_3d_to_region_2d
from mathutils import Vector

from .. import preferences, view
from . import arcs
from .batches import Batches, batches_of, draw
from .geometry import Drawing, Label
from .words import said

FONT = 0
AWAY = 14.0
"""Pixels at scale 1 from a place to the label beside it."""

LINE, MIDDLE = 13.0, 0.35
"""Pixels at scale 1 that a line of a label takes, and how much of it lies from its foot to the middle of its letters.
"""

Box = tuple[float, float, float, float]
"""Left, low, right, top, pixels."""

_handlers: list[object] = []
_handed: list[tuple[Drawing, Batches]] = []
"""The drawing that the graphics card holds, and its batches."""


def _shown() -> Drawing | None:
    context = bpy.context
    space = context.space_data
    if not isinstance(space, SpaceView3D) or not space.overlay.show_overlays:
        return None
    if not view.of_window(context.window_manager).show_overlay:
        return None
    return arcs.drawing_in(context.scene)


def _draw_lines() -> None:
    drawing = _shown()
    if drawing is None:
        return
    if not _handed or _handed[0][0] is not drawing:
        _handed[:] = [(drawing, batches_of(drawing))]
    context, chosen = bpy.context, preferences.of_person(bpy.context)
    region, shown = context.region, context.region_data
    if shown is None:
        return
    draw(
        _handed[0][1],
        chosen.looks,
        view=shown.perspective_matrix,
        size=(region.width, region.height),
        scale=context.preferences.system.ui_scale * chosen.scale,
    )


def _draw_labels() -> None:
    drawing = _shown()
    if drawing is None or not drawing.labels:
        return
    context, chosen = bpy.context, preferences.of_person(bpy.context)
    if context.region_data is None:
        return
    scale = context.preferences.system.ui_scale * chosen.scale
    blf.size(FONT, 12.0 * scale)
    blf.enable(FONT, blf.SHADOW)
    blf.shadow(FONT, 3, 0.0, 0.0, 0.0, 0.9)
    blf.shadow_offset(FONT, 1, -1)
    taken: list[Box] = []
    for label in drawing.labels:
        at = location_3d_to_region_2d(context.region, context.region_data, Vector(label.place.tolist()))
        if at is not None:
            _write(label, said(label, context.scene.unit_settings), at, taken, chosen, scale)
    blf.disable(FONT, blf.SHADOW)


def _write(label: Label, text: str, at: Vector, taken: list[Box], chosen: preferences.Chosen, scale: float) -> None:
    """Write a text beside its place, where no other is yet."""
    width, height = blf.dimensions(FONT, text)[0], LINE * scale
    x, y = label_place(label, at, width, height, taken, scale)
    taken.append((x, y, x + width, y + height))
    blf.color(FONT, *chosen.looks[label.kind].color)
    blf.position(FONT, x, y, 0.0)
    blf.draw(FONT, text)


def label_place(
    label: Label, at: Vector, width: float, height: float, taken: list[Box], scale: float
) -> tuple[float, float]:
    """Return where a label of this size begins, pixels: right of its place, left of a bracket, over an apex."""
    away = AWAY * scale
    is_beside = label.name in ("push", "height", "ratio")
    x = at[0] - away - width if is_beside else at[0] + away * 0.8
    y = at[1] - MIDDLE * height
    if label.name == "apex":
        x, y = at[0] - 0.5 * width, at[1] + away
    while any(x < right and x + width > left and y < top and y + height > low for left, low, right, top in taken):
        y -= height + 4.0 * scale
    return x, y


def register() -> None:
    """Draw in every 3D viewport from now on."""
    for call, kind in ((_draw_lines, "POST_VIEW"), (_draw_labels, "POST_PIXEL")):
        _handlers.append(SpaceView3D.draw_handler_add(call, (), "WINDOW", kind))


def unregister() -> None:
    """Draw no more, and hold nothing."""
    for handler in _handlers:
        SpaceView3D.draw_handler_remove(handler, "WINDOW")
    _handlers.clear()
    _handed.clear()
    arcs.forget()
