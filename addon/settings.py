"""What belongs to the shot and is saved with it: what to follow, and the world its jumps are judged by."""

from zlib import crc32

import bpy
from bpy.props import BoolProperty, EnumProperty, FloatProperty, PointerProperty, StringProperty
from bpy.types import Context, Object, PropertyGroup, Scene

from ..analysis.house import PRESETS
from ..analysis.limits import Limits
from ..analysis.world import GRAVITIES, JUMPERS, STANDARD_GRAVITY
from .saved import Saved
from .sources import SCENE_SOURCES

ACTIVE, FROM_SCENE, CUSTOM = "active", "scene", "custom"


def _number(name: str) -> int:
    """Number an enum's item by its name: files keep the number, and lists grow in the middle."""
    return crc32(name.encode()) & 0xFFFFFFF


FOLLOW = [
    (ACTIVE, "Active", "Follow the active pose bone, or the active object", "RESTRICT_SELECT_OFF", 0),
    *(
        (
            name,
            source.label,
            f"Follow one {source.label.lower()}, whatever is active",
            source.icon,
            _number(source.saved_name or name),
        )
        for name, source in SCENE_SOURCES.items()
    ),
]
GRAVITY_ITEMS = [
    (FROM_SCENE, "Scene", "Use the gravity of the scene", 0),
    *((world, world.title(), f"{strength:g} m/s²", _number(world)) for world, strength in GRAVITIES.items()),
    (CUSTOM, "Custom", "Type the gravity", 1),
]
STEP = [
    ("1", "Ones", "Whole frames: a new pose may fall on any frame"),
    ("2", "Twos", "A new pose every second frame"),
    ("3", "Threes", "A new pose every third frame"),
    ("4", "Fours", "A new pose every fourth frame"),
]
KIND = [
    (kind, kind.title(), f"Jumps up to {ratio:g} times its push distance", _number(kind))
    for kind, ratio in JUMPERS.items()
]

JUDGE = [(name, name.title(), preset.words, _number(name)) for name, preset in PRESETS.items()]


class LEAPWRIGHT_PG_settings(PropertyGroup):
    """The settings of one scene; lengths and accelerations in Blender units, as Blender shows them.

    No property has a callback: Blender 4.2 as a module crashes at exit over any, even unregistered.
    """

    follow: EnumProperty(
        name="Follow", description="Choose what carries the jump", items=FOLLOW, default=ACTIVE, options=set()
    )
    thing: PointerProperty(name="Object", description="Choose the object to follow", type=Object)
    bone: StringProperty(name="Bone", description="Choose the pose bone to follow", options=set())
    gravity: EnumProperty(
        name="Gravity",
        description="Choose the gravity jumps are judged by",
        items=GRAVITY_ITEMS,
        default=FROM_SCENE,
        options=set(),
    )
    gravity_custom: FloatProperty(
        name="Strength",
        description="Set the gravity jumps are judged by",
        unit="ACCELERATION",
        default=STANDARD_GRAVITY,
        min=0.001,
        soft_max=30.0,
        precision=3,
        options=set(),
    )
    kind: EnumProperty(
        name="Kind",
        description="Choose the kind of jumper, for what is plausible",
        items=KIND,
        default="person",
        options=set(),
    )
    step: EnumProperty(
        name="Poses on",
        description="Choose the frames from one pose to the next",
        items=STEP,
        default="1",
        options=set(),
    )
    judge: EnumProperty(
        name="Judge As",
        description="Choose how much a jump may be off before anything is said",
        items=JUDGE,
        default="believable",
        options=set(),
    )
    use_smallest_hop: BoolProperty(
        name="Smallest Hop",
        description="Set by hand which rises are too low to be jumps; otherwise those under 5 cm are",
        options=set(),
    )
    smallest_hop: FloatProperty(
        name="Smallest Hop",
        description="Set the height under which a rise is not a jump",
        subtype="DISTANCE",
        default=Limits().smallest_hop,
        min=0.0001,
        soft_max=1.0,
        options=set(),
    )


CLASSES = (LEAPWRIGHT_PG_settings,)


def of_scene(scene: Scene) -> LEAPWRIGHT_PG_settings:
    """Return the settings of a scene."""
    return scene.leapwright


def shown_in(context: Context) -> LEAPWRIGHT_PG_settings:
    """Return the settings of the scene a window shows."""
    return of_scene(context.scene)


SAVED = Saved(bpy.types.Scene, "leapwright", CLASSES, lambda: PointerProperty(type=LEAPWRIGHT_PG_settings))
register, unregister = SAVED.register, SAVED.unregister
