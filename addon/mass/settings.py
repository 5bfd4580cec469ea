"""Which bones are which segments of a body, and what they weigh: saved with the armature."""


import bpy
from bpy.props import (
    CollectionProperty,
    EnumProperty,
    FloatProperty,
    FloatVectorProperty,
    IntProperty,
    PointerProperty,
    StringProperty,
)
from bpy.types import Armature, PropertyGroup

from ...analysis.mass.body import kind_and_side
from ...analysis.mass.segments import OWN_MASS, SEGMENT_TABLES, SEGMENTS
from ..saved import Saved


def label(segment: str) -> str:
    """Write a segment's name as a menu shows it: "Upper Arm, Left"."""
    return ", ".join(part.replace("_", " ").title() for part in kind_and_side(segment) if part)


SEGMENT = [
    (OWN_MASS, "Own Mass", "Type the mass of this bone", 0),
    *((name, label(name), f"Count this bone to the {name.replace('_', ' ')}", n) for n, name in enumerate(SEGMENTS, 1)),
]
TABLE_ITEMS = [
    (name, name.title(), f"Weigh segments by {table.label}: {table.source}", n)
    for n, (name, table) in enumerate(SEGMENT_TABLES.items())
]


class LEAPWRIGHT_PG_body_bone(PropertyGroup):
    """One bone's place in the body."""

    bone: StringProperty(name="Bone", description="Choose a bone of the body", options=set())
    segment: EnumProperty(
        name="Segment", description="Choose what the bone is", items=SEGMENT, default=OWN_MASS, options=set()
    )
    mass: FloatProperty(
        name="Mass",
        description="Set the mass: per cent of the body where other bones are segments, else in any unit",
        min=0.0,
        precision=2,
        options=set(),
    )
    along: FloatProperty(
        name="Center",
        description="Set where the mass lies, from the head of the bone (0) to its tail (1)",
        soft_min=0.0,
        soft_max=1.0,
        default=0.5,
        options=set(),
    )
    aside: FloatVectorProperty(
        name="Aside",
        description="Set how far the mass lies off the bone along its X and Z axes, in lengths of the bone",
        size=2,
        soft_min=-1.0,
        soft_max=1.0,
        options=set(),
    )


class LEAPWRIGHT_PG_body(PropertyGroup):
    """The body of one armature; without bones in the list, those named like a whole human body are taken."""

    table: EnumProperty(
        name="Masses", description="Choose the table of segment masses",
        items=TABLE_ITEMS, default="female", options=set(),
    )
    bones: CollectionProperty(type=LEAPWRIGHT_PG_body_bone)
    chosen: IntProperty(name="Bone", description="Choose the row to change", min=0, options=set())


CLASSES = (LEAPWRIGHT_PG_body_bone, LEAPWRIGHT_PG_body)


def of_armature(data: Armature) -> LEAPWRIGHT_PG_body | None:
    """Return the body of an armature; None while the add-on is off."""
    return getattr(data, "leapwright_body", None)


SAVED = Saved(bpy.types.Armature, "leapwright_body", CLASSES, lambda: PointerProperty(type=LEAPWRIGHT_PG_body))
register, unregister, readable = SAVED.register, SAVED.unregister, SAVED.readable
