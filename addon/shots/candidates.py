"""What to audit in a scene nobody has pointed at: whatever carries a body, each with the reason.

Names: "Brindle/root" for a bone of an armature, the object's own name for an object.
"""

from collections.abc import Callable, Iterator
from contextlib import suppress
from dataclasses import dataclass
from functools import partial
from itertools import islice

import bpy
from bpy.types import ID, Object, PoseBone, Scene

from ...analysis.audit import judged_track
from ...analysis.errors import LeapwrightError, SourceError
from ...analysis.settings import Settings
from ...analysis.track import Track
from .. import host
from ..feet.asking import with_asked_feet
from ..feet.settings import FEET_OFF
from ..mass.rig import RigBody, sound_body
from ..reading.channels import Motion
from ..rigs import Rig, is_rig
from ..sources import SCENE_SOURCES
from ..sources.center_of_mass import FORMER_TRACK_NAME
from ..sources.center_of_mass import TRACK_NAME as CENTER_OF_MASS

ONLOOKERS = {"CAMERA", "LIGHT", "LIGHT_PROBE", "SPEAKER"}
"""Objects that watch or light a shot; they are audited only when named."""


MOST_BONES_READ = 8
"""Most bones of a rig that are read to find the one that jumps."""


@dataclass(frozen=True, slots=True)
class Candidate:
    """Something worth an audit.

    name     "Brindle/root" or "Crate"
    source   the name of its module in `sources`: "bone", "center_of_mass", "object"
    reason   why it was taken, a phrase: "root-most keyed bone of Brindle"
    sample   reads it into a Track; raises SourceError or TrackError. feet and settings: as `with_asked_feet` has them
    thing    what finds its object again: its name, and its library's path; None for a marker
    bone     the pose bone's name, or ""
    """

    name: str
    source: str
    reason: str
    sample: Callable[..., Track]
    thing: tuple[str, str | None] | None = None
    bone: str = ""


def find_candidates(scene: Scene) -> tuple[Candidate, ...]:
    """Find what a scene holds to audit; empty when nothing in it has location keys that move it.

    For every armature its center of mass, where its body is mapped or its bones are named like a whole human
    body; of any other the keyed bone nearest the root (of several, the one that carries the most bones). And
    every keyed object without a parent, except cameras, lights and the like.
    """
    found: list[Candidate] = []
    for thing in scene.objects:
        motion = Motion(thing)
        if (body := moving_body(thing, motion)) is not None:
            found.append(_body(scene, thing, f"center of mass of {thing.name}: {body.known}"))
            continue
        if is_rig(thing) and (bone := root_most(thing, motion)) is not None:
            found.append(_bone(scene, thing, bone.name, f"root-most keyed bone of {thing.name}"))
        free = thing.parent is None and thing.type not in ONLOOKERS
        if free and SCENE_SOURCES["object"].poll(thing, ""):
            found.append(_object(scene, thing, "keyed object without a parent"))
    return tuple(found)


def candidate_named(scene: Scene, name: str) -> Candidate:
    """Find what a name means: "Rig/bone", "bone:NAME", "object:NAME", "com", "com:RIG", or a plain name.

    A plain name is an object's, else that of a bone. Raises SourceError when nothing has the name, or several
    bones or armatures do.
    """
    if name == "com" or name.startswith("com:"):
        return _named_body(scene, name[4:])
    rig, _, part = name.rpartition("/")
    if rig and part in (CENTER_OF_MASS, FORMER_TRACK_NAME):
        return _named_body(scene, rig)
    kind, _, rest = name.partition(":")
    wanted = rest if kind in ("object", "bone") and rest else name
    if kind != "bone" and (thing := scene.objects.get(wanted)) is not None:
        return _object(scene, thing, "named")
    rig, _, bone = wanted.rpartition("/")
    bones = [
        (thing, bone_name)
        for thing in scene.objects
        if is_rig(thing)
        for bone_name in dict.fromkeys((wanted, bone))
        if bone_name in thing.pose.bones and (bone_name == wanted or thing.name == rig)
    ]
    if kind == "object" or not bones:
        have = ", ".join(f'"{candidate.name}"' for candidate in find_candidates(scene)) or "nothing keyed"
        raise SourceError(f'the scene "{scene.name}" has no "{name}" to audit; it has {have}')
    if len(bones) > 1:
        choices = ", ".join(f'"{thing.name}/{bone_name}"' for thing, bone_name in bones)
        raise SourceError(f'"{name}" could be {choices}: name one of them')
    return _bone(scene, *bones[0], "named")


