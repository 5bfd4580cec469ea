"""What the shot asks of a jump: its gravity, its step (ones or twos) and the kind of jumper."""

import math
from dataclasses import dataclass

from .errors import SettingsError

STANDARD_GRAVITY = 9.80665
"""Standard acceleration, m/s²: 3rd CGPM (1901), Resolution 2."""

GRAVITIES = {
    "mercury": 3.70,
    "venus": 8.87,
    "earth": STANDARD_GRAVITY,
    "moon": 1.62,
    "mars": 3.71,
    "jupiter": 24.79,
    "saturn": 10.44,
}
"""Gravity by world, m/s². Planets: JPL Solar System Dynamics, "Planets and Pluto: Physical
Characteristics", equatorial, rotation not subtracted; Earth: the standard acceleration; Moon: GM/R²
with GM 4902.80 km³/s² and R 1737.4 km (from memory)."""

JUMPERS = {
    "person": 1.6,
    "cat": 4.0,
    "galago": 14.0,
    "insect": 136.0,
    "froghopper": 408.0,
}
"""Kinds of jumper, each with the largest push ratio that it is held to reach on Earth at its own size, from standing.
All but the froghopper's are inferred: no source that was read gives a ratio.

Person: five plate records reach 0.61 to 1.01 (BMC laboratory). 1.6 is the highest of 97 jumps, 0.536 m (Dowling &
Vamos 1993, J. Appl. Biomech. 9:95), over the shortest push of those records, 0.344 m: two people, so a bound.
Cat: 18 cats leave the ground at 2.86 to 4.11 m/s (Harris & Steudel 2002, J. Exp. Biol. 205:3877; summary and the
table read, as a teaching data set carries it), worth 0.42 to 0.86 m. How far they push was not read: over
the whole hind limb, 0.25 to 0.32 m, ratios would be 1.4 to 2.7; 4 is the best cat's over 0.68 of its limb.
Galago: 2.25 m (Hall-Craggs 1965, J. Zool. 147:20, summary read), over 0.16 m (from memory).
Insect: 136 of a rat flea, 1 m/s in 0.75 ms (Bennet-Clark & Lucey 1967, from memory); a locust of 1 g reaches 9, by
3.3 mJ over 39 mm of leg (Snelling et al. 2013, PLoS ONE 8:e72471, summary read).
Froghopper: 4 m/s within 1 ms, printed as 408 g (Burrows 2003, Nature 424:509, read)."""

STANCES = {"person": 0.97}
"""Meters that the center of mass of a kind stands over the ground: 0.556 of 1.741 m (de Leva 1996, men)."""


def reach(kind: str, *, gravity: float, size: float = 1.0) -> float:
    """Give the largest push ratio of a kind under a gravity, m/s², at so many times its own size.

    Legs limit the force they push with, not the ratio. Force goes with the square of the size and weight with its
    cube (equal shapes), so the R₀ + 1 body weights of Earth are (R₀ + 1) g₀ / (g size) elsewhere, and R is one
    less. At 0 and below it the legs do not lift the body.

    >>> round(reach("person", gravity=GRAVITIES["moon"]), 1), round(reach("person", gravity=24.79), 2)
    (14.7, 0.03)
    """
    return (JUMPERS[kind] + 1.0) * STANDARD_GRAVITY / (gravity * size) - 1.0


@dataclass(frozen=True, slots=True)
class World:
    """Gravity (m/s², magnitude, along the track's own down), step (frames per pose), kind of jumper and its size.

    size is against the kind's own: 2 for a giant twice as tall. None: what the feet tell, else 1.

    Raises SettingsError for a gravity that is not a finite number above zero, a step below one, a kind
    that `JUMPERS` does not list, or a size that is not a finite number above zero.

    >>> World(gravity=GRAVITIES["moon"]).gravity
    1.62
    """

    gravity: float = STANDARD_GRAVITY
    step: int = 1
    kind: str = "person"
    size: float | None = None

    def __post_init__(self) -> None:
        if not (math.isfinite(self.gravity) and 0.0 < self.gravity < 1e4):
            raise SettingsError(f"gravity must be a number above 0 m/s² and below 10 000, not {self.gravity}")
        if self.step < 1 or self.step != int(self.step):
            raise SettingsError(f"step must be a whole number of frames, 1 or more, not {self.step}")
        if self.kind not in JUMPERS:
            raise SettingsError(f"kind must be one of {', '.join(JUMPERS)}, not {self.kind!r}")
        if self.size is not None and not (math.isfinite(self.size) and self.size > 0.0):
            raise SettingsError(f"size must be a number above 0, not {self.size}")
