"""Find Feet, Add Foot, Remove Foot: list the bones of the followed armature that touch the ground."""

from bpy.props import IntProperty
from bpy.types import Context, Operator

from ..blender_words import Outcome
from ..feet.bones import find_feet
from ..feet.settings import FEET_ON
from .of_rig import OfRig


class _OfFeet(OfRig):
    has = "feet"


class LEAPWRIGHT_OT_find_feet(_OfFeet, Operator):
    """Fill the list with the bones that are named like feet."""

    bl_idname = "leapwright.find_feet"
    bl_label = "Find Feet"
    bl_description = "List the bones that are named like feet"

    def execute(self, context: Context) -> Outcome:
        rig = self.rig(context)
        names = find_feet(rig)
        if not names:
            self.report({"WARNING"}, f'No bone of "{rig.name}" is named like a foot')
            return {"CANCELLED"}
        feet = rig.leapwright_feet
        feet.bones.clear()
        for name in names:
            feet.bones.add().bone = name
        feet.reading = FEET_ON
        self.report({"INFO"}, f"{len(names)} bones listed")
        return {"FINISHED"}


class LEAPWRIGHT_OT_add_foot(_OfFeet, Operator):
    """Add a row to the list, with the active bone in it."""

    bl_idname = "leapwright.add_foot"
    bl_label = "Add Foot"
    bl_description = "Add the active bone to the bones that touch the ground"

    def execute(self, context: Context) -> Outcome:
        rig = self.rig(context)
        active = rig.data.bones.active
        listed = {foot.bone for foot in rig.leapwright_feet.bones}
        rig.leapwright_feet.bones.add().bone = active.name if active is not None and active.name not in listed else ""
        return {"FINISHED"}


class LEAPWRIGHT_OT_remove_foot(_OfFeet, Operator):
    """Take a row off the list."""

    bl_idname = "leapwright.remove_foot"
    bl_label = "Remove Foot"
    bl_description = "Remove this bone from those that touch the ground"

    row: IntProperty(name="Row", description="Place in the list, from 0", min=0, options={"SKIP_SAVE"})

    def execute(self, context: Context) -> Outcome:
        feet = self.rig(context).leapwright_feet
        if self.row >= len(feet.bones):
            self.report({"WARNING"}, "The list has no such row")
            return {"CANCELLED"}
        feet.bones.remove(self.row)
        return {"FINISHED"}


CLASSES = (LEAPWRIGHT_OT_find_feet, LEAPWRIGHT_OT_add_foot, LEAPWRIGHT_OT_remove_foot)
