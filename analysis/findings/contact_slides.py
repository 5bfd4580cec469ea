"""contact-slides: a planted foot moves along the ground.

What is planted stays where it is; the band is a share of the body's size (ours).
"""

import math

from ..finding import Finding
from ..jump import Jump
from ..limits import Limits
from .basis.body import stance
from .basis.tolerance import beyond


def find(jump: Jump, limits: Limits) -> Finding | None:
    """Tell when a foot moves farther while it is on the ground than its band allows."""
    feet = jump.feet
    if feet is None or feet.slide.frames is None:
        return None
    slide, (first, last) = feet.slide.distance, feet.slide.frames
    if not beyond(slide, band=limits.slide_band * stance(jump), error=math.sqrt(2.0) * feet.noise):
        return None
    return Finding(
        code="contact-slides",
        severity="check",
        frames=(first, last),
        template="A planted foot slides {slide:.3f} m along the ground from frame {first} to {last}",
        mend_template="Keep it where it is at frame {first} until {last}",
        values={"slide": slide, "first": round(first), "last": round(last)},
        measured=slide,
        expected=0.0,
    )
