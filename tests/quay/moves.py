"""What Brindle can be told to do, in whole frames and meters."""

from dataclasses import dataclass

STANDING = 0.92
"""Height of the hips above the ground when Brindle stands."""
REACH = 1.06
"""Height of the hips above the ground at takeoff and landing, hooves just touching."""


@dataclass(frozen=True, slots=True)
class Stand:
    """Stand still for so many frames."""

    frames: int


@dataclass(frozen=True, slots=True)
class Walk:
    """Walk steps of so many frames, at so many meters a frame, the hips bobbing by so much."""

    steps: int
    speed: float
    frames: int = 12
    bob: float = 0.025


@dataclass(frozen=True, slots=True)
class Fall:
    """Step off an edge: the last contact, then so many frames down to a ground, at the walk's speed."""

    fall: int
    absorb: int
    ground: float
    settle: int = 12


@dataclass(frozen=True, slots=True)
class Leap:
    """One jump, in whole frames from pose to pose.

    pace         air pace: 1 is real time, less is floaty, more is snappy
    push_real    push frames the push distance is worked out for; None: the push belongs to the flight
    absorb_real  the same for the absorb distance
    distance     meters along x from takeoff to landing
    late_speed   horizontal speed after the apex over the speed before it
    dip          0: straight out of the last landing
    settle       0: straight into the next push
    upright      height of the hips above the ground after settling
    """

    push: int
    rise: int
    fall: int
    absorb: int
    distance: float
    dip: int = 8
    hold: int = 3
    settle: int = 12
    pace: float = 1.0
    push_real: float | None = None
    absorb_real: float | None = None
    late_speed: float = 1.0
    upright: float = STANDING


Move = Stand | Walk | Fall | Leap
