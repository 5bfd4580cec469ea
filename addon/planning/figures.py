"""The figures of a plan as the panel shows them: in the scene's own units, frames beside what is exact."""

import math

from bpy.types import UnitSettings

from ...analysis.planning.plan import Plan, PlannedPose
from ...analysis.planning.timing import Timing
from ..sidebar.figures import Figure, in_units

MOST_POSES = 30
"""Most rows of the frame-by-frame list; a longer plan shows every second pose, or every third, and so on."""


def events(plan: Plan, units: UnitSettings) -> tuple[Figure, ...]:
    """Give the frame of each event and its height above the takeoff."""
    return tuple(
        Figure(key.event.capitalize(), str(key.frame), in_units(key.height, "LENGTH", units)) for key in plan.keys
    )


def spans(plan: Plan) -> tuple[Figure, ...]:
    """Give whole frames beside what the law asks for."""
    timing, exact = plan.timing, plan.exact
    return (
        Figure("Push", str(timing.push_frames), f"{exact.push:.1f}"),
        Figure("Rise", str(timing.rise_frames), f"{exact.rise:.1f}"),
        Figure("Fall", str(timing.fall_frames), f"{exact.fall:.1f}"),
        Figure("Airtime", str(timing.airtime_frames), f"{exact.airtime:.1f}"),
        Figure("Absorb", str(timing.absorb_frames), f"{exact.absorb:.1f}"),
    )


def sizes(plan: Plan, units: UnitSettings) -> tuple[Figure, ...]:
    """Give heights, the force of the push, speed and angle of the takeoff."""
    return (
        Figure("Jump Height", in_units(plan.exact.height, "LENGTH", units)),
        Figure("Push Ratio", f"{plan.push_ratio:.2f}"),
        Figure("Body Weights", f"{plan.body_weights:.1f}"),
        Figure("Takeoff", in_units(plan.takeoff_speed, "VELOCITY", units), f"{math.degrees(plan.takeoff_angle):.0f}°"),
        Figure("Landing", in_units(plan.landing_speed, "VELOCITY", units)),
        Figure("Air Pace", f"{plan.timing.air_pace:.2f}"),
        Figure("Agreement", f"{plan.timing.agreement:.2f}"),
    )


def neighbors(plan: Plan) -> tuple[Figure, ...]:
    """Give each timing a step away: its frames of push and air, its agreement."""
    return tuple(
        Figure(change.part.capitalize(), _frames(timing), f"{timing.agreement:.2f}", more=_signed(change.frames))
        for change, timing in plan.neighbors
    )


def shown_poses(plan: Plan) -> tuple[PlannedPose, ...]:
    """Choose the poses that the list has room for, the keys always among them."""
    every = math.ceil(len(plan.poses) / MOST_POSES)
    keyed = {key.frame for key in plan.keys}
    return tuple(pose for n, pose in enumerate(plan.poses) if n % every == 0 or pose.frame in keyed)


def share_of_height(plan: Plan, pose: PlannedPose) -> float:
    """Give how far up a pose lies, from the lowest, 0, to the apex, 1."""
    low = min(key.height for key in plan.keys)
    return min(max((pose.height - low) / (plan.exact.height - low), 0.0), 1.0)


def _signed(frames: int) -> str:
    return f"{'−' if frames < 0 else '+'}{abs(frames)}"


def _frames(timing: Timing) -> str:
    return f"{timing.push_frames} + {timing.airtime_frames}"
