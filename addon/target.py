"""What the shot's settings say to follow, told apart from what can be followed.

Holds references for one call only: ask again after an undo.
"""

from dataclasses import dataclass

from bpy.types import Context, MovieClip, Object, Scene

from ..analysis.errors import SourceError
from ..analysis.settings import Settings
from ..analysis.track import Track
from .feet.asking import with_asked_feet
from .reading.channels import Motion
from .rigs import Rig, is_rig
from .settings import ACTIVE, shown_in
from .shots.candidates import moving_body, root_most
from .source import Source
from .sources import SCENE_SOURCES


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
    def object(self) -> Object:
        """The object that is followed, or whose bone is. Raises SourceError for a marker in footage."""
        if not isinstance(self.thing, Object):
            raise SourceError(f'"{self.name}" is a marker in footage: follow an object, or a bone of one')
        return self.thing

    @property
    def kind(self) -> Source:
        """What can be done with it."""
        return SCENE_SOURCES[self.source]

    @property
    def name(self) -> str:
        """Name it as its track is named."""
        return self.kind.name(self.thing, self.bone)

    def sample(self, context: Context) -> Track:
        """Read it in the scene of the window. Raises what `sample_in` does."""
        return self.sample_in(context.scene)

    def sample_in(self, scene: Scene) -> Track:
        """Read it into a Track, with its feet where they are to be used. Raises SourceError or TrackError."""
        return self.with_feet(scene, self.path_in(scene))

    def path_in(self, scene: Scene) -> Track:
        """Read its path alone. Raises SourceError or TrackError."""
        return self.kind.sample(scene, self.thing, self.bone)

    def with_feet(self, scene: Scene, path: Track, settings: Settings | None = None) -> Track:
        """Return its path with its feet where they are to be used; settings: what its jumps are judged against."""
        return with_asked_feet(scene, self.thing, path, settings=settings)


def target_of(context: Context) -> Target:
    """Return what is to be followed; cheap enough for a poll.

    Raises SourceError with what to do when nothing is, or when nothing animates it.
    """
    target = chosen_target(context)
    target.kind.check(target.thing, target.bone)
    return target


def chosen_target(context: Context) -> Target:
    """Return what is to be followed, whether anything animates it yet or not.

    Raises SourceError with what to do when nothing is.
    """
    settings = shown_in(context)
    if settings.follow != ACTIVE:
        return Target(*SCENE_SOURCES[settings.follow].chosen(context.scene, settings), settings.follow)
    bone = context.active_pose_bone if context.mode == "POSE" else None
    thing = context.active_object if bone is None else bone.id_data
    if not isinstance(thing, Object):
        raise SourceError("Select an object or pose bone")
    target = Target(thing, is_named=False) if bone is None else Target(thing, bone.name, "bone")
    if context.scene.objects.get(target.thing.name) is None:
        raise SourceError(f'"{target.thing.name}" is not in this scene')
    return target


def followed_rig(context: Context, *, has: str) -> Rig:
    """Return the armature that is followed, or whose bone is, whether anything animates it yet or not.

    has: what is asked of it, "feet". Raises SourceError when something else is followed, or nothing.
    """
    thing = chosen_target(context).thing
    if not is_rig(thing):
        raise SourceError(f"Follow an armature, or a bone of one: only those have {has}")
    return thing


def rig_or_none(context: Context, *, has: str) -> Rig | None:
    """Return the armature that is followed; None where something else is, or nothing."""
    try:
        return followed_rig(context, has=has)
    except SourceError:
        return None


def stand_in(target: Target) -> Target:
    """Return what an audit follows where an armature is active: its center of mass, as the command would.

    Its root-most keyed bone where its body is not known well enough, and where the settings name the armature.
    """
    if target.kind.is_whole and not target.is_named and moving_body(target.thing, Motion(target.thing)):
        return Target(target.thing, source="center_of_mass")
    return with_root(target)


def with_root(target: Target) -> Target:
    """Return the armature's root-most keyed bone for an armature whose own location is not keyed."""
    if not target.kind.is_whole or not is_rig(target.thing) or target.kind.poll(target.thing, ""):
        return target
    bone = root_most(target.thing, Motion(target.thing))
    return target if bone is None else Target(target.thing, bone.name, "bone")
