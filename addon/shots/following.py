"""Which track of each character a show asks for, in place of what a scene nobody has pointed at offers."""

from collections.abc import Sequence
from fnmatch import fnmatchcase

from bpy.types import Scene

from ...analysis.errors import SourceError
from ..rigs import Rig, is_rig
from ..sources.center_of_mass import TRACK_NAME as CENTER_OF_MASS
from .candidates import Candidate, candidate_named

BODY = "com"
REASON = "the show's own choice"


def followed(
    scene: Scene, candidates: Sequence[Candidate], follow: Sequence[tuple[str, str]]
) -> tuple[tuple[Candidate, ...], tuple[str, ...]]:
    """Put what a show asks for in place of the candidates of those armatures; return notes on what is not there.

    follow: patterns of armatures' names, each with a pattern of bones, or "com" for the center of mass; of several
    that fit an armature the last one counts, of several bones the one nearest the root.
    """
    kept, notes = list(candidates), []
    for thing in scene.objects:
        wanted = [bone for pattern, bone in follow if is_rig(thing) and fnmatchcase(thing.name, pattern)]
        if not wanted or not is_rig(thing):
            continue
        try:
            chosen = _chosen(scene, thing, wanted[-1])
        except SourceError as refusal:
            notes.append(f"the show's choice for {thing.name} is not there, what was found is taken: {refusal}")
            continue
        others = [one for one in kept if one.name.partition("/")[0] != thing.name]
        kept = [*others, chosen]
    return tuple(kept), tuple(notes)


def _chosen(scene: Scene, thing: Rig, wanted: str) -> Candidate:
    if wanted == BODY:
        found = candidate_named(scene, f"{thing.name}/{CENTER_OF_MASS}")
    else:
        bones = [bone for bone in thing.pose.bones if fnmatchcase(bone.name, wanted)]
        if not bones:
            raise SourceError(f'it has no bone "{wanted}"')
        root = min(bones, key=lambda bone: len(bone.parent_recursive))
        found = candidate_named(scene, f"{thing.name}/{root.name}")
    return Candidate(found.name, found.source, REASON, found.sample)
