"""Map by Name, Weigh by Mesh, Add Bone, Remove Bone: which bones are the followed armature's body."""

from collections.abc import Iterable

from bpy.props import IntProperty
from bpy.types import ID, Context, Operator

from ...analysis.errors import LeapwrightError, SourceError
from ...analysis.mass.body import BodyPart
from ..blender_words import Outcome
from ..mass.bound_mesh import bound_parts
from ..mass.rig import body_of_rig, naming_of
from ..mass.settings import LEAPWRIGHT_PG_body
from ..refusals import capitalized
from ..rigs import Rig
from ..scene import unit_scale
from .of_rig import OfRig


class _OfBody(OfRig):
    has = "a body"

    @staticmethod
    def holder(rig: Rig) -> ID:
        """Return the armature, which the body is saved with."""
        return rig.data


class _Fill(_OfBody):
    """Fill the table anew and say what it makes."""

    def parts(self, context: Context, rig: Rig) -> list[BodyPart]:
        """Return a part for every bone that is to be listed. Raises SourceError when none is."""
        raise NotImplementedError

    def doubt(self, _rig: Rig) -> str:
        """Say what speaks against the table as it is filled; "" for nothing."""
        return ""

    def execute(self, context: Context) -> Outcome:
        rig = self.rig(context)
        try:
            parts = self.parts(context, rig)
        except LeapwrightError as refusal:
            return self.refuse(refusal, level="WARNING")
        fill(rig.data.leapwright_body, parts)
        found = body_of_rig(rig)
        warning = found.warning or self.doubt(rig)
        if warning:
            self.report({"WARNING"}, capitalized(warning))
        else:
            self.report({"INFO"}, capitalized(found.known))
        return {"FINISHED"}


class LEAPWRIGHT_OT_map_body(_Fill, Operator):
    """Fill the table with the bones that are named like parts of a body."""

    bl_idname = "leapwright.map_body"
    bl_label = "Map by Name"
    bl_description = "List the bones that are named like parts of a body, each with its segment"

    def parts(self, _context: Context, rig: Rig) -> list[BodyPart]:
        """Return a part for every bone whose name tells. Raises SourceError when none does."""
        naming = naming_of(rig)
        if not naming.segments:
            raise SourceError(f'no bone of "{rig.name}" is named like a part of a body: add bones by hand')
        return [BodyPart(bone, segment) for bone, segment in naming.segments.items()]

    def doubt(self, rig: Rig) -> str:
        """Say that a table of people does not fit an animal."""
        doubt = "Named like an animal, weighed like a person: Weigh by Mesh fits better"
        return doubt if naming_of(rig).creature else ""


class LEAPWRIGHT_OT_weigh_body(_Fill, Operator):
    """Fill the table with the bones a mesh is bound to."""

    bl_idname = "leapwright.weigh_body"
    bl_label = "Weigh by Mesh"
    bl_description = "List the bones that meshes are bound to, each with the mass of what it carries"

    def parts(self, context: Context, rig: Rig) -> list[BodyPart]:
        """Return a part for every bone that carries some of a mesh. Raises SourceError when none does."""
        return bound_parts(rig, unit_scale(context.scene))


class LEAPWRIGHT_OT_add_body_bone(_OfBody, Operator):
    """Add a row to the table, with the active bone in it."""

    bl_idname = "leapwright.add_body_bone"
    bl_label = "Add Bone"
    bl_description = "Add the active bone to the body"

    def execute(self, context: Context) -> Outcome:
        rig = self.rig(context)
        body, active = rig.data.leapwright_body, rig.data.bones.active
        listed = {row.bone for row in body.bones}
        body.bones.add().bone = active.name if active is not None and active.name not in listed else ""
        body.chosen = len(body.bones) - 1
        return {"FINISHED"}


class LEAPWRIGHT_OT_remove_body_bone(_OfBody, Operator):
    """Take a row off the table."""

    bl_idname = "leapwright.remove_body_bone"
    bl_label = "Remove Bone"
    bl_description = "Remove the chosen bone from the body"

    row: IntProperty(name="Row", description="Place in the table, from 0", min=0, options={"SKIP_SAVE"})

    def execute(self, context: Context) -> Outcome:
        body = self.rig(context).data.leapwright_body
        if self.row >= len(body.bones):
            self.report({"WARNING"}, "The table has no such row")
            return {"CANCELLED"}
        body.bones.remove(self.row)
        body.chosen = max(0, min(body.chosen, len(body.bones) - 1))
        return {"FINISHED"}


def fill(body: LEAPWRIGHT_PG_body, parts: Iterable[BodyPart]) -> None:
    """Put these parts into the table, in place of what it held."""
    body.bones.clear()
    body.chosen = 0
    for part in parts:
        row = body.bones.add()
        row.bone, row.segment, row.mass = part.bone, part.segment, part.mass
        row.along, row.aside = part.along, part.aside


CLASSES = (
    LEAPWRIGHT_OT_map_body,
    LEAPWRIGHT_OT_weigh_body,
    LEAPWRIGHT_OT_add_body_bone,
    LEAPWRIGHT_OT_remove_body_bone,
)
