"""Beat: the frames that poses fall on, and the whole frames nearest to exact ones. Frames throughout."""

import math
from dataclasses import dataclass

import numpy as np

from .arrays import Array

NEIGHBORS = 2
"""Steps to either side of an exact frame that are worth trying."""
ROUNDING = 1 / math.sqrt(12.0)
"""Standard deviation, in steps, of a time rounded to whole steps: uniform over one of them (JCGM 100:2008, 4.3.7)."""


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


def whole_frame(frame: float) -> float:
    """Give the whole frame nearest to a frame; a half goes up.

    >>> whole_frame(12.5)
    13.0
    """
    return float(whole(frame, step=1))


def around(exact: float, *, drawn: float, step: int, reach: int = 1) -> list[float]:
    """Give the lengths that differ from the drawn one by whole steps, nearest to the exact one first.

    One step at least; reach: how many steps past those to either side of the exact one. The drawn length alone
    where it is exact.

    >>> around(9.3, drawn=8.0, step=2, reach=0), around(8.0, drawn=8.0, step=2)
    ([10.0, 8.0], [8.0])
    """
    if abs(exact - drawn) < 1e-9:
        return [drawn]
    low = drawn + step * math.floor((exact - drawn) / step)
    found = {max(low + step * n, float(step)) for n in range(-reach, reach + 2)}
    return sorted(found, key=lambda length: abs(length - exact))


def room(low: float, high: float, *, step: int = 1) -> int:
    """Count the steps from low that lie between low and high, neither of them counted.

    >>> room(10.0, 16.0), room(10.0, 16.0, step=2)
    (5, 2)
    """
    return math.ceil((high - low) / step - 1e-6) - 1


def apart(frames: Array, low: float, high: float, *, step: int) -> Array | None:
    """Give the nearest steps from low for (n,) rising frames, each its own, between low and high; None without room."""
    fits, count = room(low, high, step=step), np.arange(len(frames))
    if len(frames) > fits:
        return None
    steps = np.rint((frames - low) / step)
    # Push up to stay apart from those before, then down from those after.
    steps = np.maximum.accumulate(np.maximum(steps, 1) - count) + count
    steps = np.minimum.accumulate((np.minimum(steps, fits) - count)[::-1])[::-1] + count
    return low + step * np.maximum(steps, count + 1)


def nearest(frames: float, *, step: int) -> int:
    """Give the frames on the step that come nearest in ratio, one step at least.

    >>> nearest(1.45, step=1), nearest(0.1, step=2)
    (2, 2)
    """
    low = max(step * math.floor(frames / step), step)
    return low if frames * frames <= low * (low + step) else low + step


def frames_said(frames: float) -> str:
    """Write frames to one decimal, with their word.

    >>> frames_said(1.0), frames_said(6.25)
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
    return f"{frames_said(abs(frames))} {'over' if frames > 0.0 else 'short'}"
