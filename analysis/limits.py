"""Every threshold of Leapwright, its default and where it comes from. House limits are made from these."""

import math
from dataclasses import dataclass, fields

from .errors import SettingsError


@dataclass(frozen=True, slots=True)
class Limits:
    """Thresholds; all plain numbers. "ours" marks the project's own choice.

    Raises SettingsError for one that is not a finite number above zero.
    """

    # What counts as a jump
    smallest_hop: float = 0.05
    """m, takeoff to apex; under it a walk's bob and a hop are one curve (ours)."""
    slowest_pace: float = 0.18
    fastest_pace: float = 4.0
    """Air pace outside which a rise and fall is not read as a flight; three times and a third of real airtime lie
    well within (ours)."""
    fewest_air_samples: int = 5
    """Interior samples for a fitted gravity: N = 3 leaves no residual, N ≥ 5 lets the shape be judged."""

    # The flight
    gravity_band: float = 0.25
    """Fitted gravity may be this share over the world's, or the world's over it: 0.80 to 1.25 of it; or 2 / air
    frames where that is more: two ends rounded by half a frame each move it by 2 e / n."""
    gravity_fix_over: float = 1.6
    gravity_fix_under: float = 0.6
    """Fitted gravity over the world's, past which a flight with a push that does not fit is to fix (ours)."""
    frames_band: float = 1.0
    """A whole frame: what is within it is rounding."""
    hang_band: float = 0.1
    """Share of airtime above ¾ of the height: ½ for a parabola; off by this (ours)."""
    apex_band: float = 0.15
    """Apex away from the arc's own, as a share of airtime (ours)."""
    arc_band: float = 0.04
    """Largest residual of the arc as a share of its height (ours)."""
    drawn_band: float = 0.08
    """How far the curve between keyed poses may run from their arc, as a share of its height (ours)."""

    # The push
    push_usual: float = 0.85
    """Share of a constant force's time that people push in: 0.78 to 0.91 to where the feet leave, 0.83 in the middle
    of five records (plate records, BMC laboratory). From here to 1, the drawn push, nothing is off."""
    push_check: float = 0.25
    push_check_short: float = 0.1
    """Push frames over 1, and under `push_usual`, by this share of a constant force's: so 0.75 to 1.25 of it. Each end
    rounds by half a frame (ours)."""
    push_fix: float = 0.50
    push_fix_short: float = 0.50
    """Push frames over 1.5 of a constant force's, a cubic ease-in, and under 0.5, a constant speed (exact)."""
    shape_least: float = 0.5
    """Push shape k under which the body slowed before it left the ground (exact law)."""
    shape_most: float = 1.5
    """Push shape k of a cubic ease-in (exact: half the end slope of the normalized push curve)."""
    speed_jump: float = 0.25
    """Speed at the end of the push against the start of the flight, as a share (ours)."""

    # The travel
    travel_band: float = 0.15
    """Spread of the horizontal speed in flight, as a share of its mean, for a center of mass (ours). That of the one
    recorded jump that goes anywhere and does not turn over (n = 1, 13 readings) keeps within 4 %."""
    travel_band_root: float = 0.30
    """The same for a root (ours: twice as much): hips of that jump (n = 1, 13 readings) change by 28 to 51 %, and stray
    by 3 cm at most. What limbs explain past it is a note."""
    swerve_band: float = math.radians(12.0)
    """Turn of the horizontal direction in flight, radians (ours)."""

    stop_share: float = 0.2
    """Share of the mean speed under which the body stops in the air, over 15 % of the airtime (ours)."""
    travel_least: float = 0.05
    travel_least_share: float = 0.1
    """m, and share of the height: a jump that goes less far goes nowhere, and a root sways (ours)."""

    # The landing
    absorb_stiff: float = 0.5
    absorb_mushy: float = 2.0
    """Absorb frames against fall ÷ absorb ratio: half is stiff, twice is mushy. Recorded landings take
    0.80 to 1.21 of it (plate records, BMC laboratory); the bands are ours."""
    stiff_ratio: float = 6.0
    """Absorb ratio past which a landing is stiff whatever its time: recorded 1.1 to 1.9, one stiff 7.3."""

    # The feet
    slide_band: float = 0.02
    sink_band: float = 0.015
    """What a planted foot may slide, or sink, as a share of the height of the track over its feet at takeoff:
    2 cm and 1.5 cm for hips a meter up (ours)."""

    def __post_init__(self) -> None:
        for limit in fields(self):
            value = getattr(self, limit.name)
            if not (math.isfinite(value) and value > 0):
                raise SettingsError(f"limit {limit.name} must be a number above 0, not {value}")
