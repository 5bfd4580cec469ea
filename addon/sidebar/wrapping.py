"""Break a sentence into the lines a sidebar has room for: Blender's labels clip, they do not wrap."""

from collections.abc import Callable

import blf
from bpy.types import Context, UILayout

from ..blender_words import Icon

PANEL_MARGIN, ICON_WIDTH = 68.0, 24.0
"""Pixels at scale 1 that tabs, panel, box and scroll bar take, and an icon (seen in 4.3 and 5.2)."""
NARROWEST = 60.0


def lines(text: str, width: float, measure: Callable[[str], float]) -> list[str]:
    """Break text at spaces so that no line measures over width; a word too long for a line is cut.

    A no-break space (U+00A0) is not broken at.

    >>> lines("move the crouch key", 8, len)
    ['move the', 'crouch', 'key']
    """
    done: list[str] = []
    line = ""
    for word in text.split(" "):
        if not word:
            continue
        longer = f"{line} {word}" if line else word
        if measure(longer) <= width:
            line = longer
            continue
        if line:
            done.append(line)
        while measure(word) > width and len(word) > 1:
            fits = next(n for n in range(len(word) - 1, 0, -1) if n == 1 or measure(word[:n]) <= width)
            done.append(word[:fits])
            word = word[fits:]
        line = word
    return [*done, line] if line else done


def paragraph(layout: UILayout, context: Context, text: str, icon: Icon = "NONE", *, icon_value: int = 0) -> None:
    """Draw a sentence over as many labels as it needs; the icon, if any, stands before the first.

    icon_value: a picture of our own in place of one of Blender's.
    """
    system, font = context.preferences.system, context.preferences.ui_styles[0].widget
    blf.size(0, font.points * system.ui_scale)
    pictured = icon != "NONE" or icon_value > 0
    rest: Icon = "BLANK1" if pictured else "NONE"
    taken = PANEL_MARGIN + ICON_WIDTH if pictured else PANEL_MARGIN
    width = max(NARROWEST * system.ui_scale, context.region.width - taken * system.ui_scale)
    column = layout.column(align=True)
    column.scale_y = 0.75
    for number, line in enumerate(lines(text, width, lambda part: blf.dimensions(0, part)[0])):
        if number == 0 and icon_value:
            column.label(text=line, icon_value=icon_value, translate=False)
        else:
            column.label(text=line, icon=icon if number == 0 else rest, translate=False)
