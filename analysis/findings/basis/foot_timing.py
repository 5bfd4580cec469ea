"""Foot timing: what to say of feet that leave or touch the ground at another time than the body."""

import math

from ...beat import frames_said
from ...finding import Finding
from ...jump import Jump
from ...limits import Limits
from ...phases import Event
from ...quantity import Quantity
from .tolerance import beyond

FEET_EARLY = (
    ("The feet leave the ground {off} before the body takes off at {takeoff}", "keep them planted until {takeoff}"),
    ("The feet touch the ground {on} before the body lands at {landing}", "keep them off it until {landing}"),
)
FEET_LATE = (
    ("The feet leave the ground {off} after the body takes off at {takeoff}", "take them off at {takeoff}"),
    ("The feet touch the ground {on} after the body lands at {landing}", "plant them at {landing}"),
)


def foot_timing_finding(jump: Jump, limits: Limits, *, late: bool) -> Finding | None:
    """Tell when feet are early, or late, by more than a step at takeoff, at landing or at both."""
    if jump.feet is None:
        return None
    sign, feet = 1.0 if late else -1.0, (jump.feet.off, jump.feet.on)
    events = (jump.takeoff, jump.landing)
    sides = [_off(foot, event) for foot, event in zip(feet, events, strict=True)]
    band = limits.frames_band * jump.step
    over = [off is not None and sign * off[0] > 0.0 and beyond(off[0], band=band, error=off[1]) for off in sides]
    if not any(over):
        return None
    said = [words for words, is_over in zip(FEET_LATE if late else FEET_EARLY, over, strict=True) if is_over]
    text = "; ".join([said[0][0], *(sentence[:1].lower() + sentence[1:] for sentence, _ in said[1:])])
    mend = "; ".join(words for _, words in said)
    told = [(off[0], event.frame) for off, event, is_over in zip(sides, events, over, strict=True) if off and is_over]
    frames = [frame for off, event in told for frame in (event + off, event)]
    return Finding(
        code="contact-late" if late else "contact-early",
        severity="check",
        frames=(min(frames), max(frames)),
        template=text,
        mend_template=mend[:1].upper() + mend[1:],
        values={
            "off": frames_said(abs(sides[0][0])) if sides[0] else "",
            "on": frames_said(abs(sides[1][0])) if sides[1] else "",
            "takeoff": jump.beat.at(jump.takeoff.frame),
            "landing": jump.beat.at(jump.landing.frame),
        },
        measured=max((off for off, _ in told), key=abs),
        expected=0.0,
    )


def _off(foot: Quantity | None, body: Event) -> tuple[float, float] | None:
    """Return frames that the feet are later than the body, and the error of that."""
    return None if foot is None else (foot.value - body.frame, math.hypot(foot.error, body.frame_error))
