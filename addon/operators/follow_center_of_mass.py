"""Follow Center of Mass: have the settings follow that of the armature that is followed, and audit it."""

from bpy.types import ID, Context, Operator

from ...analysis.errors import LeapwrightError
from ..auditing import audit_followed
from ..blender_words import Outcome
from ..mass.bound_mesh import bound_parts
from ..mass.rig import body_of_rig
from ..refusals import capitalized
from ..rigs import Rig
from ..scene import unit_scale
from ..settings import of_scene
from .map_body import fill
from .of_rig import OfRig


class LEAPWRIGHT_OT_follow_center_of_mass(OfRig, Operator):
    """Follow the center of mass, and audit it; weigh the meshes bound to the bones where no names tell a body."""

    bl_idname = "leapwright.follow_center_of_mass"
    bl_label = "Follow Center of Mass"
    bl_description = (
        "Follow the center of mass of the armature, which a tuck or a turn does not move, and audit it; "
        "where its bones tell no body, the meshes bound to them are weighed"
    )
    has = "a body"

    @staticmethod
    def holder(rig: Rig) -> ID:
        """Return the armature, which the body is saved with."""
        return rig.data

    def execute(self, context: Context) -> Outcome:
        rig = self.rig(context)
        try:
            known = body_of_rig(rig).known
        except LeapwrightError:
            try:
                fill(rig.data.leapwright_body, bound_parts(rig, unit_scale(context.scene)))
                known = body_of_rig(rig).known
            except LeapwrightError as refusal:
                return self.refuse(refusal)
        settings = of_scene(context.scene)
        settings.follow, settings.thing = "center_of_mass", rig
        try:
            audit_followed(context)
        except LeapwrightError as refusal:
            self.report({"WARNING"}, capitalized(str(refusal)))
            return {"FINISHED"}  # the settings have changed, which is to be undone
        self.report({"INFO"}, f'The center of mass of "{rig.name}" is followed: {known}')
        return {"FINISHED"}


CLASSES = (LEAPWRIGHT_OT_follow_center_of_mass,)
