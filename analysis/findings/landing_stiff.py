"""landing-stiff: the landing gives way too little, or too fast, for the fall before it.

Law: fall frames ÷ absorb ratio, the push's time reversed. Recorded landings take 0.80 to 1.21 of it at ratios
of 1.1 to 1.9 (plate records, BMC laboratory).
"""

from ..finding import Finding
from ..jump import Jump
from ..limits import Limits
from .basis.body import sinks
from .basis.tolerance import beyond, gives_way_too_little

SOFT_RATIO = 2.0
"""Absorb ratio that a mend aims at: recorded soft landings reach 1.9."""
SINK_ON = "Let the body sink on, about {deep:.2f} m within {soft} frames of the landing at {landing}"
ROLL = SINK_ON + ", which is all it has: the rest of the fall asks for a roll, or a hard landing that is accepted"


def find(jump: Jump, limits: Limits) -> Finding | None:
    """Tell when the body stops dead, sinks too little, or sinks in too few frames."""
    if jump.stops_dead:
        text = "The landing stops dead after a fall of {drop:.2f} m"
        return _sinks_on(jump, text, sunk=0.0, end=jump.landing.frame + 1.0)
    absorb = jump.absorb
    if absorb is None:
        return None
    end = jump.landing.frame + absorb.frames.value
    if gives_way_too_little(absorb, limits):
        text = "The landing gives way by only {sunk:.2f} m after a fall of {drop:.2f} m"
        return _sinks_on(jump, text, sunk=absorb.distance.value, end=end)
    asked, off = absorb.expected.value, absorb.excess
    band = max(limits.frames_band * jump.step, (1.0 - limits.absorb_stiff) * asked)
    if off.value >= 0.0 or not beyond(off.value, band=band, error=off.error):
        return None
    return Finding(
        code="landing-stiff",
        severity="check",
        frames=(jump.landing.frame, end),
        template="The landing is absorbed in {frames:g} frames, {drop:.2f} m into {sunk:.2f} m ask for {expected:g}",
        mend_template="Move the lowest pose from {now} to {then}",
        values={
            "drop": jump.flight.drop.value,
            "sunk": absorb.distance.value,
            "frames": round(absorb.frames.value, 1),
            "expected": round(asked, 1),
            "now": round(end),
            "then": round(jump.landing.frame + jump.beat.length(asked)),
        },
        measured=absorb.frames.value,
        expected=asked,
    )


def _sinks_on(jump: Jump, text: str, *, sunk: float, end: float) -> Finding:
    """Tell of a landing that does not sink far enough; end: frame at which it stops."""
    asked, most = jump.flight.drop.value / SOFT_RATIO, sinks(jump)
    deep = min(asked, most) if most > 0.0 else asked
    # The body loses the speed of its fall over the depth: half the fall's share of it in time, as in a push.
    soft = jump.flight.own_fall * deep / jump.flight.drop.value
    return Finding(
        code="landing-stiff",
        severity="check",
        frames=(jump.landing.frame, end),
        template=text,
        mend_template=ROLL if deep < asked else SINK_ON,
        values={
            "drop": jump.flight.drop.value,
            "sunk": sunk,
            "deep": deep,
            "soft": jump.beat.length(soft),
            "landing": round(jump.landing.frame),
        },
        measured=sunk,
        expected=deep,
    )
