"""The rows of the list of jumps: Blender lists need a collection of their own, so there is one of numbers.

It sits in the window manager, which is neither saved nor undone; what a row shows comes from `results`.
"""

import bpy
from bpy.props import CollectionProperty, IntProperty, PointerProperty
from bpy.types import PropertyGroup, WindowManager

from ..saved import Saved


class LEAPWRIGHT_PG_row(PropertyGroup):
    """One jump; its place in the list is all it is."""


class LEAPWRIGHT_PG_rows(PropertyGroup):
    """The rows, which one is chosen, and which of its findings was gone to last."""

    rows: CollectionProperty(type=LEAPWRIGHT_PG_row)
    chosen: IntProperty(name="Jump", description="Choose the jump whose figures are shown", min=0)
    finding: IntProperty(name="Finding", description="Place of the finding gone to last, from 0", default=-1)


CLASSES = (LEAPWRIGHT_PG_row, LEAPWRIGHT_PG_rows)


def of_window(manager: WindowManager) -> LEAPWRIGHT_PG_rows:
    """Return the rows of all windows."""
    return manager.leapwright


def fit_rows(manager: WindowManager, count: int, *, chosen: int = 0) -> None:
    """Make sure there are rows for this many jumps, and choose one, from 0; the last where there are fewer."""
    listed = of_window(manager)
    while len(listed.rows) < count:
        listed.rows.add()
    if listed.chosen != (within := max(min(chosen, count - 1), 0)):
        listed.chosen, listed.finding = within, -1


SAVED = Saved(bpy.types.WindowManager, "leapwright", CLASSES, lambda: PointerProperty(type=LEAPWRIGHT_PG_rows))
register, unregister = SAVED.register, SAVED.unregister
