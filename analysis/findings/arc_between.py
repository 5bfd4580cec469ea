"""arc-between: the curve drawn between the keys of a flight leaves the arc that the keys lie on.

Keys tell the timing, and it may be right; what is seen between them is the curve. Default handles stay a few per cent
of the height from the arc, which nobody sees; straight lines leave it by a quarter of the height (exact: half way in
time a parabola has three quarters of its height).
"""

from ..finding import Finding
from ..jump import Jump
from ..limits import Limits
from .basis.tolerance import beyond


def find(jump: Jump, limits: Limits) -> Finding | None:
    """Tell when the drawn curve leaves the arc through the keys by more than its share of the height."""
    drawn, height = jump.shape.drawn, max(jump.flight.height.value, jump.flight.drop.value)
    if drawn is None or not beyond(drawn.off, band=limits.drawn_band * height, error=drawn.error):
        return None
    return Finding(
        code="arc-between",
        severity="check",
        frames=(jump.takeoff.frame, jump.landing.frame),
        template="The curve leaves the arc of its keys by {off:.3f} m at frame {frame:g}, {share:.0%} of the height",
        mend_template="Key breakdowns on the arc, or let the takeoff and landing keys run through at speed",
        values={"off": drawn.off, "frame": round(drawn.frame, 1), "share": drawn.off / height},
        measured=drawn.off,
        expected=0.0,
    )
