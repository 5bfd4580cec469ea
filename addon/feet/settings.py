"""Which bones of a character touch the ground, where that is, when they are read: saved with its armature's object."""

import bpy
from bpy.app.handlers import persistent
from bpy.props import (
    BoolProperty,
    CollectionProperty,
    EnumProperty,
    FloatProperty,
    PointerProperty,
    StringProperty,
)
from bpy.types import Object, PropertyGroup

from ..rigs import Rig, is_rig
from ..saved import Saved

FEET_AUTO, FEET_ON, FEET_OFF = "auto", "on", "off"
READING = [
    (FEET_AUTO, "Auto", "Read the feet where the path alone leaves a jump or a contact unsure", 0),
    (FEET_ON, "On", "Read the feet on every frame", 1),
    (FEET_OFF, "Off", "Leave the feet out", 2),
]
GROUND_STANDING, GROUND_HEIGHT, GROUND_MESH = "standing", "height", "mesh"
GROUND = [
    (GROUND_STANDING, "Standing Pose", "Take for ground where the feet stand", 0),
    (GROUND_HEIGHT, "Height", "Type the height of level ground", 1),
    (GROUND_MESH, "Mesh", "Choose the mesh the feet land on", 2),
]


class LEAPWRIGHT_PG_foot(PropertyGroup):
    """One bone that touches the ground."""

    bone: StringProperty(name="Bone", description="Choose a bone that touches the ground", options=set())


class LEAPWRIGHT_PG_feet(PropertyGroup):
    """The feet of one armature; without bones in the list, those with a foot's name are taken."""

    reading: EnumProperty(
        name="Read", description="Choose when the feet are read", items=READING, default=FEET_AUTO, options=set()
    )
    use_feet: BoolProperty(
        name="Use Feet", description="Read the feet on every frame: as older files say it", options={"HIDDEN"}
    )
    bones: CollectionProperty(type=LEAPWRIGHT_PG_foot)
    ground: EnumProperty(
        name="Ground",
        description="Choose how the height of the ground is known",
        items=GROUND,
        default=GROUND_STANDING,
        options=set(),
    )
    ground_height: FloatProperty(
        name="Height", description="Set the height of the ground", subtype="DISTANCE", options=set()
    )
    ground_mesh: PointerProperty(name="Mesh", description="Choose the mesh the feet land on", type=Object)


CLASSES = (LEAPWRIGHT_PG_foot, LEAPWRIGHT_PG_feet)


def of_rig(rig: Rig) -> LEAPWRIGHT_PG_feet | None:
    """Return the feet of an armature's object; None while the add-on is off."""
    return getattr(rig, "leapwright_feet", None)


def mode_of(rig: Rig) -> str:
    """Return when the feet of an armature's object are read; FEET_AUTO while the add-on is off."""
    feet = of_rig(rig)
    if feet is None:
        return FEET_AUTO
    return FEET_ON if feet.use_feet and not feet.is_property_set("reading") else feet.reading


SAVED = Saved(bpy.types.Object, "leapwright_feet", CLASSES, lambda: PointerProperty(type=LEAPWRIGHT_PG_feet))
readable = SAVED.readable


@persistent
def _on_load(*_ignored: object) -> None:
    """Let the panel show what an older file says."""
    for thing in bpy.data.objects:
        if is_rig(thing) and thing.is_editable and thing.leapwright_feet.use_feet and mode_of(thing) == FEET_ON:
            thing.leapwright_feet.reading = FEET_ON


def register() -> None:
    """Give every object its feet."""
    SAVED.register()
    bpy.app.handlers.load_post.append(_on_load)


def unregister() -> None:
    """Take them off again; what files hold of them stays in them."""
    bpy.app.handlers.load_post.remove(_on_load)
    SAVED.unregister()
