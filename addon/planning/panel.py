"""The sub-panel "Plan": what is asked of the jump, the frames it takes, and the button that lays them into the scene.

Draws, never computes: the plan is asked of `settings.plan_of`, which keeps it.
"""

from bpy.types import Context, UILayout

from ...analysis.errors import LeapwrightError, PlanError
from ...analysis.planning.plan import Plan
from .. import view
from ..refusals import capitalized
from ..sidebar.editors import ChosenPart, Room, draw_parts, in_editors, settings_column
from ..sidebar.figures import in_units, in_words
from ..sidebar.tables import LONG_NAMES_SHARE, draw_table
from ..sidebar.wrapping import paragraph
from ..target import chosen_target
from . import figures as plan_figures
from .settings import AIM_HEIGHT, LEAPWRIGHT_PG_plan, plan_fields_in, plan_of


class _Plan(Room):
    bl_label = "Plan"
    bl_options = {"DEFAULT_CLOSED"}

    def draw(self, context: Context) -> None:
        fields, layout, units = plan_fields_in(context.scene), self.layout, context.scene.unit_settings
        draw_parts(layout, "plan", columns=4)
        shown = view.of_window().plan
        if shown == "goal":
            _draw_goal(layout, fields)
            _draw_measured(layout, context, fields)
        elif shown == "more":
            _draw_more(layout, fields)
        try:
            plan = plan_of(context.scene)
        except PlanError as refusal:
            paragraph(layout, context, capitalized(in_words(refusal.template, refusal.values, units)), "ERROR")
            return
        except LeapwrightError as refusal:
            paragraph(layout, context, capitalized(str(refusal)), "ERROR")
            return
        if shown == "goal":
            draw_table(layout, context, ("", "Frame", "Height"), plan_figures.events(plan, units))
            _draw_laying(layout, context, fields)
            for note in plan.notes:
                paragraph(layout, context, capitalized(in_words(note.template, note.values, units)), "INFO")


class _OfPlan(ChosenPart):
    """A part of the panel that needs a plan."""

    part_of = "plan"

    @classmethod
    def poll(cls, context: Context) -> bool:
        return super().poll(context) and _plan(context) is not None


class _Frames(_OfPlan):
    bl_label = "Planned Timing"
    part = "timing"

    def draw(self, context: Context) -> None:
        plan, units = _plan(context), context.scene.unit_settings
        if plan is None:
            return
        draw_table(self.layout, context, ("", "Frames", "Exact"), plan_figures.spans(plan))
        cost = in_words(plan.rounding.template, plan.rounding.values, units)
        paragraph(self.layout, context, f"Rounding: {cost}")
        draw_table(self.layout, context, None, plan_figures.sizes(plan, units), names=LONG_NAMES_SHARE)
        draw_table(self.layout, context, ("", "Push + Air", "Agrees"), plan_figures.neighbors(plan))


class _Poses(_OfPlan):
    bl_label = "Frame by Frame"
    part = "poses"

    def draw(self, context: Context) -> None:
        plan, units = _plan(context), context.scene.unit_settings
        if plan is None:
            return
        column = self.layout.column(align=True)
        column.scale_y = 0.7
        for pose in plan_figures.shown_poses(plan):
            row = column.split(factor=0.15, align=True)
            row.label(text=f"{pose.frame}", translate=False)
            height = in_units(pose.height, "LENGTH", units)
            row.progress(factor=plan_figures.share_of_height(plan, pose), type="BAR", text=height, translate=False)


def _plan(context: Context) -> Plan | None:
    try:
        return plan_of(context.scene)
    except LeapwrightError:
        return None


def _draw_goal(layout: UILayout, fields: LEAPWRIGHT_PG_plan) -> None:
    layout.row().prop(fields, "size_from", expand=True)
    column = settings_column(layout)
    if fields.size_from == AIM_HEIGHT:
        column.prop(fields, "height")
        column.prop(fields, "zero")
        if fields.zero == "standing":
            column.prop(fields, "lift")
    else:
        column.prop(fields, "airtime")
    column.prop(fields, "push_distance")


def _draw_measured(layout: UILayout, context: Context, fields: LEAPWRIGHT_PG_plan) -> None:
    row = layout.row(align=True)
    row.operator("leapwright.measure_push", text="This Is My Crouch").pose = "crouch"
    row.operator("leapwright.measure_push", text="This Is My Takeoff").pose = "takeoff"
    taken = [("crouch", fields.is_crouch_measured, fields.crouch_frame)]
    taken += [("takeoff", fields.is_takeoff_measured, fields.takeoff_frame)]
    said = [f"{pose} from frame {frame}" for pose, is_measured, frame in taken if is_measured]
    if said:
        paragraph(layout, context, ", ".join(said).capitalize(), "CHECKMARK")


def _draw_more(layout: UILayout, fields: LEAPWRIGHT_PG_plan) -> None:
    column = settings_column(layout)
    column.prop(fields, "air_pace")
    column.prop(fields, "landing_height")
    row = column.row(heading="Absorb Distance")
    row.prop(fields, "use_absorb", text="")
    absorb = row.row()
    absorb.active = fields.use_absorb
    absorb.prop(fields, "absorb_distance", text="")
    column.prop(fields, "distance")
    if fields.distance > 0.0:
        column.prop(fields, "heading")
    column.prop(fields, "start_frame")


def _draw_laying(layout: UILayout, context: Context, fields: LEAPWRIGHT_PG_plan) -> None:
    row = layout.row()
    row.prop(fields, "use_markers")
    row.prop(fields, "use_guide")
    keys = layout.row()
    keys.active = _is_keyable(context)
    keys.prop(fields, "use_keys")
    if fields.use_keys:
        keys.prop(fields, "use_replace")
    button = layout.row()
    button.scale_y = 1.2
    button.operator("leapwright.plan_jump")


def _is_keyable(context: Context) -> bool:
    try:
        return chosen_target(context).kind.is_keyed
    except LeapwrightError:
        return False


CLASSES = (
    *in_editors(_Plan, "plan", "audit"),
    *in_editors(_Frames, "planned_timing", "plan"),
    *in_editors(_Poses, "planned_poses", "plan"),
)
