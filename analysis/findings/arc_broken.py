"""arc-broken: the path through the air leaves its parabola.

What a hang or a skewed apex explains is told there and not again here.
"""

from ..finding import Finding
from ..jump import Jump
from ..limits import Limits
from . import arc_hang, arc_skew
from .basis.body import doubted

SCATTER = 3.0
"""Standard deviations of the samples' noise: the worst of some thirty samples reaches so many now and then."""


def find(jump: Jump, limits: Limits) -> Finding | None:
    """Tell when a sample lies off the fitted arc by more than its tolerance."""
    residual = jump.shape.residual
    if residual is None:
        return None
    height = max(jump.flight.height.value, jump.flight.drop.value)
    allowed = limits.arc_band * height + SCATTER * jump.flight.noise
    if residual.worst <= allowed or arc_hang.find(jump, limits) or arc_skew.find(jump, limits):
        return None
    first, last = residual.frames
    where = "frame {first:g}" if first == last else "frames {first:g} to {last:g}"
    finding = Finding(
        code="arc-broken",
        severity="check",
        frames=residual.frames,
        template=f"The path leaves its arc by {{off:.3f}} m at {where}",
        mend_template=f"Put {where} back on the arc from frame {{takeoff}} to {{landing}}",
        values={
            "off": residual.worst,
            "first": first,
            "last": last,
            "takeoff": round(jump.takeoff.frame),
            "landing": round(jump.landing.frame),
        },
        measured=residual.worst,
        expected=0.0,
    )
    return doubted(finding, jump, off=residual.worst)
