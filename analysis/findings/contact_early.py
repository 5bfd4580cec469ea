"""contact-early: the feet leave the ground before the body takes off, or touch it before it lands.

Only the ground can push a body up or take its fall. A frame either way is rounding.
"""

from ..finding import Finding
from ..jump import Jump
from ..limits import Limits
from .basis.foot_timing import foot_timing_finding


def find(jump: Jump, limits: Limits) -> Finding | None:
    """Tell when the feet are off, or on, the ground more than a step too soon."""
    return foot_timing_finding(jump, limits, late=False)
