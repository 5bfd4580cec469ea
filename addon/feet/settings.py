"""Which bones of a character touch the ground, and where that is: saved with the armature's object."""


import bpy
from bpy.props import (
    BoolProperty,
    CollectionProperty,
    EnumProperty,
    FloatProperty,
    PointerProperty,
    StringProperty,
)
from bpy.types import Object, PropertyGroup

from ..saved import Saved

STANDING, HEIGHT, MESH = "standing", "height", "mesh"
GROUND = [
    (STANDING, "Standing Pose", "Take for ground where the feet stand", 0),
    (HEIGHT, "Height", "Type the height of level ground", 1),
    (MESH, "Mesh", "Choose the mesh the feet land on", 2),
]


class LEAPWRIGHT_PG_foot(PropertyGroup):
    """One bone that touches the ground."""

    bone: StringProperty(name="Bone", description="Choose a bone that touches the ground", options=set())


class LEAPWRIGHT_PG_feet(PropertyGroup):
    """The feet of one armature; without bones in the list, those with a foot's name are taken."""

    use_feet: BoolProperty(name="Use Feet", description="Read when the feet are on the ground, too", options=set())
    bones: CollectionProperty(type=LEAPWRIGHT_PG_foot)
    ground: EnumProperty(
        name="Ground",
        description="Choose how the height of the ground is known",
        items=GROUND,
        default=STANDING,
        options=set(),
    )
    ground_height: FloatProperty(
        name="Height", description="Set the height of the ground", subtype="DISTANCE", options=set()
    )
    ground_mesh: PointerProperty(name="Mesh", description="Choose the mesh the feet land on", type=Object)


CLASSES = (LEAPWRIGHT_PG_foot, LEAPWRIGHT_PG_feet)


def of_rig(rig: Object) -> LEAPWRIGHT_PG_feet | None:
    """Return the feet of an armature's object; None while the add-on is off."""
    return getattr(rig, "leapwright_feet", None)


SAVED = Saved(bpy.types.Object, "leapwright_feet", CLASSES, lambda: PointerProperty(type=LEAPWRIGHT_PG_feet))
register, unregister, readable = SAVED.register, SAVED.unregister, SAVED.readable
