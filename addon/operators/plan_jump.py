"""Plan Jump: lay the planned jump into the scene, as markers, a guide and keys."""

import numpy as np
from bpy.props import FloatVectorProperty
from bpy.types import Context, Operator

from ...analysis.errors import LeapwrightError
from ...analysis.planning.plan import Plan, plan_jump
from ..blender_words import Outcome
from ..planning import laying as plan_laying
from ..planning.keyable import refuse_if_no_key_can_be
from ..planning.markers import lay_markers
from ..planning.place import followed_name, place_of, place_of_keys, takeoff_in
from ..planning.settings import FIELDS, PlanFields, goal_of, plan_fields_in
from ..refusals import Refusing
from ..target import chosen_target, with_root


class LEAPWRIGHT_OT_plan_jump(Refusing, PlanFields, Operator):
    """Lay the planned jump into the scene."""

    bl_idname = "leapwright.plan_jump"
    bl_label = "Plan Jump"
    bl_description = "Lay the planned jump into the scene"
    bl_options = {"REGISTER", "UNDO", "PRESET"}

    origin: FloatVectorProperty(
        name="Takeoff", description="Set where it takes off", subtype="TRANSLATION", options={"SKIP_SAVE"}
    )

    @classmethod
    def poll(cls, context: Context) -> bool:
        if not context.scene.is_editable:
            cls.poll_message_set("The scene is linked from another file")
            return False
        return True

    def execute(self, context: Context) -> Outcome:
        unkeyed = self._take_over(context)
        if not (self.use_markers or self.use_guide or self.use_keys):
            self.report({"WARNING"}, "Nothing to lay: choose markers, a guide or keys")
            return {"CANCELLED"}
        try:
            plan = plan_jump(goal_of(self, context.scene))
            notes = (*self._lay(context, plan), *unkeyed)
        except LeapwrightError as refusal:
            return self.refuse(refusal)
        self.report({"WARNING"} if notes else {"INFO"}, plan_summary(plan, notes))
        return {"FINISHED"}

    def _take_over(self, context: Context) -> tuple[str, ...]:
        """Set what the call has not set to what the panel shows, so that the redo panel starts from it.

        Keys that nobody has turned on or off are laid where they can be; returned is why not, where they cannot.
        """
        fields, why = plan_fields_in(context.scene), None
        for name in FIELDS:
            if not self.properties.is_property_set(name):
                setattr(self, name, getattr(fields, name))
                if name == "use_keys" and not fields.is_property_set(name):
                    why = _why_unkeyed(context)
                    self.use_keys = why is None
        if not self.properties.is_property_set("origin"):
            self.origin = takeoff_in(context).tolist()
        return () if why is None else (f"no keys: {why}",)

    def _lay(self, context: Context, plan: Plan) -> tuple[str, ...]:
        """Refuse first, then write; return what could not be taken along."""
        scene, followed = context.scene, followed_name(context)
        place = place_of(scene, np.array(self.origin, dtype=np.float64), self.heading)
        notes: tuple[str, ...] = ()
        if self.use_keys:
            target = with_root(chosen_target(context))
            start, elsewhere = place_of_keys(context, place, target)
            keys = plan_laying.prepare_keys(scene, plan, start, target, replace=self.use_replace)
            plan_laying.lay_keys(keys)
            notes = (*elsewhere, *keys.notes)
        if self.use_markers:
            lay_markers(scene, plan, followed=followed)
        if self.use_guide:
            plan_laying.lay_guide(scene, plan, place, followed=followed)
        return notes


def _why_unkeyed(context: Context) -> str | None:
    """Say why no key can be laid; None where some can."""
    try:
        refuse_if_no_key_can_be(context)
    except LeapwrightError as refusal:
        return str(refusal)
    return None


def plan_summary(plan: Plan, notes: tuple[str, ...] = ()) -> str:
    """Say in one line where the events lie, and what was not taken along."""
    events = ", ".join(f"{key.event} {key.frame}" for key in plan.keys)
    return "; ".join((events[:1].upper() + events[1:], *notes))


CLASSES = (LEAPWRIGHT_OT_plan_jump,)
