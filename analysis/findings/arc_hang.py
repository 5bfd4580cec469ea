"""arc-hang: the body hangs near the top longer than a free flight does.

Exact: a parabola spends half of its airtime above three quarters of its height.
"""

from ..finding import Finding
from ..jump import Jump
from ..limits import Limits
from ..timing import counted
from ..tolerance import beyond

FREE = 0.5


def find(jump: Jump, limits: Limits) -> Finding | None:
    """Tell when the share of the airtime near the top is too large by more than its tolerance."""
    share = jump.top_quarter_share
    if share is None or share <= FREE:
        return None
    if not beyond(share - FREE, band=limits.hang_band, error=jump.top_quarter_share_error):
        return None
    # A hang of x frames in a flight of T makes the share (½ (T − x) + x) / T.
    hang = (2.0 * share - 1.0) * jump.airtime_frames
    half = 0.5 * share * jump.airtime_frames
    return Finding(
        code="arc-hang",
        severity="check",
        frames=(jump.apex.frame - half, jump.apex.frame + half),
        template="It hangs: {near:g} of {airtime:g} frames pass in the top quarter of the height, a free "
        "flight has {free:g} there",
        mend_template="Take {hang} out around frame {apex}",
        values={
            "near": round(share * jump.airtime_frames, 1),
            "airtime": round(jump.airtime_frames, 1),
            "free": round(FREE * jump.airtime_frames, 1),
            "hang": counted(max(jump.step, jump.step * round(hang / jump.step))),
            "apex": round(jump.apex.frame),
        },
        measured=share,
        expected=FREE,
    )
