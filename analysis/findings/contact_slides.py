"""contact-slides: a planted foot moves along the ground.

What is planted stays where it is; the band is a share of the body's size (ours).
"""

import math

from ..finding import Finding
from ..footing import stance
from ..jump import Jump
from ..limits import Limits
from ..tolerance import beyond


def find(jump: Jump, limits: Limits) -> Finding | None:
    """Tell when a foot moves farther while it is on the ground than its band allows."""
    if jump.feet_slide is None:
        return None
    error = math.sqrt(2.0) * jump.feet_noise
    if not beyond(jump.feet_slide, band=limits.slide_band * stance(jump), error=error):
        return None
    first, last = jump.feet_slide_frames
    return Finding(
        code="contact-slides",
        severity="check",
        frames=(first, last),
        template="A planted foot slides {slide:.3f} m along the ground from frame {first} to {last}",
        mend_template="Keep it where it is at frame {first} until {last}",
        values={"slide": jump.feet_slide, "first": round(first), "last": round(last)},
        measured=jump.feet_slide,
        expected=0.0,
    )
