"""What an audit was made of: the thing that was followed, and a digest of all that its reading depends on.

Names and numbers only: no reference to Blender's data outlives an undo.
"""

from dataclasses import dataclass
from functools import cache
from typing import Any

from bpy.types import Scene, bpy_struct

from ..analysis.settings import Settings
from .choosing import ASKED, Why
from .feet.settings import of_rig
from .mass.settings import of_armature
from .reading.dependencies import dependencies_of
from .reading.state import UnknowableError, digest_of_state
from .rigs import is_rig
from .scene import frame_rate, unit_scale
from .sources import SCENE_SOURCES
from .target import Target

CURSORS = {"rna_type", "chosen"}
"""Properties of our own groups that say which row is chosen, not what a reading is told."""

Asked = tuple[int, str, str, bool]
"""A target without references: session number, bone, source, whether the settings name it."""


@dataclass(frozen=True, slots=True)
class Basis:
    """What an audit was made of.

    asked       what was to be followed; an armature may be, where something of it is read
    thing       session number and name of the data-block that was read
    bone, source   as in Target
    settings    the world and the limits that it was judged by
    told        what else the add-on's own settings say of the reading
    evaluated   whether Blender had to evaluate frames for the path
    has_feet    whether it had to for feet
    why         why it is followed
    digest      of all that an evaluated reading depends on; None where that cannot be told, or is not needed
    """

    asked: Asked
    thing: tuple[int, str]
    bone: str
    source: str
    settings: Settings
    told: tuple[object, ...]
    evaluated: bool
    has_feet: bool
    digest: bytes | None
    why: Why = ASKED


def asked_of(target: Target) -> Asked:
    """Return a target without its references."""
    return target.thing.session_uid, target.bone, target.source, target.is_named


def basis_of(
    scene: Scene,
    target: Target,
    *,
    asked: Asked,
    settings: Settings,
    evaluated: bool,
    has_feet: bool,
    why: Why = ASKED,
) -> Basis:
    """Take down what a reading of this target, made right now, depends on."""
    return Basis(
        asked=asked,
        thing=(target.thing.session_uid, target.thing.name),
        bone=target.bone,
        source=target.source,
        settings=settings,
        told=told_of(scene, target),
        evaluated=evaluated,
        has_feet=has_feet,
        digest=digest_of(scene, target) if evaluated or has_feet else None,
        why=why,
    )


def target_in(scene: Scene, basis: Basis) -> Target | None:
    """Find what was read, renamed or not; None when it is no longer in the scene."""
    number, name = basis.thing
    source = SCENE_SOURCES[basis.source]
    among = source.among(scene)
    thing = among.get(name)
    if thing is None or thing.session_uid != number:
        thing = next((other for other in among if other.session_uid == number), None)
    if thing is None or not source.has(thing, basis.bone):
        return None
    return Target(thing, basis.bone, basis.source)


def digest_of(scene: Scene, target: Target) -> bytes | None:
    """Digest all that the evaluated place of a target depends on; None where it cannot be told in full."""
    try:
        return digest_of_state(scene, dependencies_of(scene, target.thing))
    except UnknowableError:
        return None


def told_of(scene: Scene, target: Target) -> tuple[object, ...]:
    """Return what the scene's rate and unit, and the add-on's settings, say of the reading of a target."""
    rate = frame_rate(scene), unit_scale(scene), tuple(scene.gravity)
    groups = list(target.kind.told(scene, target.thing))
    if is_rig(target.thing):
        groups += of_rig(target.thing), of_armature(target.thing.data)
    return (*rate, *map(_told, groups))


def _told(group: "bpy_struct[Any] | None") -> tuple[object, ...]:
    """Return the values of a group of properties, and of those in its lists."""
    if group is None:
        return ()
    said: list[object] = []
    for name, kind in _properties(type(group)):  # type: ignore[arg-type]  # a class can be hashed: mypy asks its instances
        value = getattr(group, name)
        if kind == "COLLECTION":
            said.append(tuple(_told(row) for row in value))
        elif kind == "POINTER":
            said.append(getattr(value, "session_uid", None))
        else:
            said.append(value if isinstance(value, bool | int | float | str) else tuple(value))
    return tuple(said)


@cache
def _properties(kind: "type[bpy_struct[Any]]") -> tuple[tuple[str, str], ...]:
    entries = (entry for entry in kind.bl_rna.properties if entry.identifier not in CURSORS)
    return tuple((entry.identifier, entry.type) for entry in entries)
