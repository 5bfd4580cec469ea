"""air-floaty: the flight takes longer than its height asks for under the world's gravity.

Law: sqrt(2 h / g) up, sqrt(2 drop / g) down. The band is one of time and rounding, not of perception: no
published threshold could be read, and naturalness follows gravity (Yokosaka et al. 2024).
"""

from ..finding import Finding
from ..jump import Jump
from ..limits import Limits
from .basis.pacing import flight_finding
from .basis.tolerance import gravity_off


def find(jump: Jump, limits: Limits) -> Finding | None:
    """Tell when the fitted gravity is too low and the airtime too long, both past their tolerance."""
    ratio = gravity_off(jump, limits)
    if ratio is None or ratio >= 1.0:
        return None
    return flight_finding("air-floaty", "The flight floats", jump, limits, ratio=ratio)
