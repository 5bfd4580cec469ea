"""What a retiming is told: kept with the window, not in the file, so that an undo leaves the choice as it is.

The same choices are the operator's own properties, where its last run can still be adjusted.
"""

import bpy
from bpy.props import BoolProperty, EnumProperty, FloatProperty, PointerProperty
from bpy.types import PropertyGroup, UILayout, WindowManager

from ...analysis.retiming.aim import KEEP_TIMES, Aim
from ..saved import Saved
from .retiming import Extent

KEEP_ITEMS = [
    ("flight", "Flight", "Keep the flight and fit the push to it"),
    ("push", "Push", "Keep the push and fit the flight to it"),
    ("nothing", "Nothing", "Bring push and flight to the same air pace"),
    (KEEP_TIMES, "Times", "Move no key: show which height and crouch the times fit"),
]
HOLD = [
    ("takeoff", "Takeoff", "Leave the takeoff on its frame; crouch and landing move"),
    ("crouch", "Crouch", "Leave the crouch on its frame; takeoff and landing move"),
    ("landing", "Landing", "Leave the landing on its frame; crouch and takeoff move"),
]
LAY = [
    ("none", "As They Are", "Change no values"),
    ("rounded", "Follow the Path", "Change the values of keys that whole frames move off the drawn path"),
    ("all", "On the Parabola", "Put all keys of the track in the air on the fitted parabola"),
]


class Choices:
    """The properties that panel and operator share; they are annotations, as Blender wants them."""

    keep: EnumProperty(name="Keep", description="Choose what stays as it is", items=KEEP_ITEMS, options=set())
    pace: FloatProperty(
        name="Air Pace",
        description="Set how fast the flight runs against real time",
        default=1.0,
        min=0.1,
        max=10.0,
        soft_min=0.5,
        soft_max=2.0,
        step=5,
        precision=2,
        options=set(),
    )
    hold: EnumProperty(name="Hold", description="Choose which event stays on its frame", items=HOLD, options=set())
    ripple: BoolProperty(
        name="Move What Follows",
        description="Move all later keys along; otherwise they stay and the settling takes up the difference",
        options=set(),
    )
    whole: BoolProperty(
        name="Whole Frames",
        description="Put keys on whole frames, or on the step of the shot, where those hold them all",
        default=True,
        options=set(),
    )
    lay: EnumProperty(
        name="Keys in the Air",
        description="Choose which keys of the track between takeoff and landing change their values",
        items=LAY,
        default="rounded",
        options=set(),
    )
    shape_keys: BoolProperty(
        name="Shape Keys", description="Move the shape keys of the character's meshes too", options=set()
    )
    markers: BoolProperty(
        name="Markers", description="Move the markers of the scene and of the character's actions too", options=set()
    )


SHORT = {"ripple": "Later Keys"}
"""Shorter names for where two stand side by side and the full one would be cut off."""
CHOICES = tuple(Choices.__annotations__)


class LEAPWRIGHT_PG_retime(Choices, PropertyGroup):
    """The choices of the next retiming."""


CLASSES = (LEAPWRIGHT_PG_retime,)


def aim_of(chosen: Choices) -> Aim:
    """Return the aim that is chosen; the pace counts only where nothing is kept. Raises RetimeError for the times."""
    pace = chosen.pace if chosen.keep == "nothing" else 1.0
    return Aim(
        keep=chosen.keep, pace=pace, hold=chosen.hold, ripple=chosen.ripple, whole=chosen.whole, lay=chosen.lay
    )


def extent_of(chosen: Choices) -> Extent:
    """Tell what moves along."""
    return Extent(shape_keys=chosen.shape_keys, markers=chosen.markers)


def draw_choices(layout: UILayout, chosen: Choices) -> None:
    """Draw what can be chosen; the pace where it counts, the rest where keys move."""
    column = layout.column()
    column.use_property_split = True
    column.use_property_decorate = False
    column.prop(chosen, "keep")
    if chosen.keep == KEEP_TIMES:
        return
    if chosen.keep == "nothing":
        column.prop(chosen, "pace")
    column.prop(chosen, "hold")
    column.prop(chosen, "lay")
    for names in (("ripple", "whole"), ("shape_keys", "markers")):
        row = layout.row()
        for name in names:
            row.prop(chosen, name, text=SHORT.get(name))


def of_window(manager: WindowManager) -> LEAPWRIGHT_PG_retime:
    """Return the choices of all windows."""
    return manager.leapwright_retime


SAVED = Saved(bpy.types.WindowManager, "leapwright_retime", CLASSES, lambda: PointerProperty(type=LEAPWRIGHT_PG_retime))
register, unregister = SAVED.register, SAVED.unregister