def _named_body(scene: Scene, rig: str) -> Candidate:
    """Find the center of mass of the armature of this name; of the only one that has a body without a name."""
    rigs = [thing for thing in scene.objects if is_rig(thing) and rig in ("", thing.name)]
    if not rigs:
        which = f' "{rig}"' if rig else ""
        raise SourceError(f'the scene "{scene.name}" has no armature{which}, so no center of mass')
    able = rigs if len(rigs) == 1 else [thing for thing in rigs if SCENE_SOURCES["center_of_mass"].poll(thing, "")]
    if len(able) != 1:
        choices = ", ".join(f'"com:{thing.name}"' for thing in able or rigs)
        raise SourceError(f'"com" could be {choices}: name one of them')
    return _body(scene, able[0], "named")


def jumper_of(scene: Scene, candidate: Candidate, settings: Settings) -> Candidate:
    """Return a candidate, or the first moving bone of its rig that jumps where it is a bone that does not.

    A master bone may only travel while the hips under it jump. Raises what reading it does.
    """
    rig = bpy.data.objects.get(candidate.thing) if candidate.thing and candidate.bone else None
    if rig is None or judged_track(candidate.sample(feet=FEET_OFF), settings).jumps:
        return candidate
    for bone in islice(moving_bones(rig, Motion(rig)), MOST_BONES_READ):
        other = _bone(scene, rig, bone.name, f"bone of {rig.name} that jumps: {candidate.bone} does not")
        if bone.name == candidate.bone:
            continue
        with suppress(LeapwrightError):
            if judged_track(other.sample(feet=FEET_OFF), settings).jumps:
                return other
    return candidate


def moving_body(thing: ID, motion: Motion) -> RigBody | None:
    """Return the body whose center of mass is followed unasked: of an armature that moves, and a sound one; else None.

    The rule of the command and of the panel alike.
    """
    if not is_rig(thing) or not any(motion.moves(path) for path in motion):
        return None
    return sound_body(thing)


def root_most(thing: Rig, motion: Motion) -> PoseBone | None:
    """Return the moving bone of least depth; of several, the one with the most bones under it."""
    return next(moving_bones(thing, motion), None)


def moving_bones(thing: Rig, motion: Motion) -> Iterator[PoseBone]:
    """Yield the bones whose location changes, from the root on; of one depth, those with the most bones under them."""
    paths = filter(None, map(host.bone_of_path, motion))
    names = dict.fromkeys(bone for bone, channel in paths if channel == "location")
    bones = [thing.pose.bones[name] for name in names if name in thing.pose.bones]
    bones.sort(key=lambda bone: (len(bone.parent_recursive), -len(bone.children_recursive)))
    return (bone for bone in bones if _moves(bone, motion))


def _moves(bone: PoseBone, motion: Motion) -> bool:
    if bone.bone.use_connect and bone.parent is not None:
        return False
    return bool(motion.channels(bone.path_from_id("location")).moving)


def _object(scene: Scene, thing: Object, reason: str) -> Candidate:
    return _candidate(scene, thing, "object", "", reason)


def _bone(scene: Scene, thing: Object, bone: str, reason: str) -> Candidate:
    return _candidate(scene, thing, "bone", bone, reason)


def _body(scene: Scene, thing: Object, reason: str) -> Candidate:
    return _candidate(scene, thing, "center_of_mass", "", reason)


def _candidate(scene: Scene, thing: Object, source: str, bone: str, reason: str) -> Candidate:
    read = partial(_read, _names(scene), _names(thing), source, bone)
    return Candidate(SCENE_SOURCES[source].name(thing, bone), source, reason, read, _names(thing), bone)


def _names(data: Scene | Object) -> tuple[str, str | None]:
    """Tell what finds a data-block again, after an undo too: its name, and its library's path."""
    return data.name, data.library.filepath if data.library else None


def _read(
    scene: tuple[str, str | None],
    thing: tuple[str, str | None],
    source: str,
    bone: str,
    *,
    feet: str | None = None,
    settings: Settings | None = None,
) -> Track:
    try:
        where, what = bpy.data.scenes[scene], bpy.data.objects[thing]
    except KeyError:
        raise SourceError(f'"{thing[0]}" is no longer in the file') from None
    return with_asked_feet(where, what, SCENE_SOURCES[source].sample(where, what, bone), mode=feet, settings=settings)
