"""Source: one kind of thing in a scene that can be followed, and what it can do.

What can be followed is a pair: a data-block, mostly an object, and the name of a part of it, or "".
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

import numpy as np
from bpy.types import ID, Context, PropertyGroup, Scene

from ..analysis.errors import SourceError
from ..analysis.track import Track


def named(thing: ID, bone: str) -> str:
    """Name a thing, or its bone, as its track is named: "Brindle/root"."""
    return f"{thing.name}/{bone}" if bone else thing.name


def has_bone(thing: ID, bone: str) -> bool:
    """Say whether the bone is there; no bone always is."""
    return not bone or (getattr(thing, "pose", None) is not None and bone in thing.pose.bones)


def check_animated(thing: ID, bone: str) -> None:
    """Raise SourceError with what to do where nothing animates a location: no keys, parent or constraint."""
    part = thing.pose.bones.get(bone) if bone and thing.pose else None
    carried = thing.parent is not None or bool(thing.constraints) or (part is not None and bool(part.constraints))
    if thing.animation_data is None and not carried:
        raise SourceError(f'Key the location of "{named(thing, bone)}" first')


def objects_of(scene: Scene) -> Mapping[str, ID]:
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
    seen          its place (3,) in the world, Blender units, as the viewport shows it now; None: sampled
    told          groups of the add-on's settings that its reading depends on, beside those of feet
    is_keyed      its own location may be keyed: a plan can be laid on it
    is_whole      an object as a whole: where that is an armature, what moves it may stand in for it
    is_weighed    the center of mass, not a point of the body
    in_space      it is in the scene's space, not in a picture
    """

    label: str
    icon: str
    poll: Callable[[ID, str], bool]
    sample: Callable[[Scene, ID, str], Track]
    fields: tuple[str, ...] = ("thing",)
    choose: Callable[[Scene], tuple[ID, str]] | None = None
    name: Callable[[ID, str], str] = named
    has: Callable[[ID, str], bool] = has_bone
    check: Callable[[ID, str], None] = check_animated
    among: Callable[[Scene], Mapping[str, ID]] = objects_of
    seen: Callable[[Context, ID, str], np.ndarray] | None = None
    told: Callable[[Scene, ID], tuple[PropertyGroup | None, ...]] = lambda _scene, _thing: ()
    is_keyed: bool = False
    is_whole: bool = False
    is_weighed: bool = False
    in_space: bool = True

    def chosen(self, scene: Scene, settings: PropertyGroup) -> tuple[ID, str]:
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
