"""landing-mushy: the landing sinks for longer than the fall before it asks for.

Law: fall frames ÷ absorb ratio, the push's time reversed. Recorded landings take 0.80 to 1.21 of it (plate
records, BMC laboratory).
"""

from ..finding import Finding
from ..jump import Jump
from ..limits import Limits
from ..tolerance import beyond


def find(jump: Jump, limits: Limits) -> Finding | None:
    """Tell when the absorb takes too many frames by more than its tolerance."""
    asked = jump.absorb_frames_expected
    if asked is None:
        return None
    off = jump.absorb_frames - asked
    # Touchdown and lowest point lie between samples: a frame each.
    band = max(2.0 * limits.frames_band * jump.step, (limits.absorb_mushy - 1.0) * asked)
    if off <= 0.0 or not beyond(off, band=band, error=jump.absorb_excess_error):
        return None
    return Finding(
        code="landing-mushy",
        severity="check",
        frames=(jump.landing.frame, jump.absorbed.frame),
        template="The landing sinks for {frames:g} frames, {drop:.2f} m into {sunk:.2f} m ask for {expected:g}",
        mend_template="Move the lowest pose from {now} to {then}, and let what is left settle after it",
        values={
            "frames": round(jump.absorb_frames, 1),
            "expected": round(asked, 1),
            "drop": jump.drop_height,
            "sunk": jump.absorb_distance,
            "now": round(jump.absorbed.frame),
            "then": round(jump.landing.frame + max(jump.step, jump.step * round(asked / jump.step))),
        },
        measured=jump.absorb_frames,
        expected=asked,
    )
