"""arc-skew: the apex comes early or late between takeoff and landing.

Exact: a free flight divides its airtime as the roots of its two heights, sqrt(h) up and sqrt(drop) down.
"""

from ..beat import frames_said, left_over
from ..finding import Finding
from ..jump import Jump
from ..limits import Limits
from .basis.body import doubted
from .basis.tolerance import beyond


def find(jump: Jump, limits: Limits) -> Finding | None:
    """Tell when the apex is off by more than its tolerance, a whole step at least."""
    skew, airtime = jump.shape.skew, jump.flight.airtime.value
    if skew is None:
        return None
    band = max(limits.apex_band, limits.frames_band * jump.step / airtime)
    if not beyond(skew.value, band=band, error=skew.error):
        return None
    own = jump.takeoff.frame + jump.flight.rise_share * airtime
    seen = own + skew.value * airtime
    off = jump.flight.falls((seen - own) / jump.fps)
    then = min(jump.beat.near(own), key=lambda frame: abs(frame - own))
    finding = Finding(
        code="arc-skew",
        severity="check",
        frames=(min(seen, own), max(seen, own)),
        template="The apex comes {off} {side}: at frame {seen:g}, between this takeoff and landing "
        "it belongs at {own:g}",
        mend_template="Move the apex key to {then} ({left})",
        values={
            "off": frames_said(abs(seen - own)),
            "side": "early" if seen < own else "late",
            "seen": round(seen, 1),
            "own": round(own, 1),
            "then": then,
            "left": left_over(then - own),
        },
        measured=seen,
        expected=own,
    )
    return doubted(finding, jump, off=off)
