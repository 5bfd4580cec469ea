"""What a flight or a push that takes too many frames and one that takes too few have in common: size and mend."""

from ...beat import counted, left_over
from ...finding import Finding
from ...jump import Jump
from ...limits import Limits
from ...measures.push import Push
from .mending import best_crouch, best_flight, flight_mend
from .tolerance import gravity_severity, push_off, push_severity


def flight_finding(code: str, opening: str, jump: Jump, limits: Limits, *, ratio: float) -> Finding:
    """Tell of a flight whose gravity is off by `ratio`; opening: the sentence's first words."""
    flight = jump.flight
    mend, values = flight_mend(jump, ratio=ratio, agrees=push_off(jump, limits) == 0.0)
    return Finding(
        code=code,
        severity=gravity_severity(jump, limits, ratio=ratio),
        frames=(jump.takeoff.frame, jump.landing.frame),
        template=opening + ": {airtime:g} frames where {height:.2f} m up and {drop:.2f} m down ask "
        "for {expected:g}, as if gravity were {ratio:.2f} of the scene's",
        mend_template=mend,
        values={
            **values,
            "airtime": round(flight.airtime.value, 1),
            "expected": round(flight.expected, 1),
            "height": flight.height.value,
            "drop": flight.drop.value,
            "ratio": ratio,
        },
        measured=flight.airtime.value,
        expected=flight.expected,
    )


def push_finding(code: str, jump: Jump, push: Push, limits: Limits) -> Finding:
    """Tell of a push that lasts longer or shorter than the flight asks for."""
    lasts, asked = push.frames.value, push.expected.value
    now, then = best_crouch(jump, now=lasts, push=asked)
    flight = best_flight(jump, airtime=jump.flight.airtime.value * lasts / asked)
    return Finding(
        code=code,
        severity=push_severity(push, limits),
        frames=(jump.takeoff.frame - lasts, jump.takeoff.frame),
        template="The push lasts {push}, the flight asks for {expected:g}",
        mend_template="Move the crouch key from {now} to {then} ({left}); or keep the push and let the "
        "flight last {flight} frames",
        values={
            "push": counted(lasts),
            "expected": round(asked, 1),
            "now": now,
            "then": then,
            "left": left_over(jump.takeoff.frame - then - asked),
            "flight": flight.airtime,
        },
        measured=lasts,
        expected=asked,
    )
