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

KINDS = {
    "person": 1.6,
    "cat": 4.0,
    "galago": 14.0,
    "insect": 400.0,
}
"""Kinds of jumper, each with the largest push ratio measured for it. Person: Dowling & Vamos 1993 and
plate records give 0.6 to 1.1, 1.6 is very good; cat: Zajac et al. 1981, launch time, with a height from
memory; galago: Hall-Craggs 1965, height, with a push distance from memory; insect: froghopper, Burrows
2003."""


@dataclass(frozen=True, slots=True)
class World:
    """Gravity (m/s², magnitude, along the track's own down), step (frames per pose) and kind of jumper.

    Raises SettingsError for a gravity that is not a finite number above zero, a step below one, or a
    kind that `KINDS` does not list.

    >>> World(gravity=GRAVITIES["moon"]).gravity
    1.62
    """

    gravity: float = STANDARD_GRAVITY
    step: int = 1
    kind: str = "person"

    def __post_init__(self) -> None:
        if not (math.isfinite(self.gravity) and 0.0 < self.gravity < 1e4):
            raise SettingsError(f"gravity must be a number above 0 m/s² and below 10 000, not {self.gravity}")
        if self.step < 1 or self.step != int(self.step):
            raise SettingsError(f"step must be a whole number of frames, 1 or more, not {self.step}")
        if self.kind not in KINDS:
            raise SettingsError(f"kind must be one of {', '.join(KINDS)}, not {self.kind!r}")
