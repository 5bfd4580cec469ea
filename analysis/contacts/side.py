"""One side of a flight, where its contact is looked for: a landing is seen as a takeoff, with time reversed."""

from dataclasses import dataclass

from ..arrays import Array
from .ballistic import Parabola, Stretch
from .bottom import NOISY as NOISY
from .bottom import Bottom
from .drive import LANDING_LEAD, LEAD

UNLIKE, LANDING_UNLIKE = (0.013, 0.0115), (0.0095, 0.0065)
"""Standard error of a contact where no family of drives has the shape of its force, in seconds at the flight's pace.
The first: of a drawn curve, whose force ends at once. The second: of a measured one, whose contact is taken to lie
midway between a force that ends at once and one that fades (LATE_RELEASE_SECONDS). A landing's are smaller, since its
force sets in sooner (calibrated on pushes integrated from forces that fade over 50 to 150 ms, and on landings whose
forces set in within 60 ms)."""
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
    unlike            frames, standard error of a contact whose shape no family has (UNLIKE)
    rms               meters, root mean square of the samples in the air about their parabola
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
    lead, late, unlike = LEAD * second, LATE_RELEASE_SECONDS * second, UNLIKE[measured] * second
    return Side(f[:last], z[:last], stretch.first, parabola, lead, late, unlike, stretch.rms)


def falling_side(
    f: Array, z: Array, stretch: Stretch, parabola: Parabola, second: float, *, measured: bool = False
) -> Side:
    """Return the landing's side, with time reversed; arguments as in `rising_side`."""
    f, z, first = -f[: stretch.first : -1], z[: stretch.first : -1], len(f) - 1 - stretch.last
    lead, late, unlike = LANDING_LEAD * second, LATE_RELEASE_SECONDS * second, LANDING_UNLIKE[measured] * second
    return Side(f, z, first, parabola.backward, lead, late, unlike, stretch.rms)
