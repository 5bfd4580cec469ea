"""TimeMap: which frame each old frame becomes when a jump is retimed. Frames throughout.

Strictly rising and piecewise linear: nothing moves before its first anchor, the last anchor's shift holds after
it. Keys between anchors move in proportion, onto whole frames where those hold them all.
"""

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike

from .arrays import Array
from .beat import apart, room
from .errors import RetimeError

SAME_KEY_FRAMES = 0.01
"""Frames under which Blender takes two keys for one (its binary search's threshold)."""
RUN = 3
"""Number of keys between two anchors from which an even run of them may be a drawn curve rather than poses (ours)."""
RUN_GAP = 2.0
"""Frames from key to key up to which a run is a drawn curve: rounding would make it jitter (ours)."""


@dataclass(frozen=True, slots=True)
class TimeMap:
    """Old frames to new ones.

    old, new   (k,) rising anchors, k ≥ 1, with new[0] = old[0]
    step       frames from pose to pose that keys keep to where they can: 2 for a shot on twos
    whole      whether keys between anchors go to whole frames

    Raises RetimeError for anchors that do not rise or are not finite.

    >>> TimeMap((10, 16, 24), (10, 14, 22)).at([4, 13, 24, 30]).tolist()
    [4.0, 12.0, 22.0, 28.0]
    """

    old: tuple[float, ...]
    new: tuple[float, ...]
    step: int = 1
    whole: bool = True

    def __post_init__(self) -> None:
        old, new = (tuple(float(frame) for frame in side) for side in (self.old, self.new))
        if not old or len(old) != len(new):
            raise RetimeError("a time map needs as many new frames as old ones, and at least one")
        if not np.isfinite((*old, *new)).all():
            raise RetimeError("a time map's frames must be finite numbers")
        for side, name in ((old, "old"), (new, "new")):
            if any(b - a < SAME_KEY_FRAMES for a, b in zip(side, side[1:], strict=False)):
                raise RetimeError(f"the {name} frames of a time map must rise, not {', '.join(f'{f:g}' for f in side)}")
        if old[0] != new[0]:
            raise RetimeError(f"a time map leaves its first frame where it is: {old[0]:g} became {new[0]:g}")
        if self.step < 1 or self.step != int(self.step):
            raise RetimeError(f"the step must be a whole number of frames, 1 or more, not {self.step}")
        object.__setattr__(self, "old", old)
        object.__setattr__(self, "new", new)

    @property
    def is_identity(self) -> bool:
        """Whether nothing moves."""
        return self.old == self.new

    @property
    def shift(self) -> float:
        """Frames by which all that follows the last anchor moves."""
        return self.new[-1] - self.old[-1]

    def at(self, frames: ArrayLike) -> Array:
        """Return new frames of (n,) old ones, in proportion between anchors."""
        return _linear(np.asarray(frames, np.float64), self.old, self.new)

    def back(self, frames: ArrayLike) -> Array:
        """Return old frames of (n,) new ones: the inverse of `at`."""
        return _linear(np.asarray(frames, np.float64), self.new, self.old)

    def slopes(self, frames: ArrayLike, *, side: Literal["left", "right"] = "right") -> Array:
        """Return new frames per old frame at (n,) old frames; at an anchor, of what lies to that side of it."""
        slopes = np.array([1.0, *(np.diff(self.new) / np.diff(self.old)), 1.0])
        return slopes[np.searchsorted(np.asarray(self.old), frames, side=side)]

    def spans(self, frames: ArrayLike) -> Array:
        """(n,) which stretch strictly between two anchors each frame lies in, from 0; -1 for none."""
        frames, old = np.asarray(frames, np.float64), np.asarray(self.old)
        span = np.searchsorted(old, frames, side="right") - 1
        inside = (span >= 0) & (span < len(old) - 1)
        inside[inside] &= frames[inside] > old[span[inside]]
        return np.where(inside, span, -1)

    def runs(self, frames: ArrayLike, curves: ArrayLike, held: ArrayLike) -> Array:
        """(n,) whether each key is one of a run that draws a curve, frame by frame, rather than a pose.

        frames (n,) of keys, curves (n,) the number of the curve each is on, held (n,) whether its value is
        held until the next.
        """
        curves, span = np.asarray(curves, np.int64), self.spans(frames)
        if len(self.old) < 2 or not len(span):
            return np.zeros(len(span), bool)
        lengths = np.diff(self.old)
        place = curves * len(lengths) + np.maximum(span, 0)
        counts = np.bincount(place, weights=span >= 0)[place]
        dense = (counts >= RUN) & (lengths[span] < RUN_GAP * (counts + 1.0))
        return (span >= 0) & dense & ~np.asarray(held, bool)

    def place(self, poses: ArrayLike) -> Array:
        """Return new frames of (n,) rising old frames that carry poses: on the step, else whole, else in proportion.

        Each stretch between two anchors goes to the first of those that holds all its poses apart. A stretch
        that keeps its length is moved as it is.
        """
        poses = np.asarray(poses, np.float64)
        placed, span = self.at(poses), self.spans(poses)
        if not self.whole:
            return placed
        for i in np.unique(span[span >= 0]):
            low, high = self.new[i], self.new[i + 1]
            if high - low == self.old[i + 1] - self.old[i]:
                continue
            inside = span == i
            for step in dict.fromkeys((self.step, 1)):
                rounded = apart(placed[inside], low, high, step=step)
                if rounded is not None:
                    placed[inside] = rounded
                    break
        return placed

    def check_room(self, held: ArrayLike) -> None:
        """Refuse to put (n,) old frames of held poses, each once, where some would never be seen: RetimeError."""
        if not self.whole:
            return
        span = self.spans(held)
        for i in np.unique(span[span >= 0]):
            count, (low, high) = int((span == i).sum()), self.new[i : i + 2]
            fits = room(low, high)
            if count > fits and high - low < self.old[i + 1] - self.old[i]:
                raise RetimeError(
                    f"held poses between frames {self.old[i]:g} and {self.old[i + 1]:g} would be {count} on "
                    f"{fits or 'no'} frame{'s' * (fits != 1)}: take {count - fits} out, or let keys go between frames"
                )


def _linear(frames: Array, old: tuple[float, ...], new: tuple[float, ...]) -> Array:
    """Return frames piecewise linear through the anchors, slope 1 outside; exact where a stretch keeps its length."""
    a, b = np.asarray(old), np.asarray(new)
    slopes = np.append(np.diff(b) / np.diff(a), 1.0)
    i = np.clip(np.searchsorted(a, frames, side="right") - 1, 0, len(a) - 1)
    slope = np.where(frames < a[0], 1.0, slopes[i])
    return b[i] + (frames - a[i]) * slope
