"""push-long: the push takes more frames than the flight after it asks for.

Law: rise frames ÷ push ratio, so that a style of the flight carries over to the push (Samozino et al. 2008
for the constant push). Recorded pushes take 0.78 to 1.02 of it.
"""

from ..finding import Finding
from ..jump import Jump
from ..limits import Limits
from ..timing import best_crouch, best_flight, counted, left_over
from ..tolerance import push_off, push_severity


def find(jump: Jump, limits: Limits) -> Finding | None:
    """Tell when the push is too long by more than its tolerance."""
    off = push_off(jump, limits)
    if off is None or off <= 0.0:
        return None
    now, then = best_crouch(jump, push=jump.push_frames_expected)
    longer = best_flight(jump, airtime=jump.airtime_frames * jump.push_frames / jump.push_frames_expected)
    return Finding(
        code="push-long",
        severity=push_severity(jump, limits),
        frames=(jump.crouch.frame, jump.takeoff.frame),
        template="The push lasts {push}, the flight asks for {expected:g}",
        mend_template="Move the crouch key from {now} to {then} ({left}); or keep the push and let the "
        "flight last {flight} frames",
        values={
            "push": counted(jump.push_frames),
            "expected": round(jump.push_frames_expected, 1),
            "now": now,
            "then": then,
            "left": left_over(jump.takeoff.frame - then - jump.push_frames_expected),
            "flight": longer.airtime,
        },
        measured=jump.push_frames,
        expected=jump.push_frames_expected,
    )
