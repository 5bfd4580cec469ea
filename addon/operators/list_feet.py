"""Find Feet, Add Foot, Remove Foot: list the bones of the followed armature that touch the ground."""

from bpy.props import IntProperty
from bpy.types import Context, Object, Operator

from ...analysis.errors import LeapwrightError, SourceError
from ..feet.bones import find_feet
from ..feet.settings import of_rig
from ..target import target_of


def followed_rig(context: Context) -> Object:
    """Return the armature that is followed. Raises SourceError when something else is, or nothing."""
    thing = target_of(context).thing
    if getattr(thing, "pose", None) is None:
        raise SourceError("Follow an armature, or a bone of one: only those have feet")
    return thing


class _OfFeet:
    bl_options = {"REGISTER", "UNDO"}

    @classmethod
    def poll(cls, context: Context) -> bool:
        try:
            rig = followed_rig(context)
        except LeapwrightError as refusal:
            cls.poll_message_set(str(refusal))
            return False
        if not rig.is_editable:
            cls.poll_message_set(f'"{rig.name}" is linked: make a library override of it first')
            return False
        return True


class LEAPWRIGHT_OT_find_feet(_OfFeet, Operator):
    """Fill the list with the bones that are named like feet."""

    bl_idname = "leapwright.find_feet"
    bl_label = "Find Feet"
    bl_description = "List the bones that are named like feet"

    def execute(self, context: Context) -> set[str]:
        rig = followed_rig(context)
        names = find_feet(rig)
        if not names:
            self.report({"WARNING"}, f'No bone of "{rig.name}" is named like a foot')
            return {"CANCELLED"}
        feet = of_rig(rig)
        feet.bones.clear()
        for name in names:
            feet.bones.add().bone = name
        feet.use_feet = True
        self.report({"INFO"}, f"{len(names)} bones listed")
        return {"FINISHED"}


class LEAPWRIGHT_OT_add_foot(_OfFeet, Operator):
    """Add a row to the list, with the active bone in it."""

    bl_idname = "leapwright.add_foot"
    bl_label = "Add Foot"
    bl_description = "Add the active bone to the bones that touch the ground"

    def execute(self, context: Context) -> set[str]:
        rig = followed_rig(context)
        active = rig.data.bones.active
        listed = {foot.bone for foot in of_rig(rig).bones}
        of_rig(rig).bones.add().bone = active.name if active is not None and active.name not in listed else ""
        return {"FINISHED"}


class LEAPWRIGHT_OT_remove_foot(_OfFeet, Operator):
    """Take a row off the list."""

    bl_idname = "leapwright.remove_foot"
    bl_label = "Remove Foot"
    bl_description = "Remove this bone from those that touch the ground"

    row: IntProperty(name="Row", description="Place in the list, from 0", min=0, options={"SKIP_SAVE"})

    def execute(self, context: Context) -> set[str]:
        feet = of_rig(followed_rig(context))
        if self.row >= len(feet.bones):
            self.report({"WARNING"}, "The list has no such row")
            return {"CANCELLED"}
        feet.bones.remove(self.row)
        return {"FINISHED"}


CLASSES = (LEAPWRIGHT_OT_find_feet, LEAPWRIGHT_OT_add_foot, LEAPWRIGHT_OT_remove_foot)
