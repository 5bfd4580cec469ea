"""Measure Push: take the pose of what is followed for the plan's crouch, or for its takeoff."""

from bpy.props import EnumProperty
from bpy.types import Context, Operator

from ...analysis.errors import LeapwrightError
from ..blender_words import Outcome
from ..planning.place import label_of, seen_at
from ..planning.settings import LEAPWRIGHT_PG_plan, plan_fields_in
from ..refusals import Refusing
from ..scene import unit_scale, upright
from ..sidebar.figures import in_units
from ..target import chosen_target, stand_in


class LEAPWRIGHT_OT_measure_push(Refusing, Operator):
    """Take the pose on this frame for the crouch or the takeoff of the plan."""

    bl_idname = "leapwright.measure_push"
    bl_label = "Measure Push"
    bl_description = "Take the height of what is followed on this frame; with crouch and takeoff the push is known"
    bl_options = {"REGISTER", "UNDO"}

    pose: EnumProperty(
        name="Pose",
        description="Choose which pose this frame shows",
        items=[
            ("crouch", "Crouch", "The lowest pose before the push"),
            ("takeoff", "Takeoff", "The last pose on the ground"),
        ],
        options={"SKIP_SAVE"},
    )

    @classmethod
    def poll(cls, context: Context) -> bool:
        if not cls.allowed(lambda: chosen_target(context)):
            return False
        if not context.scene.is_editable:
            cls.poll_message_set("The scene is linked from another file")
            return False
        return True

    def execute(self, context: Context) -> Outcome:
        try:
            target = stand_in(chosen_target(context))
            point = seen_at(context, target)
        except LeapwrightError as refusal:
            return self.refuse(refusal)
        fields, frame = plan_fields_in(context.scene), context.scene.frame_current
        if fields.measured_of != label_of(target):  # two poses of different things are no push
            fields.is_crouch_measured = fields.is_takeoff_measured = False
            fields.measured_of = label_of(target)
        if self.pose == "crouch":
            fields.crouch_place, fields.crouch_frame, fields.is_crouch_measured = point.tolist(), frame, True
            fields.start_frame = frame
        else:
            fields.takeoff_place, fields.takeoff_frame, fields.is_takeoff_measured = point.tolist(), frame, True
        if not (fields.is_crouch_measured and fields.is_takeoff_measured):
            other = "takeoff" if self.pose == "crouch" else "crouch"
            self.report({"INFO"}, f"{self.pose.capitalize()} taken at frame {frame}; go to the {other} for the other")
            return {"FINISHED"}
        return self._measured(context, fields)

    def _measured(self, context: Context, fields: LEAPWRIGHT_PG_plan) -> Outcome:
        """Set the push from the two poses, when they are one."""
        rise = float((upright(context.scene) @ fields.takeoff_place - upright(context.scene) @ fields.crouch_place)[2])
        if rise <= 0.0:
            self.report({"WARNING"}, "The takeoff lies no higher than the crouch: take them from other frames")
            return {"FINISHED"}
        fields.push_distance = rise
        length = in_units(rise * unit_scale(context.scene), "LENGTH", context.scene.unit_settings)
        self.report({"INFO"}, f"The push rises {length}, from frame {fields.crouch_frame} to {fields.takeoff_frame}")
        return {"FINISHED"}


CLASSES = (LEAPWRIGHT_OT_measure_push,)
