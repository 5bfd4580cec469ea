"""push-eases: the push dwells at its bottom and rises late.

A push shape k of 1.5 is a cubic ease-in (exact: k is half the end slope of the normalized push curve);
recorded pushes lie at 0.78 to 1.02.
"""

from ..finding import Finding
from ..jump import Jump
from ..limits import Limits
from . import push_speed
from .basis.tolerance import beyond


def find(jump: Jump, limits: Limits) -> Finding | None:
    """Tell when the push shape reaches its most, by more than a frame, and its speed runs on into the flight."""
    push = jump.push
    if push is None or push.shape is None or push.shape.value - push.shape.error < limits.shape_most:
        return None
    if not beyond(push.excess.value, band=limits.frames_band * jump.step, error=push.excess.error):
        return None
    if push_speed.find(jump, limits):
        return None
    return Finding(
        code="push-eases",
        severity="note",
        frames=(jump.takeoff.frame - push.frames.value, jump.takeoff.frame),
        template="The push dwells in the crouch and rises late: it takes {shape:.1f} times as long as a "
        "steady push to the same speed",
        mend_template="Ease less: hold the crouch until frame {start}, and gain speed evenly from there",
        values={"shape": push.shape.value, "start": jump.beat.at(jump.takeoff.frame - push.expected.value)},
        measured=push.shape.value,
        expected=1.0,
    )
