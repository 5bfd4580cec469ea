"""What an audit of a thing is best made of: the thing itself, the part of it that jumps, or its center of mass."""

from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum, auto

from bpy.types import Scene

from ..analysis.audit import audit_track
from ..analysis.doubt import unsure_frames
from ..analysis.errors import LeapwrightError
from ..analysis.settings import Settings
from .reading.channels import Motion
from .rigs import Rig, is_rig
from .shots.candidates import MOST_BONES_READ, moving_body, moving_bones
from .sources import SCENE_SOURCES
from .target import Target, stand_in

CARRIES = 0.5
"""Least share of a rig's bones that hang from a bone for it to carry the body (ours): a hand's path is not the body's.
"""


class FollowedFor(Enum):
    """Why something is followed."""

    ASKED = auto()
    """It was asked for, or it is what stands for it."""
    JUMPER = auto()
    """What stands for it does not jump; this part of it does."""
    BODY = auto()
    """The path of what was asked for leaves a jump unsure, so its center of mass is followed."""
    NO_BODY = auto()
    """The same, but the center of mass is not known."""


@dataclass(frozen=True, slots=True)
class Why:
    """Why something is followed, and the name of what stands back for it."""

    choice: FollowedFor = FollowedFor.ASKED
    instead_of: str = ""


ASKED = Why()


def choose(scene: Scene, asked: Target, settings: Settings) -> tuple[Target, Why]:
    """Return what to read where `asked` is to be followed, and why. Raises LeapwrightError when it cannot be read."""
    target = stand_in(asked)
    rig = target.thing
    if not is_rig(rig) or target.kind.is_weighed:
        return target, ASKED
    path = target.path_in(scene)
    audit = audit_track(path, settings)
    if asked.kind.is_whole and not audit.jumps:
        for other in other_parts(rig, target):
            if _jumps(scene, other, settings):
                return other, Why(FollowedFor.JUMPER, target.name)
    if not unsure_frames(audit, path, settings.limits) or not _carries(rig, target):
        return target, ASKED
    if moving_body(rig, Motion(rig)) is not None:
        return Target(rig, source="center_of_mass"), Why(FollowedFor.BODY, target.name)
    return target, Why(FollowedFor.NO_BODY)


def words(why: Why, target: Target) -> tuple[str, ...]:
    """Say why a target is followed in place of what was asked for; nothing where it is that."""
    if why.choice is FollowedFor.JUMPER:
        return (f"{target.name} is followed, which jumps: {why.instead_of} does not",)
    if why.choice is FollowedFor.BODY:
        return (f"the center of mass is followed: the path of {why.instead_of} alone leaves a jump unsure",)
    if why.choice is FollowedFor.NO_BODY:
        return (f"a tuck or a turn moves {target.name} within the body: its center of mass is what to follow",)
    return ()


def rising(scene: Scene, target: Target, settings: Settings) -> tuple[str, ...]:
    """Name other tracks of a scene that move up and down by the smallest hop: other parts of the rig, other
    objects.
    """
    found = []
    for number, other in enumerate(_others(scene, target)):
        if number == MOST_BONES_READ:
            break
        try:
            heights = other.path_in(scene).heights
        except LeapwrightError:
            continue
        if heights.max() - heights.min() >= settings.limits.smallest_hop:
            found.append(other.name)
    return tuple(found)


def other_parts(rig: Rig, target: Target) -> list[Target]:
    """Return the other moving parts of a rig, from its root on: its object, then its bones."""
    whole = [Target(rig)] if SCENE_SOURCES["object"].poll(rig, "") else []
    parts = [*whole, *(Target(rig, bone.name, "bone") for bone in moving_bones(rig, Motion(rig)))]
    return [part for part in parts if part.name != target.name][:MOST_BONES_READ]


def _others(scene: Scene, target: Target) -> Iterator[Target]:
    thing = target.thing
    if is_rig(thing):
        yield from other_parts(thing, target)
    for other in scene.objects:
        if other != thing and other.parent is None and SCENE_SOURCES["object"].poll(other, ""):
            yield Target(other)


def _jumps(scene: Scene, target: Target, settings: Settings) -> bool:
    try:
        return bool(audit_track(target.path_in(scene), settings).jumps)
    except LeapwrightError:
        return False


def _carries(rig: Rig, target: Target) -> bool:
    """Tell whether most of the rig moves with a part of it."""
    bones = rig.pose.bones
    return not target.bone or len(bones[target.bone].children_recursive) >= CARRIES * (len(bones) - 1)
