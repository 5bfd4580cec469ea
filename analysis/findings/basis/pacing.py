"""What a flight or a push that takes too many frames and one that takes too few have in common: their size.

What mends them is a plan of the whole jump, which `analysis/mending` makes.
"""

from ...beat import frames_said
from ...finding import Finding
from ...jump import Jump
from ...law import rise_in
from ...limits import Limits
from ...measures.push import Push
from .body import doubted
from .tolerance import gravity_severity, push_off, push_severity

ALLOWED = "Leave it, if the style is meant and the push goes with it"


def flight_finding(code: str, opening: str, jump: Jump, limits: Limits, *, ratio: float) -> Finding:
    """Tell of a flight whose gravity is off by `ratio`; opening: the sentence's first words."""
    flight = jump.flight
    # In the same airtime, between the same contacts, the world's gravity would have it so much higher or lower.
    up, seconds = flight.height.value, flight.airtime.value / jump.fps
    asked = rise_in(seconds, landing=up - flight.drop.value, gravity=jump.gravity)
    off = abs(1.0 - ratio) * jump.gravity * seconds**2 / 8.0 if asked is None else abs(asked - up)
    finding = Finding(
        code=code,
        severity=gravity_severity(jump, limits, ratio=ratio),
        frames=(jump.takeoff.frame, jump.landing.frame),
        template=opening + ": {airtime:g} frames where {height:.2f} m up and {drop:.2f} m down ask "
        "for {expected:g}, as if gravity were {ratio:.2f} of {gravity:.2f} m/s²",
        mend_template=ALLOWED if push_off(jump, limits) == 0.0 else "",
        values={
            "airtime": round(flight.airtime.value, 1),
            "expected": round(flight.expected, 1),
            "height": flight.height.value,
            "drop": flight.drop.value,
            "ratio": ratio,
            "gravity": jump.gravity,
        },
        measured=flight.airtime.value,
        expected=flight.expected,
    )
    return doubted(finding, jump, off=off)


def push_finding(code: str, jump: Jump, push: Push, limits: Limits) -> Finding:
    """Tell of a push that lasts longer or shorter than the flight asks for."""
    lasts, asked = push.frames.value, push.expected.value
    return Finding(
        code=code,
        severity=push_severity(push, limits),
        frames=(jump.takeoff.frame - lasts, jump.takeoff.frame),
        template="The push lasts {push}, the flight asks for {least:g} to {expected:g}",
        values={
            "push": frames_said(lasts),
            "least": round(limits.push_usual * asked, 1),
            "expected": round(asked, 1),
        },
        measured=lasts,
        expected=asked,
    )
