"""arc-hang: the body hangs near the top longer than a free flight does.

Exact: a parabola spends half of its airtime above three quarters of its height.
"""

from ..beat import frames_said
from ..finding import Finding
from ..jump import Jump
from ..limits import Limits
from .basis.body import doubted
from .basis.tolerance import beyond

FREE = 0.5


def find(jump: Jump, limits: Limits) -> Finding | None:
    """Tell when the share of the airtime near the top is too large by more than its tolerance."""
    top, airtime = jump.shape.top_share, jump.flight.airtime.value
    if top is None or top.value <= FREE or not beyond(top.value - FREE, band=limits.hang_band, error=top.error):
        return None
    share = top.value
    # A hang of x frames in a flight of T makes the share (½ (T − x) + x) / T.
    hang = (2.0 * share - 1.0) * airtime
    half = 0.5 * share * airtime
    off = jump.flight.falls(0.5 * hang / jump.fps)
    finding = Finding(
        code="arc-hang",
        severity="check",
        frames=(jump.apex.frame - half, jump.apex.frame + half),
        template="It hangs: {near:g} of {airtime:g} frames pass in the top quarter of the height, a free "
        "flight has {free:g} there; it stays up to {off:.2f} m over its arc",
        mend_template="Take {hang} out around frame {apex}",
        values={
            "near": round(share * airtime, 1),
            "airtime": round(airtime, 1),
            "free": round(FREE * airtime, 1),
            "off": off,
            "hang": frames_said(jump.beat.length(hang)),
            "apex": round(jump.apex.frame),
        },
        measured=share,
        expected=FREE,
    )
    return doubted(finding, jump, off=off)
