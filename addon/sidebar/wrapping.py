"""Break a sentence into the lines a sidebar has room for: Blender's labels clip, they do not wrap."""

from collections.abc import Callable, Iterable, Sequence

import blf
from bpy.types import Context, UILayout

from ..blender_words import Icon

PANEL_MARGIN, ICON_WIDTH = 68.0, 24.0
"""Pixels at scale 1 that tabs, panel, box and scroll bar take, and an icon (seen in 4.3 and 5.2)."""
BESIDE_TEXT = 26.0
"""Pixels at scale 1 that a button takes around its text, and an icon's button beside it (seen in 4.3 and 5.2)."""
TEXT_STRETCH, TEXT_MARGIN = 1.2, 4.0
"""What a label needs to be uncut: so many times the width of its text, and so many pixels at scale 1 (seen in 5.2)."""
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


def button_fits(context: Context, text: str, *, share: float) -> bool:
    """Say whether a button stands uncut beside an icon's, in the share of a box's width that both have."""
    scale, measure = _scale(context), _measure(context)
    return measure(text) + BESIDE_TEXT * scale <= share * _width(context, PANEL_MARGIN)


def label_fits(context: Context, text: str, *, share: float = 1.0, beside: float = 0.0) -> bool:
    """Say whether a label with an icon stands uncut in a share of a box's width, beside so many pixels at scale 1."""
    scale, measure = _scale(context), _measure(context)
    needed = TEXT_STRETCH * measure(text) + (TEXT_MARGIN + ICON_WIDTH + beside) * scale
    return needed <= share * _width(context, PANEL_MARGIN)


def needed_shares(context: Context, columns: Iterable[Sequence[str]]) -> list[float]:
    """Return the share of a box's width that each column of texts needs to stand uncut; more than 1 in all: none has
    room for them.
    """
    scale, measure = _scale(context), _measure(context)
    width = max(_width(context, PANEL_MARGIN), 1.0)
    return [(TEXT_STRETCH * max(map(measure, texts)) + TEXT_MARGIN * scale) / width for texts in columns]


def paragraph(layout: UILayout, context: Context, text: str, icon: Icon = "NONE", *, icon_value: int = 0) -> None:
    """Draw a sentence over as many labels as it needs; the icon, if any, stands before the first.

    icon_value: a picture of our own in place of one of Blender's.
    """
    pictured = icon != "NONE" or icon_value > 0
    rest: Icon = "BLANK1" if pictured else "NONE"
    taken = PANEL_MARGIN + ICON_WIDTH if pictured else PANEL_MARGIN
    width = max(NARROWEST * _scale(context), _width(context, taken))
    column = layout.column(align=True)
    column.scale_y = 0.75
    for number, line in enumerate(lines(text, width, _measure(context))):
        if number == 0 and icon_value:
            column.label(text=line, icon_value=icon_value, translate=False)
        else:
            column.label(text=line, icon=icon if number == 0 else rest, translate=False)


def _scale(context: Context) -> float:
    return context.preferences.system.ui_scale


def _width(context: Context, taken: float) -> float:
    """Return the region's width less what is taken at scale 1, in pixels."""
    return context.region.width - taken * _scale(context)


def _measure(context: Context) -> Callable[[str], float]:
    """Return what measures a text as the sidebar writes it, in pixels."""
    blf.size(0, context.preferences.ui_styles[0].widget.points * _scale(context))
    return lambda text: blf.dimensions(0, text)[0]
