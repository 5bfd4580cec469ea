"""What is known of a filmed take: which clip and marker, and a length in the picture. Saved with the shot."""


import bpy
from bpy.props import EnumProperty, FloatProperty, PointerProperty, StringProperty
from bpy.types import MovieClip, PropertyGroup, Scene

from ...analysis.errors import SourceError
from ..saved import Saved
from ..scene import unit_scale
from .marker import FootageScale

BETWEEN_MARKERS, PIXEL_SIZE = "between", "pixels"
KNOWN_LENGTHS = [
    (BETWEEN_MARKERS, "Two Markers", "Type the distance between two markers", 0),
    (PIXEL_SIZE, "Size", "Type how many pixels a length takes up", 1),
]
FOOTAGE_RATE, SCENE_RATE = "clip", "scene"
RATE = [
    (FOOTAGE_RATE, "Clip", "Take the frames per second of the clip; of numbered images, the scene's", 0),
    (SCENE_RATE, "Scene", "Take the frames per second of the scene", 1),
]


class LEAPWRIGHT_PG_footage(PropertyGroup):
    """The clip, the marker that carries the jump, and the known length, in Blender units."""

    clip: PointerProperty(name="Clip", description="Choose the movie clip", type=MovieClip)
    marker: StringProperty(name="Marker", description="Choose the marker to follow", options=set())
    known: EnumProperty(
        name="Known", description="Choose what is known of the size",
        items=KNOWN_LENGTHS, default=BETWEEN_MARKERS, options=set(),
    )
    first: StringProperty(name="From", description="Choose the marker the length begins at", options=set())
    second: StringProperty(name="To", description="Choose the marker the length ends at", options=set())
    pixels: FloatProperty(
        name="Pixels", description="Set how many pixels the length takes up", min=0.0, soft_max=4096.0, options=set()
    )
    length: FloatProperty(
        name="Length", description="Set the known length", subtype="DISTANCE", min=0.0, default=0.0, options=set()
    )
    rate: EnumProperty(
        name="Rate", description="Choose the frames per second", items=RATE, default=FOOTAGE_RATE, options=set()
    )


CLASSES = (LEAPWRIGHT_PG_footage,)


def of_scene(scene: Scene) -> LEAPWRIGHT_PG_footage | None:
    """Return what the scene says of its footage; None while the add-on is off."""
    return getattr(scene, "leapwright_footage", None)


def scale_of(scene: Scene) -> FootageScale:
    """Return the known length. Raises SourceError while none is typed."""
    said = of_scene(scene)
    if said is None or said.length <= 0.0:
        raise SourceError("Type a known length of the footage, under Footage: two markers, or a size in pixels")
    length = said.length * unit_scale(scene)
    if said.known == PIXEL_SIZE:
        return FootageScale(length, pixels=said.pixels)
    return FootageScale(length, between=(said.first, said.second))


def own_rate(scene: Scene) -> bool:
    """Say whether the clip's own frames per second count."""
    said = of_scene(scene)
    return said is None or said.rate == FOOTAGE_RATE


SAVED = Saved(bpy.types.Scene, "leapwright_footage", CLASSES, lambda: PointerProperty(type=LEAPWRIGHT_PG_footage))
register, unregister, readable = SAVED.register, SAVED.unregister, SAVED.readable
