"""One side of a flight, where its contact is looked for: a landing is seen as a takeoff, with time reversed."""

import math
from dataclasses import dataclass
from typing import NamedTuple

from ..arrays import Array
from .ballistic import Parabola, Stretch
from .bottom import NOISY as NOISY
from .bottom import Bottom
from .drive import LANDING_LEAD, LEAD


class Unlike(NamedTuple):
    """Standard error of a contact where no drive has the shape of its force, in seconds at the flight's pace.

    least    what is left of it where push and drive are alike
    turns    per e-fold that the push is longer or shorter than `usual`: of a short one, how it fades decides, of a long
             one, how it changes on its way
    usual    seconds that a push usually lasts, at the flight's pace
    misfits  per second of the push and per share of its rise that the best drive's residual is (root mean square)
    """

    least: float
    turns: float = 0.0
    usual: float = 1.0
    misfits: float = 0.0


UNLIKE = (Unlike(0.0068, 0.0098, 0.262, 26.7), Unlike(0.0115))
LANDING_UNLIKE = (Unlike(0.0064, 0.0083, 0.119, 12.8), Unlike(0.0065))
"""Of takeoffs and of landings. The first: of a drawn curve; `python -m tests.bench unlike --tries 200` fits it anew, on
pushes integrated from random forces. The second: of a measured one, whose contact is taken to lie midway between a
force that ends at once and one that fades (LATE_RELEASE_SECONDS), and of which noise hides how alike it is (calibrated
on pushes integrated from forces that fade over 50 to 150 ms, and on landings whose forces set in within 60 ms)."""
DRIVE_RESIDUAL = 3e-3
"""Largest residual, as a share of the push distance, at which we prefer a drive to a free knot (`by_knot`)."""
LATE_RELEASE_SECONDS = 0.0045
"""How much later than the drives say a measured push ends, and how much earlier a landing begins, in seconds at the
flight's pace: the mean of forces that end at once (0) and of recorded ones (twice this; pushes integrated from random
forces: `python -m tests.bench bias`)."""
JOINT = 1.5
"""Factor on the errors that a drive's fit gives: the fit takes the flight for exact, though it has an error of its own
(calibrated on seeded jumps under noise)."""
LEAST_CONTACT_ERROR, MOST_CONTACT_ERROR = 0.005, 3.0
"""Least and most standard error of a contact, in samples: no contact is known better, even between interpolated keys,
and one that is known no better than the most is lost."""


@dataclass(frozen=True, slots=True, eq=False)
class Side:
    """One side of a flight.

    frames, heights   (n,) frames and meters, ground first; for a landing, time is reversed
    first             index of the first sample in the air
    parabola          the flight's
    lead              frames from the peak of a recorded speed to the contact (drive.LEAD)
    late              frames that the contact lies nearer to the air than the drives say (LATE_RELEASE_SECONDS)
    unlike            standard error of a contact whose shape no family has, in seconds (UNLIKE)
    second            frames in a second at the flight's pace
    rms               meters, root mean square of the samples in the air about their parabola
    """

    frames: Array
    heights: Array
    first: int
    parabola: Parabola
    lead: float
    late: float
    unlike: Unlike
    second: float
    rms: float

    def doubt(self, push: float, misfit: float) -> float:
        """Return the standard error of a contact, frames, that the shape of its force leaves open.

        push: frames that it lasts; misfit: root mean square residual of the best drive, as a share of the rise.
        """
        own, seconds = self.unlike, max(push, self.beat) / self.second
        turned, missed = own.turns * math.log(seconds / own.usual), own.misfits * misfit * seconds
        return self.second * math.hypot(own.least, turned, missed)

    @property
    def beat(self) -> float:
        """Frames between samples next to the contact."""
        i = max(self.first, 1)
        return float(self.frames[i] - self.frames[i - 1])


@dataclass(frozen=True, slots=True)
class Contact:
    """Where a flight begins: frame and standard error (frames), and the bottom before it, None where there is none."""

    frame: float
    error: float
    bottom: Bottom | None

    def is_lost(self, beat: float) -> bool:
        """Tell whether the contact is known to a few samples at best, and no bottom leads up to it."""
        return self.error >= MOST_CONTACT_ERROR * beat and (self.bottom is None or self.bottom.cut)


def rising_side(
    f: Array, z: Array, stretch: Stretch, parabola: Parabola, second: float, *, measured: bool = False
) -> Side:
    """Return the takeoff's side of a flight.

    second: frames in a second at the flight's pace; measured: the track was recorded, not drawn.
    """
    last = stretch.last
    lead, late = LEAD * second, LATE_RELEASE_SECONDS * second
    return Side(f[:last], z[:last], stretch.first, parabola, lead, late, UNLIKE[measured], second, stretch.rms)


def falling_side(
    f: Array, z: Array, stretch: Stretch, parabola: Parabola, second: float, *, measured: bool = False
) -> Side:
    """Return the landing's side, with time reversed; arguments as in `rising_side`."""
    f, z, first = -f[: stretch.first : -1], z[: stretch.first : -1], len(f) - 1 - stretch.last
    lead, late = LANDING_LEAD * second, LATE_RELEASE_SECONDS * second
    return Side(f, z, first, parabola.backward, lead, late, LANDING_UNLIKE[measured], second, stretch.rms)
