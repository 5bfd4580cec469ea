"""A plan as JSON values, named as an audit names them. Meters, m/s, m/s², frames, degrees."""

import math
from typing import Any

from ..planning.plan import Plan
from ..planning.timing import Timing
from ..version import leapwright_version

PLAN_SCHEMA = "leapwright-plan/1"


def plan_data(plan: Plan) -> dict[str, Any]:
    """Give the whole plan as what `json` can write."""
    goal, exact = plan.goal, plan.exact
    return {
        "schema": PLAN_SCHEMA,
        "leapwright": leapwright_version(),
        "fps": goal.fps,
        "gravity": goal.world.gravity,
        "kind": goal.world.kind,
        "step": goal.world.step,
        "zero": goal.zero,
        "lift": goal.lift if goal.zero == "standing" else None,
        **{key.event: {"frame": key.frame, "height": key.height, "across": key.across} for key in plan.keys},
        "apex_frame": plan.apex_frame,
        "push_distance": exact.push_distance,
        "jump_height": exact.height,
        "drop_height": exact.drop,
        "absorb_distance": exact.absorb_distance,
        "distance": goal.distance,
        "push_ratio": plan.push_ratio,
        "absorb_ratio": plan.absorb_ratio,
        "body_weights": plan.body_weights,
        "push_frames_expected": exact.push,
        "rise_frames_expected": exact.rise,
        "fall_frames_expected": exact.fall,
        "airtime_frames_expected": exact.airtime,
        "absorb_frames_expected": exact.absorb,
        **timing_data(plan.timing),
        "fitted_gravity": plan.fitted_gravity,
        "takeoff_speed": plan.takeoff_speed,
        "takeoff_angle": math.degrees(plan.takeoff_angle),
        "landing_speed": plan.landing_speed,
        "travel_speed": plan.travel_speed,
        "rounding": str(plan.rounding),
        "neighbors": [{"change": str(change), **timing_data(timing)} for change, timing in plan.neighbors],
        "poses": [pose._asdict() for pose in plan.poses],
        "notes": list(map(str, plan.notes)),
    }


def timing_data(timing: Timing) -> dict[str, Any]:
    """Give one timing: its frames, its paces, its agreement."""
    names = ("push_frames", "rise_frames", "fall_frames", "airtime_frames", "absorb_frames")
    worth = ("air_pace", "push_pace", "agreement", "height_at_pace")
    return {name: getattr(timing, name) for name in (*names, *worth)}
