"""Rows of figures: a name that explains itself where the pointer rests, and what is measured beside what is asked."""

from collections.abc import Iterable

from bpy.types import Context, UILayout

from .figures import Figure
from .meanings import MEANINGS
from .wrapping import needed_shares

NAMES_SHARE, LONG_NAMES_SHARE = 0.46, 0.54
"""Share of the width that the names take, and that those of lengths take."""


STACKED = 1.3
"""Sum of the shares that columns need past which names stand over their figures; up to it margins give way (seen in
5.2)."""

Row = tuple[str, str, str]
Shares = tuple[float, float, float]


def draw_table(
    layout: UILayout, context: Context, heads: Row | None, shown: Iterable[Figure], *, names: float = NAMES_SHARE
) -> None:
    """Draw rows of three texts under their heads, if any; names: share of the width that the first ones take.

    In a narrow sidebar each column takes what it needs, and figures stand without their errors; in one that is still
    too narrow under their names.
    """
    figures = tuple(shown)
    above = [heads] if heads else []
    rows = [(one.name, one.measured, one.expected) for one in figures]
    needed = needed_shares(context, zip(*above, *rows, strict=True))
    if sum(needed) > 1.0:
        rows = [(one.name, one.brief or one.measured, one.expected) for one in figures]
        needed = needed_shares(context, zip(*above, *rows, strict=True))
    usual = (names, 0.5 * (1.0 - names), 0.5 * (1.0 - names))
    fits = all(own <= given for own, given in zip(needed, usual, strict=True))
    first, second, third = usual if fits else needed
    shares = (first, second, third) if sum(needed) <= STACKED else None
    column = layout.column(align=True)
    column.scale_y = 0.8
    for row in above:
        _draw_row(column, row, shares)
    for figure, row in zip(figures, rows, strict=True):
        _draw_row(column, row, shares, of=figure.label)


def _draw_row(column: UILayout, texts: Row, shares: Shares | None, *, of: str = "") -> None:
    """Draw a name, if any, and two texts: beside it in these shares of the width, or under it."""
    split = column if shares is None else column.split(factor=shares[0] / sum(shares), align=True)
    if texts[0] or shares is not None:
        draw_name(split, texts[0], of=of)
    beside = split.split(factor=0.5 if shares is None else shares[1] / (shares[1] + shares[2]), align=True)
    for text in texts[1:]:
        cell = beside.row()
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
