"""push-slows: the body slows down before it leaves the ground.

Exact law: the push shape k = push time · takeoff speed / (2 · push distance) is ½ or more whenever the speed
never exceeds that of the takeoff.
"""

from ..finding import Finding
from ..jump import Jump
from ..limits import Limits
from ..tolerance import beyond, push_off
from . import push_speed


def find(jump: Jump, limits: Limits) -> Finding | None:
    """Tell when the push shape is under its least, by more than a frame, and its speed runs on into the flight.

    Only a note beside a push that is already told to be too short: it says why.
    """
    if jump.push_shape is None or jump.push_shape + jump.push_shape_error >= limits.shape_least:
        return None
    if not beyond(jump.push_excess, band=limits.frames_band * jump.step, error=jump.push_excess_error):
        return None
    if push_speed.find(jump, limits):
        return None
    mean = jump.push_distance * jump.fps / jump.push_frames
    return Finding(
        code="push-slows",
        severity="note" if push_off(jump, limits) else "check",
        frames=(jump.push_peak_frame or jump.crouch.frame, jump.takeoff.frame),
        template="The push slows before takeoff: it rises at {mean:.1f} m/s on average and leaves the ground "
        "at {speed:.1f} m/s",
        mend_template="Keep the body speeding up until frame {takeoff}: no ease into the takeoff key",
        values={"mean": mean, "speed": jump.takeoff_speed, "takeoff": round(jump.takeoff.frame)},
        measured=jump.push_shape,
        expected=1.0,
    )
