"""push-short: the push takes fewer frames than the flight after it asks for.

Law: rise frames ÷ push ratio, so that a style of the flight carries over to the push (Samozino et al. 2008
for the constant push). Recorded pushes take 0.78 to 0.91 of it to where the feet leave (five plate records).
"""

from ..finding import Finding
from ..jump import Jump
from ..limits import Limits
from .basis.body import push_doubted
from .basis.pacing import push_finding
from .basis.tolerance import push_off


def find(jump: Jump, limits: Limits) -> Finding | None:
    """Tell when the push is too short by more than its tolerance."""
    off = push_off(jump, limits)
    if jump.push is None or off is None or off >= 0.0:
        return None
    return push_doubted(push_finding("push-short", jump, jump.push, limits), jump, limits)
