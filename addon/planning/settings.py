"""What is asked of a jump to be planned: fields of the scene, saved with it, and the same in the redo panel.

Lengths in Blender units, as Blender shows them; the gravity, step and kind are those of the audit's settings.
"""

import math
from functools import lru_cache

import bpy
from bpy.props import (
    BoolProperty,
    CollectionProperty,
    EnumProperty,
    FloatProperty,
    FloatVectorProperty,
    IntProperty,
    PointerProperty,
    StringProperty,
)
from bpy.types import PropertyGroup, Scene

from ...analysis.planning.goal import LIFT, Goal
from ...analysis.planning.plan import Plan, plan_jump
from ..saved import Saved
from ..scene import frame_rate, settings_of, unit_scale

AIM_HEIGHT, AIM_AIRTIME = "height", "airtime"


class PlanFields:
    """The fields, for the scene's settings and for the operator that plans by them."""

    size_from: EnumProperty(
        name="Plan from",
        description="Choose what the jump is given by",
        items=[
            (AIM_HEIGHT, "Height", "Give the height; the frames follow"),
            (AIM_AIRTIME, "Airtime", "Give the frames in the air; the height follows"),
        ],
        default=AIM_HEIGHT,
        options=set(),
    )
    height: FloatProperty(
        name="Height", description="Set how high it rises", subtype="DISTANCE", default=0.4, min=0.0, soft_max=5.0,
        options=set(),
    )  # fmt: skip
    airtime: IntProperty(
        name="Airtime", description="Set the frames from takeoff to landing", default=14, min=1, soft_max=100,
        options=set(),
    )  # fmt: skip
    zero: EnumProperty(
        name="Counts from",
        description="Choose what the height counts from",
        items=[
            ("takeoff", "Takeoff", "From the moment the feet leave the ground"),
            ("standing", "Standing", "From a standing pose: at takeoff an adult is 11 to 22 cm higher already"),
        ],
        default="takeoff",
        options=set(),
    )
    lift: FloatProperty(
        name="Lift",
        description="Set how much higher than standing the body is at takeoff; 11 to 22 cm for adults",
        subtype="DISTANCE", default=LIFT, min=0.0, soft_max=0.5, options=set(),
    )  # fmt: skip
    push_distance: FloatProperty(
        name="Push Distance",
        description="Set the rise from crouch to takeoff",
        subtype="DISTANCE", default=0.4, min=0.0, soft_max=2.0, options=set(),
    )  # fmt: skip
    landing_height: FloatProperty(
        name="Landing",
        description="Set how far above the takeoff it lands; negative for lower",
        subtype="DISTANCE", soft_min=-5.0, soft_max=5.0, options=set(),
    )  # fmt: skip
    use_absorb: BoolProperty(
        name="Absorb Distance",
        description="Set by hand how far the landing gives; otherwise as far as the push",
        options=set(),
    )
    absorb_distance: FloatProperty(
        name="Absorb Distance",
        description="Set the fall from landing to the lowest point",
        subtype="DISTANCE", default=0.4, min=0.0, soft_max=2.0, options=set(),
    )  # fmt: skip
    air_pace: FloatProperty(
        name="Air Pace",
        description="Set how fast it plays against real time: over 1 snappy, under 1 floaty",
        default=1.0, min=0.05, max=20.0, soft_min=0.5, soft_max=2.0, options=set(),
    )  # fmt: skip
    distance: FloatProperty(
        name="Distance",
        description="Set how far across it lands",
        subtype="DISTANCE", min=0.0, soft_max=10.0, options=set(),
    )  # fmt: skip
    heading: FloatProperty(
        name="Heading",
        description="Turn the way across about the vertical, from the scene's X",
        subtype="ANGLE", soft_min=-math.pi, soft_max=math.pi, options=set(),
    )  # fmt: skip
    start_frame: IntProperty(name="Crouch at", description="Set the frame of the crouch", default=1, options=set())
    use_markers: BoolProperty(
        name="Markers", description="Add a timeline marker for each of the five events", default=True, options=set()
    )
    use_guide: BoolProperty(
        name="Guide",
        description="Add a curve from takeoff to landing with a tick a frame, not rendered",
        default=True, options=set(),
    )  # fmt: skip
    use_keys: BoolProperty(
        name="Keys",
        description="Key the location of what is followed along the path, where that can be keyed",
        default=True, options=set(),
    )  # fmt: skip
    use_replace: BoolProperty(
        name="Replace Keys", description="Remove the location keys already there between crouch and absorbed",
        options=set(),
    )  # fmt: skip


FIELDS = tuple(PlanFields.__annotations__)


class LEAPWRIGHT_PG_laid_marker(PropertyGroup):
    """A timeline marker that a plan has laid, and for what: another plan for the same replaces it."""

    frame: IntProperty(options=set())
    followed: StringProperty(options=set())


class LEAPWRIGHT_PG_plan(PlanFields, PropertyGroup):
    """The goal of one scene, and the two poses its push was measured from."""

    is_crouch_measured: BoolProperty(options=set())
    is_takeoff_measured: BoolProperty(options=set())
    measured_of: StringProperty(options=set())
    crouch_frame: IntProperty(options=set())
    takeoff_frame: IntProperty(options=set())
    crouch_place: FloatVectorProperty(subtype="TRANSLATION", options=set())
    takeoff_place: FloatVectorProperty(subtype="TRANSLATION", options=set())
    laid: CollectionProperty(type=LEAPWRIGHT_PG_laid_marker)


CLASSES = (LEAPWRIGHT_PG_laid_marker, LEAPWRIGHT_PG_plan)


def plan_fields_in(scene: Scene) -> LEAPWRIGHT_PG_plan:
    """Return the plan's fields of a scene."""
    return scene.leapwright_plan


def goal_of(fields: PlanFields, scene: Scene) -> Goal:
    """Turn the fields into a Goal. Raises PlanError, or SettingsError where the scene has no gravity."""
    unit = unit_scale(scene)
    by_height = fields.size_from == AIM_HEIGHT
    return Goal(
        _typed(fields.push_distance, unit),
        height=_typed(fields.height, unit) if by_height else None,
        airtime_frames=None if by_height else fields.airtime,
        world=settings_of(scene).world,
        fps=frame_rate(scene),
        air_pace=_typed(fields.air_pace, 1.0),
        landing_height=_typed(fields.landing_height, unit),
        absorb_distance=_typed(fields.absorb_distance, unit) if fields.use_absorb else None,
        distance=_typed(fields.distance, unit),
        zero=fields.zero,
        lift=_typed(fields.lift, unit),
        start_frame=fields.start_frame,
    )


def plan_of(scene: Scene) -> Plan:
    """Plan what the scene's fields ask for; cheap enough for drawing. Raises LeapwrightError."""
    return _planned(goal_of(plan_fields_in(scene), scene))


_planned = lru_cache(maxsize=16)(plan_jump)


def _typed(value: float, unit: float) -> float:
    """Return the number as it was typed, without the noise of its four bytes."""
    return float(f"{value:.6g}") * unit


SAVED = Saved(bpy.types.Scene, "leapwright_plan", CLASSES, lambda: PointerProperty(type=LEAPWRIGHT_PG_plan))
register, unregister = SAVED.register, SAVED.unregister
