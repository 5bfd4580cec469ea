"""Rows of figures: a name that explains itself where the pointer rests, and what is measured beside what is asked."""

from collections.abc import Iterable

from bpy.types import UILayout

from .figures import Figure
from .meanings import MEANINGS

NAMES_SHARE, LONG_NAMES_SHARE = 0.46, 0.54
"""Share of the width that the names take, and that those of lengths take."""


def draw_table(
    layout: UILayout, heads: tuple[str, str, str] | None, shown: Iterable[Figure], *, names: float = NAMES_SHARE
) -> None:
    """Draw rows of three texts under their heads, if any; names: share of the width that the first ones take."""
    column = layout.column(align=True)
    column.scale_y = 0.8
    if heads:
        _draw_row(column, heads, names=names)
    for figure in shown:
        _draw_row(column, (figure.name, figure.measured, figure.expected), of=figure.label, names=names)


def _draw_row(column: UILayout, texts: tuple[str, str, str], *, of: str = "", names: float) -> None:
    split = column.split(factor=names)
    draw_name(split, texts[0], of=of)
    for text in texts[1:]:
        cell = split.row()
        cell.alignment = "RIGHT"
        cell.label(text=text)


def draw_name(layout: UILayout, name: str, *, of: str) -> None:
    """Draw a figure's name, which tells what it means where that is known; of: the figure that it names."""
    if of not in MEANINGS:
        layout.label(text=name)
        return
    row = layout.row()
    row.alignment = "LEFT"
    row.operator("leapwright.explain_figure", text=name, emboss=False).figure = of
