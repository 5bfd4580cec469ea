"""Beat: the frames that poses fall on, and the whole frames nearest to exact ones. Frames throughout."""

import math
from dataclasses import dataclass

NEIGHBORS = 2
"""Steps to either side of an exact frame that are worth trying."""


@dataclass(frozen=True, slots=True)
class Beat:
    """The frames of a shot's poses: one of them, and the frames from pose to pose."""

    start: float
    step: int

    def at(self, frame: float) -> int:
        """Give the frame of the poses nearest to a frame.

        >>> Beat(11.0, 2).at(14.2), Beat(11.0, 1).at(14.2)
        (15, 14)
        """
        return round(self.start) + whole(frame - round(self.start), step=self.step)

    def near(self, frame: float) -> list[int]:
        """Give the few frames of the poses around a frame, in order."""
        middle = self.at(frame)
        return [middle + n * self.step for n in range(-NEIGHBORS, NEIGHBORS + 1)]

    def length(self, frames: float) -> int:
        """Give the length on the step that comes nearest, one step at least."""
        return max(whole(frames, step=self.step), self.step)


def whole(frames: float, *, step: int) -> int:
    """Round to the step; a half goes up.

    >>> whole(2.5, step=1), whole(2.9, step=2), whole(-0.5, step=1)
    (3, 2, 0)
    """
    return step * math.floor(frames / step + 0.5)


def nearest(frames: float, *, step: int) -> int:
    """Give the frames on the step that come nearest in ratio, one step at least.

    >>> nearest(1.45, step=1), nearest(0.1, step=2)
    (2, 2)
    """
    low = max(step * math.floor(frames / step), step)
    return low if frames * frames <= low * (low + step) else low + step


def counted(frames: float) -> str:
    """Write frames to one decimal, with their word.

    >>> counted(1.0), counted(6.25)
    ('1 frame', '6.2 frames')
    """
    rounded = round(frames, 1)
    return f"{rounded:g} frame{'' if rounded == 1.0 else 's'}"


def left_over(frames: float) -> str:
    """Write what a whole-frame answer leaves: "exact", or the frames it is over or short.

    >>> left_over(-0.31), left_over(0.02)
    ('0.3 frames short', 'exact')
    """
    if not round(frames, 1):
        return "exact"
    return f"{counted(abs(frames))} {'over' if frames > 0.0 else 'short'}"
