"""landing-mushy: the landing sinks for longer than the fall before it asks for.

Law: fall frames ÷ absorb ratio, the push's time reversed. Recorded landings take 0.80 to 1.21 of it (plate
records, BMC laboratory).
"""

from ..finding import Finding
from ..jump import Jump
from ..limits import Limits
from .basis.tolerance import beyond


def find(jump: Jump, limits: Limits) -> Finding | None:
    """Tell when the absorb takes too many frames by more than its tolerance."""
    absorb = jump.absorb
    if absorb is None:
        return None
    lasts, asked, off = absorb.frames.value, absorb.expected.value, absorb.excess.value
    # Touchdown and lowest point lie between samples: a frame each.
    band = max(2.0 * limits.frames_band * jump.step, (limits.absorb_mushy - 1.0) * asked)
    if off <= 0.0 or not beyond(off, band=band, error=absorb.excess.error):
        return None
    return Finding(
        code="landing-mushy",
        severity="check",
        frames=(jump.landing.frame, jump.landing.frame + lasts),
        template="The landing sinks for {frames:g} frames, {drop:.2f} m into {sunk:.2f} m ask for {expected:g}",
        mend_template="Move the lowest pose from {now} to {then}, and let what is left settle after it",
        values={
            "frames": round(lasts, 1),
            "expected": round(asked, 1),
            "drop": jump.flight.drop.value,
            "sunk": absorb.distance.value,
            "now": round(jump.landing.frame + lasts),
            "then": round(jump.landing.frame + jump.beat.length(asked)),
        },
        measured=lasts,
        expected=asked,
    )
