"""Goal: what is asked of a jump before a key is set. Meters, m/s², frames."""

import math
from dataclasses import dataclass, field

from ..errors import PlanError
from ..world import World

LIFT = 0.15
"""Meters an adult's center of mass is higher at takeoff than standing (heels, arms), and its range: five
plate records of the BMC laboratory give 0.14 to 0.18 ± 0.02 to 0.04, published differences 0.13 to 0.16."""
LIFT_RANGE = (0.11, 0.22)
ZEROS = ("takeoff", "standing")
LONGEST_GOAL = 10_000
"""Frames of a push, a flight or an absorb past which a goal is taken for a mistake (ours)."""
LAST_HOST_FRAME = 1_048_574
"""Last frame of the host's time line, either way: no marker and no key lies beyond."""


@dataclass(frozen=True, slots=True)
class Goal:
    """What a jump is to be; either its height or its airtime, and its push.

    push_distance    m, rise of the track from crouch to takeoff
    height           m, above the zero; None: as the airtime gives it
    airtime_frames   takeoff to landing, whole or not; None: as the height gives it
    world            gravity, step and kind of jumper
    fps              frames per second
    air_pace         how fast it is played against real time: over 1 snappy, under 1 floaty
    landing_height   m, landing above (or, negative, under) takeoff; None: level
    drop_height      m, apex to landing: the same said from above; not both
    absorb_distance  m, fall from landing to the lowest point; None: as far as the push
    distance         m, across from takeoff to landing
    zero             what the height counts from: takeoff, or standing, which is `lift` lower
    lift             m, takeoff above standing, used with zero "standing" only
    start_frame      frame of the crouch

    Raises PlanError when a number is missing, not finite or of the wrong sign.

    >>> Goal(0.41, height=0.54).air_pace
    1.0
    """

    push_distance: float
    height: float | None = None
    airtime_frames: float | None = None
    world: World = field(default_factory=World)
    fps: float = 24.0
    air_pace: float = 1.0
    landing_height: float | None = None
    drop_height: float | None = None
    absorb_distance: float | None = None
    distance: float = 0.0
    zero: str = "takeoff"
    lift: float = LIFT
    start_frame: int = 1

    def __post_init__(self) -> None:
        if (self.height is None) == (self.airtime_frames is None):
            raise PlanError("a plan needs either a height or an airtime")
        if self.landing_height is not None and self.drop_height is not None:
            raise PlanError("a plan takes the height of the landing or the drop to it, not both")
        if self.zero not in ZEROS:
            raise PlanError(f"the height counts from {' or '.join(ZEROS)}, not from {self.zero!r}")
        above = ("push_distance", "height", "airtime_frames", "fps", "air_pace", "drop_height", "absorb_distance")
        for name in (*above, "distance", "lift", "landing_height", "start_frame"):
            value = getattr(self, name)
            if value is None:
                continue
            if not math.isfinite(value):
                raise PlanError(f"the {_said(name)} must be a number, not {value}")
            if name in above and value <= 0.0:
                raise PlanError(f"the {_said(name)} must be above 0, not {value:g}")
            if name in ("distance", "lift") and value < 0.0:
                raise PlanError(f"the {_said(name)} must be 0 or more, not {value:g}")

        if abs(self.start_frame) > LAST_HOST_FRAME:
            raise PlanError(
                f"the start frame must lie within ±{LAST_HOST_FRAME:_}, not at {self.start_frame}".replace("_", " ")
            )

    @property
    def played_gravity(self) -> float:
        """m/s² that the flight is drawn under: the world's, times the air pace squared."""
        return self.world.gravity * self.air_pace**2


def _said(name: str) -> str:
    return name.replace("_frames", "").replace("_", " ")
