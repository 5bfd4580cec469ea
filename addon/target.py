"""What the shot's settings say to follow, told apart from what can be followed.

Holds references for one call only: ask again after an undo.
"""

from dataclasses import dataclass

from bpy.types import Context, MovieClip, Object, Scene

from ..analysis.errors import SourceError
from ..analysis.settings import Settings
from ..analysis.track import Track
from .feet.asking import with_asked_feet
from .footage import settings as footage_settings
from .reading.channels import Motion
from .settings import ACTIVE, shown_in
from .shots.candidates import moving_body, root_most
from .sources import SOURCES
from .sources.centre_of_mass import NAME as CENTRE_OF_MASS


@dataclass(frozen=True, slots=True)
class Target:
    """An object, or a pose bone of it, or a movie clip and its marker; and the name of its module in `sources`.

    is_named: the settings name it; else it is what happens to be active
    """

    thing: Object | MovieClip
    bone: str = ""
    source: str = "object"
    is_named: bool = True

    @property
    def name(self) -> str:
        """Name it as its track is named."""
        if self.source == "centre_of_mass":
            return f"{self.thing.name}/{CENTRE_OF_MASS}"
        return f"{self.thing.name}/{self.bone}" if self.bone else self.thing.name

    def sample(self, context: Context) -> Track:
        """Read it in the scene of the window. Raises what `sample_in` does."""
        return self.sample_in(context.scene)

    def sample_in(self, scene: Scene) -> Track:
        """Read it into a Track, with its feet where they are to be used. Raises SourceError or TrackError."""
        return self.with_feet(scene, self.path_in(scene))

    def path_in(self, scene: Scene) -> Track:
        """Read its path alone. Raises SourceError or TrackError."""
        return SOURCES[self.source].sample(scene, self.thing, self.bone)

    def with_feet(self, scene: Scene, path: Track, settings: Settings | None = None) -> Track:
        """Return its path with its feet where they are to be used; settings: what its jumps are judged against."""
        return with_asked_feet(scene, self.thing, path, settings=settings)


def target_of(context: Context) -> Target:
    """Return what is to be followed; cheap enough for a poll.

    Raises SourceError with what to do when nothing is, or when nothing animates it.
    """
    target = chosen_target(context)
    if target.source == "footage":
        return target
    if target.thing.animation_data is None and not _carried(target):
        if target.source == "centre_of_mass":
            raise SourceError(f'Key the bones of "{target.thing.name}" first')
        raise SourceError(f'Key the location of "{target.name}" first')
    return target


def chosen_target(context: Context) -> Target:
    """Return what is to be followed, whether anything animates it yet or not.

    Raises SourceError with what to do when nothing is.
    """
    settings = shown_in(context)
    if settings.follow == ACTIVE:
        bone = context.active_pose_bone if context.mode == "POSE" else None
        if bone is not None:
            target = Target(bone.id_data, bone.name, "bone")
        elif context.active_object is not None:
            target = Target(context.active_object, is_named=False)
        else:
            raise SourceError("Select an object or pose bone")
    elif settings.follow == "footage":
        return _marker(context)
    elif settings.thing is None:
        raise SourceError(
            "Choose an armature to follow" if settings.follow == "bone" else "Choose an object to follow"
        )
    elif settings.follow == "bone" and not settings.bone:
        raise SourceError("Choose a bone to follow")
    else:
        bone_name = settings.bone if settings.follow == "bone" else ""
        target = Target(settings.thing, bone_name, settings.follow)
    if context.scene.objects.get(target.thing.name) is None:
        raise SourceError(f'"{target.thing.name}" is not in this scene')
    return target


def followed_rig(context: Context, *, has: str) -> Object:
    """Return the armature that is followed, or whose bone is, whether anything animates it yet or not.

    has: what is asked of it, "feet". Raises SourceError when something else is followed, or nothing.
    """
    thing = chosen_target(context).thing
    if getattr(thing, "pose", None) is None:
        raise SourceError(f"Follow an armature, or a bone of one: only those have {has}")
    return thing


def rig_or_none(context: Context, *, has: str) -> Object | None:
    """Return the armature that is followed; None where something else is, or nothing."""
    try:
        return followed_rig(context, has=has)
    except SourceError:
        return None


def _carried(target: Target) -> bool:
    """Say whether something else may move it, without keys of its own: a parent, or a constraint."""
    thing = target.thing
    bone = thing.pose.bones.get(target.bone) if target.bone and thing.pose else None
    return thing.parent is not None or bool(thing.constraints) or (bone is not None and bool(bone.constraints))


def _marker(context: Context) -> Target:
    """The marker that is chosen under Footage."""
    said = footage_settings.of_scene(context.scene)
    if said.clip is None:
        raise SourceError("Choose a movie clip under Footage")
    if not said.marker:
        raise SourceError("Choose a marker under Footage")
    return Target(said.clip, said.marker, "footage")


def stand_in(target: Target) -> Target:
    """Return what an audit follows where an armature is active: its centre of mass, as the command would.

    Its root-most keyed bone where its body is not known well enough, and where the settings name the armature.
    """
    if target.source == "object" and not target.is_named and moving_body(target.thing, Motion(target.thing)):
        return Target(target.thing, source="centre_of_mass")
    return with_root(target)


def with_root(target: Target) -> Target:
    """Return the armature's root-most keyed bone for an armature whose own location is not keyed."""
    if target.source != "object" or target.thing.pose is None or SOURCES["object"].poll(target.thing):
        return target
    bone = root_most(target.thing, Motion(target.thing))
    return target if bone is None else Target(target.thing, bone.name, "bone")
