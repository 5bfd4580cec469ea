"""Footing: what to say of feet that leave or touch the ground at another time than the body."""

import math

from .finding import Finding
from .jump import Jump
from .limits import Limits
from .timing import counted, on_beat
from .tolerance import beyond

EARLY = (
    ("The feet leave the ground {off} before the body takes off at {takeoff}", "keep them planted until {takeoff}"),
    ("The feet touch the ground {on} before the body lands at {landing}", "keep them off it until {landing}"),
)
LATE = (
    ("The feet leave the ground {off} after the body takes off at {takeoff}", "take them off at {takeoff}"),
    ("The feet touch the ground {on} after the body lands at {landing}", "plant them at {landing}"),
)


def told(jump: Jump, limits: Limits, *, late: bool) -> Finding | None:
    """Tell when feet are early, or late, by more than a step at takeoff, at landing or at both."""
    sign = 1.0 if late else -1.0
    sides = [
        _off(jump.feet_off, jump.feet_off_error, jump.takeoff.frame, jump.takeoff.frame_error),
        _off(jump.feet_on, jump.feet_on_error, jump.landing.frame, jump.landing.frame_error),
    ]
    band = limits.frames_band * jump.step
    over = [off is not None and sign * off[0] > 0.0 and beyond(off[0], band=band, error=off[1]) for off in sides]
    if not any(over):
        return None
    said = [words for words, is_over in zip(LATE if late else EARLY, over, strict=True) if is_over]
    text = "; ".join([said[0][0], *(sentence[:1].lower() + sentence[1:] for sentence, _ in said[1:])])
    mend = "; ".join(words for _, words in said)
    frames = [jump.feet_off, jump.takeoff.frame] * over[0] + [jump.feet_on, jump.landing.frame] * over[1]
    worst = max((off[0] for off, is_over in zip(sides, over, strict=True) if is_over), key=abs)
    return Finding(
        code="contact-late" if late else "contact-early",
        severity="check",
        frames=(min(frames), max(frames)),
        template=text,
        mend_template=mend[:1].upper() + mend[1:],
        values={
            "off": counted(abs(sides[0][0])) if sides[0] else "",
            "on": counted(abs(sides[1][0])) if sides[1] else "",
            "takeoff": on_beat(jump, jump.takeoff.frame),
            "landing": on_beat(jump, jump.landing.frame),
        },
        measured=worst,
        expected=0.0,
    )


def stance(jump: Jump) -> float:
    """Metres that tell the size of the body: the track over its feet, or what its legs give, twice."""
    given = (jump.feet_below, 2.0 * (jump.push_distance or 0.0), 2.0 * (jump.absorb_distance or 0.0))
    return max(size or 0.0 for size in given)


def _off(foot: float | None, foot_error: float | None, body: float, body_error: float) -> tuple[float, float] | None:
    return None if foot is None else (foot - body, math.hypot(foot_error, body_error))
