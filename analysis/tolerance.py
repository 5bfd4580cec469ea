"""Tolerance: whether a figure is off by more than its band and its own error allow."""

from .jump import Jump
from .limits import Limits
from .measures.push import spring_shape

SURE = 2.0
"""Standard errors that a figure must be off by before anything is said: 95 % of a normal error."""


def beyond(off: float, *, band: float, error: float) -> bool:
    """Whether a figure leaves its band: by more than one error past it, and past two errors in all.

    >>> beyond(1.5, band=1.0, error=0.0), beyond(1.5, band=1.0, error=0.6)
    (True, False)
    """
    return abs(off) > max(band + error, SURE * error)


def push_off(jump: Jump, limits: Limits) -> float | None:
    """Frames that the push is too long (above 0) or too short; 0 within its tolerance, None unknown.

    The band is a whole step, or a quarter of what the flight asks where that is more. A rebound may be as
    short as the release of a spring.
    """
    if jump.push_excess is None:
        return None
    band = max(limits.frames_band * jump.step, limits.push_check * jump.push_frames_expected)
    off = jump.push_excess
    if jump.rebounds:
        off = min(off + (1.0 - spring_shape(jump.push_ratio)) * jump.push_frames_expected, 0.0)
    return jump.push_excess if beyond(off, band=band, error=jump.push_excess_error) else 0.0


def push_severity(jump: Jump, limits: Limits) -> str:
    """fix past half of what the flight asks for, else check."""
    return "fix" if abs(jump.push_excess) > limits.push_fix * jump.push_frames_expected else "check"


def gravity_off(jump: Jump, limits: Limits) -> float | None:
    """Fitted gravity over the world's where the flight is floaty (under 1) or snappy; 1 within, None unknown.

    Off means both: airtime by more than a whole step, and gravity by more than the band, or 2 steps / n
    for n frames in the air where that is more. Half as heavy is as far off as twice.
    """
    if not jump.fitted_gravity:
        return None
    expected = jump.rise_frames_expected + jump.fall_frames_expected
    late = jump.airtime_frames - expected
    ratio = jump.fitted_gravity / jump.gravity
    error = jump.fitted_gravity_error / jump.fitted_gravity
    band = max(limits.gravity_band, 2.0 * jump.step / jump.airtime_frames)
    off = max(ratio, 1.0 / ratio) - 1.0
    slow = ratio < 1.0
    told = beyond(late, band=limits.frames_band * jump.step, error=jump.airtime_frames_error)
    return ratio if told and slow == (late > 0.0) and beyond(off, band=band, error=error) else 1.0


def gravity_severity(jump: Jump, limits: Limits) -> str:
    """note when the push goes with the style; fix when it does not and the flight is far off; else check."""
    push, ratio = push_off(jump, limits), jump.fitted_gravity / jump.gravity
    far = ratio > limits.gravity_fix_over or ratio < limits.gravity_fix_under
    return "note" if push == 0.0 else "fix" if push and far else "check"


def travels(jump: Jump, limits: Limits) -> bool:
    """Whether the jump goes anywhere: less is sway, and has no speed to keep."""
    least = max(limits.travel_least, limits.travel_least_share * jump.jump_height)
    return jump.travel_spread is not None and jump.distance > least


def travel_band(jump: Jump, limits: Limits) -> float:
    """The band of the horizontal speed: a root swings about the centre of mass, which does not."""
    whole = "centre of mass" in jump.source.lower().replace("_", " ").replace("center", "centre")
    return limits.travel_band if whole else limits.travel_band_root
