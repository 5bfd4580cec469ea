"""contact-late: the feet stay on the ground after the body has taken off, or touch it after it has landed.

A body that flies has nothing under it; one that slows down does. A frame either way is rounding.
"""

from ..finding import Finding
from ..jump import Jump
from ..limits import Limits
from .basis.foot_timing import foot_timing_finding


def find(jump: Jump, limits: Limits) -> Finding | None:
    """Tell when the feet leave, or touch, the ground more than a step too late."""
    return foot_timing_finding(jump, limits, late=True)
