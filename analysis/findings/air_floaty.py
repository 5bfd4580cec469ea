"""air-floaty: the flight takes longer than its height asks for under the world's gravity.

Law: sqrt(2 h / g) up, sqrt(2 drop / g) down. The band is one of time and rounding, not of perception: no
published threshold could be read, and naturalness follows gravity (Yokosaka et al. 2024).
"""

from ..finding import Finding
from ..jump import Jump
from ..limits import Limits
from ..timing import flight_mend
from ..tolerance import gravity_off, gravity_severity, push_off


def find(jump: Jump, limits: Limits) -> Finding | None:
    """Tell when the fitted gravity is too low and the airtime too long, both past their tolerance."""
    ratio = gravity_off(jump, limits)
    if ratio is None or ratio >= 1.0:
        return None
    expected = jump.rise_frames_expected + jump.fall_frames_expected
    mend, values = flight_mend(jump, agrees=push_off(jump, limits) == 0.0)
    return Finding(
        code="air-floaty",
        severity=gravity_severity(jump, limits),
        frames=(jump.takeoff.frame, jump.landing.frame),
        template="The flight floats: {airtime:g} frames where {height:.2f} m up and {drop:.2f} m down ask "
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
