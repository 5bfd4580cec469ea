"""Source: one kind of thing in a scene that can be followed, and what it can do.

What can be followed is a pair: a data-block, mostly an object, and the name of a part of it, or "".
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any, Protocol, TypeVar

from bpy.types import ID, Context, Object, PropertyGroup, Scene

from ..analysis.arrays import Array
from ..analysis.errors import SourceError
from ..analysis.track import Track
from .blender_words import Icon
from .rigs import is_rig

Thing = Any
"""What a source follows, of the kind that its `among` lists."""
Held = TypeVar("Held", bound=ID, covariant=True)


class Among(Protocol[Held]):
    """Data-blocks of one kind, by name."""

    def get(self, key: str, /) -> Held | None:
        """Return the one of this name; None where there is none."""

    def __iter__(self) -> Iterator[Held]: ...


class Fields(Protocol):
    """What a scene's settings say to follow."""

    thing: Object | None
    bone: str


def named(thing: ID, bone: str) -> str:
    """Name a thing, or its bone, as its track is named: "Brindle/root"."""
    return f"{thing.name}/{bone}" if bone else thing.name


def has_bone(thing: Object, bone: str) -> bool:
    """Say whether the bone is there; no bone always is."""
    return not bone or (is_rig(thing) and bone in thing.pose.bones)


def check_animated(thing: Object, bone: str) -> None:
    """Raise SourceError with what to do where nothing animates a location: no keys, parent or constraint."""
    part = thing.pose.bones.get(bone) if bone and is_rig(thing) else None
    carried = thing.parent is not None or bool(thing.constraints) or (part is not None and bool(part.constraints))
    if thing.animation_data is None and not carried:
        raise SourceError(f'Key the location of "{named(thing, bone)}" first')


def objects_of(scene: Scene) -> Among[Object]:
    """Return the objects of a scene by name."""
    return scene.objects


@dataclass(frozen=True, slots=True)
class Source:
    """One kind of thing that can be followed. Most have the first four only.

    label, icon   for the panel
    poll          whether its location is keyed, or it can be read otherwise; cheap
    sample        reads it into a Track; raises SourceError or TrackError
    fields        the settings that say which one: thing, bone
    choose        the pair that the scene says, where the settings have no field for it; raises SourceError
    name          its track's name
    has           whether the data-block still has the part
    check         raises SourceError with what to do where nothing animates it
    among         where the data-block is looked for, by name
    place_now     its place (3,) in the world, Blender units, as the viewport shows it now; None: sampled
    told          groups of the add-on's settings that its reading depends on, beside those of feet
    is_keyed      its own location may be keyed: a plan can be laid on it
    is_whole      an object as a whole: where that is an armature, what moves it may stand in for it
    is_weighed    the center of mass, not a point of the body
    in_space      it is in the scene's space, not in a picture
    saved_name    the name by which files keep that it is followed, where its module was named otherwise once
    """

    label: str
    icon: Icon
    poll: Callable[[Thing, str], bool]
    sample: Callable[[Scene, Thing, str], Track]
    fields: tuple[str, ...] = ("thing",)
    choose: Callable[[Scene], tuple[Thing, str]] | None = None
    name: Callable[[Thing, str], str] = named
    has: Callable[[Thing, str], bool] = has_bone
    check: Callable[[Thing, str], None] = check_animated
    among: Callable[[Scene], Among[Any]] = objects_of
    place_now: Callable[[Context, Thing, str], Array] | None = None
    told: Callable[[Scene, Thing], tuple[PropertyGroup | None, ...]] = lambda _scene, _thing: ()
    is_keyed: bool = False
    is_whole: bool = False
    is_weighed: bool = False
    in_space: bool = True
    saved_name: str = ""

    def chosen(self, scene: Scene, settings: Fields) -> tuple[Thing, str]:
        """Return the pair that a scene's settings say. Raises SourceError with what to do when they say none."""
        if self.choose is not None:
            return self.choose(scene)
        has_bones = "bone" in self.fields
        if settings.thing is None:
            raise SourceError("Choose an armature to follow" if has_bones else "Choose an object to follow")
        if has_bones and not settings.bone:
            raise SourceError("Choose a bone to follow")
        thing = settings.thing
        if self.among(scene).get(thing.name) is None:
            raise SourceError(f'"{thing.name}" is not in this scene')
        return thing, settings.bone if has_bones else ""
