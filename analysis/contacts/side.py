"""One side of a flight, as its contact is looked for: back in time from a takeoff; a landing with time reversed."""

from dataclasses import dataclass

from ..arrays import Array
from .ballistic import Parabola, Stretch
from .bottom import NOISY as NOISY
from .bottom import Bottom
from .drive import LANDING_LEAD, LEAD

UNLIKE, LANDING_UNLIKE = (0.013, 0.0115), (0.0095, 0.0065)
"""Seconds of the flight's pace by which contacts of smooth forces that no family of drives has lie elsewhere, one
standard error: of a curve that may be drawn, whose force then ends at once, and of a measured one, whose contact lies
between those of both kinds (LATE_RELEASE_SECONDS); a landing's force sets in sooner (calibrated on pushes integrated
from forces that fade over 50 to 150 ms, and on landings whose forces set in within 60 ms)."""
LATE_RELEASE_SECONDS = 0.0045
"""Seconds of the flight's pace by which a force that no family has lets go later than they say, and sets in earlier at
the landing: the mean of forces that end at once, 0, and of recorded ones, twice as much (pushes integrated from random
forces: `python -m tests.bench bias`)."""
JOINT = 1.5
"""By how much the flight's own error, taken as none in a drive's fit, widens the drive's (calibrated on seeded jumps
under noise)."""
LEAST_CONTACT_ERROR, MOST_CONTACT_ERROR = 0.005, 3.0
"""Least and most standard error of a contact, in samples: no contact is known better (interpolated keys), and one that
is known worse is lost."""


@dataclass(frozen=True, slots=True, eq=False)
class Side:
    """One side of a flight.

    frames, heights   (n,) frames and meters, ground first; of a landing with time reversed
    first             index of the first sample in the air
    parabola          the flight's
    lead              frames by which a recorded speed peaks before the contact (drive.LEAD)
    late              frames by which a shape that no family has puts the contact nearer to the air
    unlike            frames by which it puts the contact elsewhere (UNLIKE)
    rms               meters by which the air's own samples miss their parabola
    """

    frames: Array
    heights: Array
    first: int
    parabola: Parabola
    lead: float
    late: float
    unlike: float
    rms: float

    @property
    def beat(self) -> float:
        """Frames between samples next to the contact."""
        i = max(self.first, 1)
        return float(self.frames[i] - self.frames[i - 1])


@dataclass(frozen=True, slots=True)
class Contact:
    """Where a flight begins: frame and standard error (frames), and the bottom, None when there is none."""

    frame: float
    error: float
    bottom: Bottom | None

    def is_lost(self, beat: float) -> bool:
        """Tell whether it is known to no better than a few samples, and no bottom leads up to it."""
        return self.error >= MOST_CONTACT_ERROR * beat and (self.bottom is None or self.bottom.cut)


def rising_side(
    f: Array, z: Array, stretch: Stretch, parabola: Parabola, second: float, *, measured: bool = False
) -> Side:
    """Return the takeoff's side of a flight; second: frames in a second of its pace; measured: by no hand."""
    last = stretch.last
    lead, late, unlike = LEAD * second, LATE_RELEASE_SECONDS * second, UNLIKE[measured] * second
    return Side(f[:last], z[:last], stretch.first, parabola, lead, late, unlike, stretch.rms)


def falling_side(
    f: Array, z: Array, stretch: Stretch, parabola: Parabola, second: float, *, measured: bool = False
) -> Side:
    """Return the landing's side, time reversed."""
    f, z, first = -f[: stretch.first : -1], z[: stretch.first : -1], len(f) - 1 - stretch.last
    lead, late, unlike = LANDING_LEAD * second, LATE_RELEASE_SECONDS * second, LANDING_UNLIKE[measured] * second
    return Side(f, z, first, parabola.backward, lead, late, unlike, stretch.rms)
