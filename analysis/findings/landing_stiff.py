"""landing-stiff: the landing gives way too little, or too fast, for the fall before it.

Law: fall frames ÷ absorb ratio, the push's time reversed. Recorded landings take 0.80 to 1.21 of it at ratios
of 1.1 to 1.9 (plate records, BMC laboratory).
"""

from ..finding import Finding
from ..jump import Jump
from ..limits import Limits
from ..tolerance import beyond

SOFT = 2.0
"""Absorb ratio that a mend aims at: recorded soft landings reach 1.9."""
SINK_ON = "Let the body sink on, about {deep:.2f} m within {soft} frames of the landing at {landing}"


def find(jump: Jump, limits: Limits) -> Finding | None:
    """Tell when the body stops dead, sinks too little, or sinks in too few frames."""
    if jump.stops_dead:
        return _told(jump, "The landing stops dead after a fall of {drop:.2f} m", SINK_ON, 0.0)
    if jump.absorb_ratio is None:
        return None
    if beyond(jump.absorb_ratio, band=limits.stiff_ratio, error=jump.absorb_ratio_error):
        text = "The landing gives way by only {sunk:.2f} m after a fall of {drop:.2f} m"
        return _told(jump, text, SINK_ON, jump.absorb_distance)
    asked = jump.absorb_frames_expected
    off = jump.absorb_frames - asked
    band = max(limits.frames_band * jump.step, (1.0 - limits.absorb_stiff) * asked)
    if off >= 0.0 or not beyond(off, band=band, error=jump.absorb_excess_error):
        return None
    text = "The landing is absorbed in {frames:g} frames, {drop:.2f} m into {sunk:.2f} m ask for {expected:g}"
    return _told(jump, text, "Move the lowest pose from {now} to {then}", jump.absorb_frames, expected=asked)


def _told(jump: Jump, text: str, mend: str, measured: float, *, expected: float | None = None) -> Finding:
    end = jump.absorbed.frame if jump.absorbed is not None else jump.landing.frame + 1.0
    deep = jump.drop_height / SOFT
    return Finding(
        code="landing-stiff",
        severity="check",
        frames=(jump.landing.frame, end),
        template=text,
        mend_template=mend,
        values={
            "drop": jump.drop_height,
            "sunk": jump.absorb_distance,
            "frames": round(jump.absorb_frames or 0.0, 1),
            "expected": round(expected or 0.0, 1),
            "deep": deep,
            "soft": _whole(jump, jump.fall_frames / SOFT),
            "landing": round(jump.landing.frame),
            "now": round(end),
            "then": round(jump.landing.frame + _whole(jump, expected or 0.0)),
        },
        measured=measured,
        expected=deep if expected is None else expected,
    )


def _whole(jump: Jump, frames: float) -> int:
    return max(jump.step, jump.step * round(frames / jump.step))
