"""The overlay in the 3D viewport: one draw handler for what lies in the scene, one for what is written over it."""

import math
from collections.abc import Sequence

import blf
import bpy
from bpy.types import Region, RegionView3D, SpaceView3D
from bpy_extras.view3d_utils import location_3d_to_region_2d
from mathutils import Matrix, Vector

from .. import preferences, view
from . import arcs
from .batches import Batches, batches_of, draw
from .geometry import Drawing, Label
from .words import label_text

VIEW_FONT = 0
LABEL_DISTANCE = 14.0
"""Pixels at scale 1 from a place to the label beside it."""

LABEL_LINE, LABEL_MIDDLE = 13.0, 0.35
"""Pixels at scale 1 that a line of a label takes, and how much of it lies from its foot to the middle of its letters.
"""

LABELED_FIRST = ("takeoff", "landing", "apex", "crouch", "absorbed")
"""Events in the order in which they are named: the first ones get the best places."""
BRACKETS = ("height", "push", "ratio")
MOST_LINES_UNDER = 2
"""Lines that a label may lie under its place; one that has no room there is left out (ours)."""
LEAST_UPRIGHT_SHARE = 0.2
"""Least share of a length upright that is seen, for heights to be written beside their brackets (ours): 12 degrees
from straight above they are a point.
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
    if (seen := context.region_data) is None:
        return
    scale = context.preferences.system.ui_scale * chosen.scale
    blf.size(VIEW_FONT, 12.0 * scale)
    blf.enable(VIEW_FONT, blf.SHADOW)
    blf.shadow(VIEW_FONT, 3, 0.0, 0.0, 0.0, 0.9)
    blf.shadow_offset(VIEW_FONT, 1, -1)
    taken: list[Box] = []
    upright = upright_seen(seen.view_matrix)
    shown = [
        (label, at)
        for label in labels_in_order(drawing.labels, upright)
        if (at := _on_screen(label, context.region, seen)) is not None
    ]
    is_across = upright < LEAST_UPRIGHT_SHARE and runs_across([at for _, at in shown])
    for label, at in shown:
        _write(label, label_text(label, context.scene.unit_settings), at, taken, chosen, scale, over=is_across)
    blf.disable(VIEW_FONT, blf.SHADOW)


def _on_screen(label: Label, region: Region, shown: RegionView3D) -> Vector | None:
    """Return where its place is in the region, pixels; None behind the eye."""
    return location_3d_to_region_2d(region, shown, Vector(label.place.tolist()))


def runs_across(places: Sequence[Vector]) -> bool:
    """Tell whether these places in a region lie beside each other rather than over each other."""
    across, up = ([place[axis] for place in places] for axis in (0, 1))
    return bool(places) and max(across) - min(across) > max(up) - min(up)


def labels_in_order(labels: Sequence[Label], upright: float) -> list[Label]:
    """Return the labels in the order they are written in; without those of heights that are not seen.

    upright: the share that is seen of what stands upright
    """
    shown = [label for label in labels if label.name not in BRACKETS or upright >= LEAST_UPRIGHT_SHARE]
    return sorted(shown, key=lambda label: (*LABELED_FIRST, *BRACKETS).index(label.name))


def upright_seen(turn: Matrix) -> float:
    """Return the share that is seen of what stands upright, 1 from the side and 0 from above; turn: into the view."""
    return math.hypot(turn[0][2], turn[1][2])


def _write(
    label: Label, text: str, at: Vector, taken: list[Box], chosen: preferences.Chosen, scale: float, *, over: bool
) -> None:
    """Write a text beside its place, where no other is yet."""
    width, height = blf.dimensions(VIEW_FONT, text)[0], LABEL_LINE * scale
    place = label_place(label, at, width, height, taken, scale, over=over or label.name == "apex")
    if place is None:
        return
    x, y = place
    taken.append((x, y, x + width, y + height))
    blf.color(VIEW_FONT, *chosen.looks[label.kind].color)
    blf.position(VIEW_FONT, x, y, 0.0)
    blf.draw(VIEW_FONT, text)


def label_place(
    label: Label, at: Vector, width: float, height: float, taken: list[Box], scale: float, *, over: bool
) -> tuple[float, float] | None:
    """Return where a label of this size begins, pixels: right of its place or over it, left of a bracket.

    Where others are there, the next line away from its place that is free: under it, or further over it. None where
    they take that room too.
    """
    away, line = LABEL_DISTANCE * scale, height + 4.0 * scale
    is_beside = label.name in BRACKETS
    x = at[0] - away - width if is_beside else at[0] + away * 0.8
    y = at[1] - LABEL_MIDDLE * height
    if over:
        x, y, line = at[0] - 0.5 * width, at[1] + away, -line
    for _ in range(MOST_LINES_UNDER + 1):
        if not any(x < right and x + width > left and y < top and y + height > low for left, low, right, top in taken):
            return x, y
        y -= line
    return None


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
