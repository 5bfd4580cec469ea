"""travel-swerve: the direction over the ground changes in the air.

Seen from above a free flight is a straight line.
"""

import math

from ..finding import Finding
from ..jump import Jump
from ..limits import Limits
from ..tolerance import beyond, travels


def find(jump: Jump, limits: Limits) -> Finding | None:
    """Tell when the direction's range leaves its tolerance."""
    if not travels(jump, limits):
        return None
    if not beyond(jump.travel_turn, band=limits.swerve_band, error=jump.travel_turn_error):
        return None
    return Finding(
        code="travel-swerve",
        severity="check",
        frames=(jump.takeoff.frame, jump.landing.frame),
        template="The travel swerves by {turn:.0f}° in the air; seen from above a flight is straight",
        mend_template="Lay the path from frame {takeoff} to {landing} on one straight line, seen from above",
        values={
            "turn": math.degrees(jump.travel_turn),
            "takeoff": round(jump.takeoff.frame),
            "landing": round(jump.landing.frame),
        },
        measured=math.degrees(jump.travel_turn),
        expected=0.0,
    )
