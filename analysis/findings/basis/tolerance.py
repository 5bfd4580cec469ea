"""Tolerance: whether a figure is off by more than its band and its own error allow."""

from ...jump import Jump
from ...law import spring_shape
from ...limits import Limits
from ...measures.landing import Absorb
from ...measures.push import Push
from ...measures.travel import TravelCourse
from ...track import Followed

TOLD_ERRORS = 2.0
"""Least distance of a figure from what is asked, in standard errors, before anything is said: 95 % of a normal error.
"""


def beyond(off: float, *, band: float, error: float) -> bool:
    """Tell whether a figure leaves its band: by more than one error past it, and past two errors in all.

    >>> beyond(1.5, band=1.0, error=0.0), beyond(1.5, band=1.0, error=0.6)
    (True, False)
    """
    return abs(off) > max(band + error, TOLD_ERRORS * error)


def push_off(jump: Jump, limits: Limits) -> float | None:
    """Return frames that the push is too long (above 0) or too short; 0 within its tolerance, None unknown.

    People take 0.78 to 0.91 of the frames that a constant force takes, and drawn pushes all of them: what lies
    between `push_usual` and 1 is right, and a push is off by what it leaves of that. The band is a whole step, or a
    share of what the flight asks where that is more; it is wider for a long push than for a short one. A rebound
    may be as short as the release of a spring.
    """
    push = jump.push
    if push is None:
        return None
    off, band = _push_gap(jump, push, limits)
    return push.excess.value if beyond(off, band=band, error=push.excess.error) else 0.0


def push_reads_off(jump: Jump, limits: Limits) -> bool:
    """Tell whether the push leaves its band by its figures, though their errors may reach that far."""
    if jump.push is None:
        return False
    off, band = _push_gap(jump, jump.push, limits)
    return abs(off) > band


def push_is_loose(jump: Jump, limits: Limits) -> bool:
    """Tell whether the push is known less well than its band, so that it may be off whatever it reads."""
    return jump.push is not None and jump.push.excess.error > _push_gap(jump, jump.push, limits)[1]


def _push_gap(jump: Jump, push: Push, limits: Limits) -> tuple[float, float]:
    """Return frames that the push is too long or too short, and the band of what is right."""
    asked = push.expected.value
    usual = min(limits.push_usual, spring_shape(push.ratio.value)) if push.rebounds else limits.push_usual
    off = max(push.excess.value, 0.0) or min(push.frames.value - usual * asked, 0.0)
    share = limits.push_check if off > 0.0 else limits.push_check_short
    return off, max(limits.frames_band * jump.step, share * asked)


def push_severity(push: Push, limits: Limits) -> str:
    """Return fix far past what the flight asks for, else check."""
    share = push.frames.value / push.expected.value
    return "fix" if share > 1.0 + limits.push_fix or share < limits.push_fix_short else "check"


def gravity_off(jump: Jump, limits: Limits) -> float | None:
    """Return fitted gravity over the world's where the flight is floaty (under 1) or snappy; 1 within, None unknown.

    Off means both: airtime by more than a whole step, and gravity by more than the band, or 2 steps / n
    for n frames in the air where that is more. Half as heavy is as far off as twice.
    """
    gravity, airtime = jump.flight.gravity, jump.flight.airtime
    if gravity is None:
        return None
    late = airtime.value - jump.flight.expected
    ratio, error = gravity.value / jump.gravity, gravity.error / gravity.value
    band = max(limits.gravity_band, 2.0 * jump.step / airtime.value)
    off = max(ratio, 1.0 / ratio) - 1.0
    slow = ratio < 1.0
    told = beyond(late, band=limits.frames_band * jump.step, error=airtime.error)
    return ratio if told and slow == (late > 0.0) and beyond(off, band=band, error=error) else 1.0


def gravity_severity(jump: Jump, limits: Limits, *, ratio: float) -> str:
    """Return note when the push goes with the style; fix when it does not and the flight is far off; else check."""
    push = push_off(jump, limits)
    far = ratio > limits.gravity_fix_over or ratio < limits.gravity_fix_under
    return "note" if push == 0.0 else "fix" if push and far else "check"


def course_of(jump: Jump, limits: Limits) -> TravelCourse | None:
    """Return the course of a jump that goes anywhere: less is sway, and has no speed to keep."""
    least = max(limits.travel_least, limits.travel_least_share * jump.flight.height.value)
    return jump.travel.course if jump.travel.distance.value > least else None


def gives_way_too_little(absorb: Absorb, limits: Limits) -> bool:
    """Tell whether a body sinks by less than its share of the fall, by more than its error.

    The share, one over the ratio, is what errs evenly: what the body sinks stands over the fall.
    """
    share = 1.0 / absorb.ratio.value
    return share + absorb.ratio.error * share**2 < 1.0 / limits.stiff_ratio


def travel_band(jump: Jump, limits: Limits) -> float:
    """Return the band of the horizontal speed: the hips of a body swing about its center of mass, which does not."""
    return limits.travel_band_root if jump.follows is Followed.BODY else limits.travel_band
