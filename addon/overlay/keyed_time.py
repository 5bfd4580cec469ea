"""The events of the chosen jump over the keys: lines and names in the Timeline, the Dope Sheet and the Graph Editor.

They are drawn, so nothing is added to the file, and nothing has to be taken away again.
"""

import blf
import bpy
import gpu
from bpy.types import SpaceDopeSheetEditor, SpaceGraphEditor
from gpu.types import GPUBatch
from gpu_extras.batch import batch_for_shader

from ...analysis.jump import Jump
from ...analysis.track import EVENTS
from .. import host, preferences, view
from ..sidebar.jumps import chosen as chosen_jump
from . import shader
from .geometry import Kind
from .style import EDGE_COLOR

FAR = 1e6
"""How far up and down a line is drawn: past what an editor shows."""
KEYED_FONT, POINTS, GAP = 0, 11.0, 4.0
"""Font, its size and the room about a name, pixels at scale 1."""
NAMES_FLOOR, LOW_NAMES_FLOOR, LOW_EDITOR = 20.0, 9.0, 60.0
"""Pixels at scale 1 from the lower edge to the names: over the scroll bar, and in an editor lower than
LOW_EDITOR, which has no room over it: there names are written only where Blender takes the bar away.
"""

_handlers: list[tuple[type[SpaceDopeSheetEditor] | type[SpaceGraphEditor], object]] = []
_handed: list[tuple[Jump, GPUBatch]] = []

Named = tuple[float, str]


def events_of(jump: Jump) -> list[Named]:
    """Return the frame and the name of each event that a jump has, in order."""
    found = ((name, getattr(jump, name)) for name in EVENTS)
    return [(event.frame, name.capitalize()) for name, event in found if event is not None]


def names_that_fit(named: list[tuple[float, str, float]], gap: float) -> list[tuple[float, str]]:
    """Return where names begin, and the names, so that none runs into another: one that would is left out.

    named: where each event lies, its name, and how wide that is, in pixels. Takeoff, apex and landing have the
    first choice.
    """
    placed: list[tuple[float, float, str]] = []
    for x, name, width in sorted(named, key=lambda one: one[1] in ("Crouch", "Absorbed")):
        left, right = x - 0.5 * width, x + 0.5 * width
        if all(right + gap <= other or left >= end + gap for other, end, _ in placed):
            placed.append((left, right, name))
    return [(left, text) for left, _, text in sorted(placed)]


def _shown() -> Jump | None:
    context = bpy.context
    if not view.of_window(context.window_manager).show_events:
        return None
    return chosen_jump(context)


def _draw_lines() -> None:
    jump = _shown()
    if jump is None:
        return
    strokes = shader.strokes()
    if not _handed or _handed[0][0] is not jump:
        ends = [(frame, y, 0.0) for frame, _ in events_of(jump) for y in (-FAR, FAR)]
        _handed[:] = [(jump, batch_for_shader(strokes, "LINES", {"pos": ends}))]
    context = bpy.context
    chosen, scale = preferences.of_person(context), context.preferences.system.ui_scale
    color = chosen.looks[Kind.EVENT].color
    gpu.state.blend_set("ALPHA")
    strokes.bind()
    strokes.uniform_float("viewportSize", (context.region.width, context.region.height))
    for width, shade in ((3.0, (*EDGE_COLOR[:3], 0.35)), (1.0, (*color[:3], 0.75))):
        strokes.uniform_float("lineWidth", width * scale * chosen.scale)
        strokes.uniform_float("color", shade)
        _handed[0][1].draw(strokes)
    gpu.state.blend_set("NONE")


def _draw_names() -> None:
    jump = _shown()
    if jump is None:
        return
    context = bpy.context
    chosen = preferences.of_person(context)
    scale = context.preferences.system.ui_scale * chosen.scale
    is_low = context.region.height < LOW_EDITOR * scale
    if is_low and not host.takes_scroll_bars_away():
        return
    blf.size(KEYED_FONT, POINTS * scale)
    blf.enable(KEYED_FONT, blf.SHADOW)
    blf.shadow(KEYED_FONT, 3, 0.0, 0.0, 0.0, 0.9)
    blf.shadow_offset(KEYED_FONT, 1, -1)
    blf.color(KEYED_FONT, *chosen.looks[Kind.EVENT].color)
    to_region = context.region.view2d.view_to_region
    named = [
        (float(to_region(frame, 0.0, clip=False)[0]), name, blf.dimensions(KEYED_FONT, name)[0])
        for frame, name in events_of(jump)
    ]
    floor = (LOW_NAMES_FLOOR if is_low else NAMES_FLOOR) * scale
    for x, text in names_that_fit(named, GAP * scale):
        blf.position(KEYED_FONT, x, floor, 0.0)
        blf.draw(KEYED_FONT, text)
    blf.disable(KEYED_FONT, blf.SHADOW)


def register() -> None:
    """Draw in every such editor from now on."""
    for space in (SpaceDopeSheetEditor, SpaceGraphEditor):
        for call, kind in ((_draw_lines, "POST_VIEW"), (_draw_names, "POST_PIXEL")):
            _handlers.append((space, space.draw_handler_add(call, (), "WINDOW", kind)))


def unregister() -> None:
    """Draw no more, and hold nothing."""
    for space, handler in _handlers:
        space.draw_handler_remove(handler, "WINDOW")
    _handlers.clear()
    _handed.clear()
