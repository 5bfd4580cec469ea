"""travel-swerve: the direction over the ground changes in the air.

Seen from above a free flight is a straight line.
"""

import math

from ..finding import Finding
from ..jump import Jump
from ..limits import Limits
from .basis.body import doubted
from .basis.tolerance import beyond, course_of


def find(jump: Jump, limits: Limits) -> Finding | None:
    """Tell when the direction's range leaves its tolerance."""
    course = course_of(jump, limits)
    if course is None:
        return None
    # A range is never under 0: noise alone gives one of about its error.
    noise = course.turn.error
    if not beyond(course.turn.value, band=limits.swerve_band + noise, error=noise):
        return None
    finding = Finding(
        code="travel-swerve",
        severity="check",
        frames=(jump.takeoff.frame, jump.landing.frame),
        template="The travel swerves by {turn:.0f}° in the air; seen from above a flight is straight",
        mend_template="Lay the path from frame {takeoff} to {landing} on one straight line, seen from above",
        values={
            "turn": math.degrees(course.turn.value),
            "takeoff": round(jump.takeoff.frame),
            "landing": round(jump.landing.frame),
        },
        measured=math.degrees(course.turn.value),
        expected=0.0,
    )
    return doubted(finding, jump, off=course.strays)
