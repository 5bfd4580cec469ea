"""Rows of figures: a name that explains itself where the pointer rests, and what is measured beside what is asked."""

from collections.abc import Iterable

from bpy.types import UILayout

from .figures import Figure
from .meanings import MEANINGS

NAMES = 0.5
"""Share of the width that the names take."""


def draw_table(layout: UILayout, heads: tuple[str, str, str] | None, shown: Iterable[Figure]) -> None:
    """Draw rows of three texts under their heads, if any."""
    column = layout.column(align=True)
    column.scale_y = 0.8
    if heads:
        _draw_row(column, heads)
    for figure in shown:
        _draw_row(column, (figure.name, figure.measured, figure.expected), of=figure.label)


def _draw_row(column: UILayout, texts: tuple[str, str, str], *, of: str = "") -> None:
    split = column.split(factor=NAMES)
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
