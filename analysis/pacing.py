"""What a flight or a push that takes too many frames and one that takes too few have in common: size and mend."""

from .finding import Finding
from .jump import Jump
from .limits import Limits
from .timing import best_crouch, best_flight, counted, flight_mend, left_over
from .tolerance import gravity_severity, push_off, push_severity


def flight_finding(code: str, opening: str, jump: Jump, limits: Limits, *, ratio: float) -> Finding:
    """Tell of a flight whose gravity is off by `ratio`; opening: the sentence's first words."""
    expected = jump.rise_frames_expected + jump.fall_frames_expected
    mend, values = flight_mend(jump, agrees=push_off(jump, limits) == 0.0)
    return Finding(
        code=code,
        severity=gravity_severity(jump, limits),
        frames=(jump.takeoff.frame, jump.landing.frame),
        template=opening + ": {airtime:g} frames where {height:.2f} m up and {drop:.2f} m down ask "
        "for {expected:g}, as if gravity were {ratio:.2f} of the scene's",
        mend_template=mend,
        values={
            **values,
            "airtime": round(jump.airtime_frames, 1),
            "expected": round(expected, 1),
            "height": jump.jump_height,
            "drop": jump.drop_height,
            "ratio": ratio,
        },
        measured=jump.airtime_frames,
        expected=expected,
    )


def push_finding(code: str, jump: Jump, limits: Limits) -> Finding:
    """Tell of a push that lasts longer or shorter than the flight asks for."""
    now, then = best_crouch(jump, push=jump.push_frames_expected)
    flight = best_flight(jump, airtime=jump.airtime_frames * jump.push_frames / jump.push_frames_expected)
    return Finding(
        code=code,
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
            "flight": flight.airtime,
        },
        measured=jump.push_frames,
        expected=jump.push_frames_expected,
    )
