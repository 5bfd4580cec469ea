"""push-slows: the body slows down before it leaves the ground.

Exact law: the push shape k = push time · takeoff speed / (2 · push distance) is ½ or more whenever the speed
never exceeds that of the takeoff.
"""

from ..finding import Finding
from ..jump import Jump
from ..limits import Limits
from . import push_speed
from .basis.body import push_doubted
from .basis.tolerance import beyond, push_off


def find(jump: Jump, limits: Limits) -> Finding | None:
    """Tell when the push shape is under its least, by more than a frame, and its speed runs on into the flight.

    Only a note beside a push that is already told to be too short: it says why.
    """
    push = jump.push
    if push is None or push.shape is None or push.shape.value + push.shape.error >= limits.shape_least:
        return None
    if not beyond(push.excess.value, band=limits.frames_band * jump.step, error=push.excess.error):
        return None
    if push_speed.find(jump, limits):
        return None
    mean = push.distance.value * jump.fps / push.frames.value
    finding = Finding(
        code="push-slows",
        severity="note" if push_off(jump, limits) else "check",
        frames=(push.end.peak_frame if push.end else jump.takeoff.frame - push.frames.value, jump.takeoff.frame),
        template="The push slows before takeoff: it rises at {mean:.1f} m/s on average and leaves the ground "
        "at {speed:.1f} m/s",
        mend_template="Keep the body speeding up until frame {takeoff}: no ease into the takeoff key",
        values={"mean": mean, "speed": jump.flight.takeoff_speed, "takeoff": round(jump.takeoff.frame)},
        measured=push.shape.value,
        expected=1.0,
    )
    return push_doubted(finding, jump, limits)
