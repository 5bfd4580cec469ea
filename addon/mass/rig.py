"""The body of a rig: its bones as segments with masses, as the armature has them saved or as their names tell.

Lengths at rest in Blender units: only their ratios matter.
"""

from dataclasses import dataclass

import numpy as np
from bpy.types import Object

from ...analysis.arrays import Array
from ...analysis.errors import SourceError
from ...analysis.mass.body import Body, BodyPart, body_of, spoken
from ...analysis.mass.namings import Naming, segments_of
from ...analysis.mass.segments import FEMALE, OWN_MASS, SEGMENT_TABLES, SegmentTable
from ..rigs import Rig, is_rig
from .settings import of_armature, readable

MOST_SEGMENTS_NAMED = 4
"""Most segments that a sentence names."""


@dataclass(frozen=True, slots=True)
class RigBody:
    """A body, and how it is known, a phrase: "18 bones mapped by name, Female (de Leva 1996)".

    doubtful: a creature's, told by its names and weighed by a table of people
    """

    body: Body
    known: str
    doubtful: bool = False

    @property
    def warning(self) -> str:
        """Say which part of the mass has no bone; "" where it is little."""
        if self.body.is_sound:
            return ""
        missing = [spoken(segment) for segment in self.body.missing]
        more = len(missing) - MOST_SEGMENTS_NAMED
        names = ", ".join(missing[:MOST_SEGMENTS_NAMED]) + (f" and {more} more" if more > 0 else "")
        return f"{100.0 * self.body.unmapped:.0f} % of the mass has no bone: {names}"


def naming_of(rig: Rig) -> Naming:
    """Tell an armature's segments by the names of its bones."""
    bones = rig.data.bones
    deforming = {bone.name for bone in bones if bone.use_deform}
    parents = {bone.name: bone.parent.name if bone.parent else None for bone in bones}
    return segments_of(parents, deforming=deforming or None)


def body_of_rig(rig: Object) -> RigBody:
    """Return the body as saved with the armature, else as its names tell.

    Raises SourceError for an object without bones, when neither gives a body, and for masses that make none.
    """
    if not is_rig(rig):
        raise SourceError(f'"{rig.name}" has no bones, so no center of mass: follow an armature')
    with readable():
        saved = _saved(rig)
    doubtful = False
    if saved is None:
        naming = naming_of(rig)
        doubtful, saved = naming.creature, _named(naming)
    parts, table, known = saved
    try:
        return RigBody(body_of(parts, _rest(rig, parts), table), known, doubtful)
    except SourceError as refusal:
        raise SourceError(f'"{rig.name}": {refusal}') from None


def sound_body(rig: Object) -> RigBody | None:
    """Return the body where it can be trusted unasked: one saved, or names of a whole human body; else None."""
    try:
        found = body_of_rig(rig)
    except SourceError:
        return None
    return found if found.body.is_sound and not found.doubtful else None


def _saved(rig: Rig) -> tuple[list[BodyPart], SegmentTable, str] | None:
    saved = of_armature(rig.data)
    rows = [row for row in saved.bones if row.bone] if saved else []
    if saved is None or not rows:
        return None
    lacking = next((row.bone for row in rows if row.bone not in rig.data.bones), None)
    if lacking is not None:
        raise SourceError(f'"{rig.name}" has no bone "{lacking}", which is listed in its body: map the bones again')
    rows.sort(key=lambda row: len(rig.data.bones[row.bone].parent_recursive))
    parts = [BodyPart(row.bone, row.segment, row.mass, row.along, (row.aside[0], row.aside[1])) for row in rows]
    table = SEGMENT_TABLES[saved.table]
    by_hand = all(part.segment == OWN_MASS for part in parts)
    masses = "masses of their own" if by_hand else table.label
    return parts, table, f"{_count(parts)} as mapped, {masses}"


def _named(naming: Naming) -> tuple[list[BodyPart], SegmentTable, str]:
    parts = [BodyPart(bone, segment) for bone, segment in naming.segments.items()]
    people = ", a table of people for what is named like an animal" if naming.creature else ""
    return parts, FEMALE, f"{_count(parts)} mapped by name, {FEMALE.label}{people}"


def _count(parts: list[BodyPart]) -> str:
    return "1 bone" if len(parts) == 1 else f"{len(parts)} bones"


def _rest(rig: Rig, parts: list[BodyPart]) -> Array:
    bones = [rig.data.bones[part.bone] for part in parts]
    return np.array([[bone.head_local, bone.tail_local] for bone in bones], np.float64).reshape(-1, 2, 3)
