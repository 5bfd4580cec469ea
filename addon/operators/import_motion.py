"""Import Motion Capture: add a .bvh file to the scene as an armature, and follow it."""

from pathlib import Path
from typing import TYPE_CHECKING

import bpy
from bpy.props import BoolProperty, StringProperty
from bpy.types import Context, Operator
from bpy_extras.io_utils import ImportHelper

from ...analysis.errors import LeapwrightError
from ..blender_words import Outcome
from ..scene import frame_rate
from ..settings import ACTIVE, shown_in
from ..shots.bvh import add_bvh
from ..target import Target, stand_in


class LEAPWRIGHT_OT_import_motion(ImportHelper, Operator):  # type: ignore[misc]  # Blender mixes them so itself
    """Add a recording and follow it; the audit is left to Audit Jump."""

    bl_idname = "leapwright.import_motion"
    bl_label = "Import Motion"  # longer ones are cut off on the file browser's button
    bl_description = "Add a recording from a .bvh file as an armature, and follow it"
    bl_options = {"REGISTER", "UNDO"}

    if TYPE_CHECKING:
        filepath: str  # a property of ImportHelper
    filename_ext = ".bvh"
    filter_glob: StringProperty(default="*.bvh", options={"HIDDEN"})
    use_file_rate: BoolProperty(
        name="Set Frame Rate",
        description="Set the scene's frame rate to the recording's; otherwise poses keep their times at the scene's",
        options={"SKIP_SAVE"},
    )

    @classmethod
    def poll(cls, context: Context) -> bool:
        if not context.scene.is_editable:
            cls.poll_message_set("The scene is linked from another file")
            return False
        if not hasattr(bpy.types, "IMPORT_ANIM_OT_bvh"):
            cls.poll_message_set("Turn on Blender's BVH add-on in the preferences first")
            return False
        return True

    def execute(self, context: Context) -> Outcome:
        path = Path(bpy.path.abspath(self.filepath))
        try:
            rig, notes = add_bvh(context, path, use_file_rate=self.use_file_rate)
        except LeapwrightError as refusal:
            self.report({"ERROR"}, f'"{path.name}" cannot be read: {refusal}')
            return {"CANCELLED"}
        target = stand_in(Target(rig, is_named=False))
        _follow(context, target)
        action = rig.animation_data.action if rig.animation_data else None
        first, last = action.frame_range if action else (0.0, 0.0)
        said = f'"{rig.name}" lies on frames {first:.0f} to {last:.0f} at {frame_rate(context.scene):.5g} fps'
        self.report({"WARNING"} if notes else {"INFO"}, "; ".join((said, _reason(target), *notes)))
        return {"FINISHED"}


def _follow(context: Context, target: Target) -> None:
    """Make the settings follow it; where they follow what is active, it is that already."""
    settings = shown_in(context)
    if settings.follow != ACTIVE:
        settings.follow, settings.thing, settings.bone = target.source, target.object, target.bone


def _reason(target: Target) -> str:
    whole = "" if target.kind.is_weighed else ", since its bones are not named like a whole body's"
    return f"{target.name} is followed{whole}"


CLASSES = (LEAPWRIGHT_OT_import_motion,)
