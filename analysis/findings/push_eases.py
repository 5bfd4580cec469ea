"""push-eases: the push dwells at its bottom and rises late.

A push shape k of 1.5 is a cubic ease-in (exact: k is half the end slope of the normalised push curve);
recorded pushes lie at 0.78 to 1.02.
"""

from ..finding import Finding
from ..jump import Jump
from ..limits import Limits
from ..tolerance import beyond
from . import push_speed


def find(jump: Jump, limits: Limits) -> Finding | None:
    """Tell when the push shape reaches its most, by more than a frame, and its speed runs on into the flight."""
    if jump.push_shape is None or jump.push_shape - jump.push_shape_error < limits.shape_most:
        return None
    if not beyond(jump.push_excess, band=limits.frames_band * jump.step, error=jump.push_excess_error):
        return None
    if push_speed.find(jump, limits):
        return None
    return Finding(
        code="push-eases",
        severity="note",
        frames=(jump.crouch.frame, jump.takeoff.frame),
        template="The push dwells in the crouch and rises late: it takes {shape:.1f} times as long as a "
        "steady push to the same speed",
        mend_template="Ease out of the crouch sooner, or hold it longer and start the push later",
        values={"shape": jump.push_shape},
        measured=jump.push_shape,
        expected=1.0,
    )
