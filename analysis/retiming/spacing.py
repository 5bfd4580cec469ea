"""Spacing: where a retiming takes poses off the even beat they were drawn on. Frames."""

from dataclasses import dataclass

import numpy as np

from ..arrays import Array
from ..time_map import TimeMap

EVEN_GAP_FRAMES = 1e-3
"""Most that gaps between poses differ while they are still one beat, in frames: single precision far along a shot."""


@dataclass(frozen=True, slots=True)
class Spacing:
    """Poses between two new frames that lay evenly, `was` frames apart, and now lie from fewest to most apart."""

    first: float
    last: float
    was: float
    fewest: float
    most: float


def respaced(time_map: TimeMap, poses: Array | None) -> tuple[Spacing, ...]:
    """Find the stretches of a map whose poses lay on twos or wider, evenly, and no longer do.

    poses: (n,) old frames of keys, rising; None where a track has none. Neighbors that end up alike are one.
    """
    if poses is None or len(poses) < 3 or time_map.is_identity:
        return ()
    new = time_map.place(poses)
    found: list[Spacing] = []
    for low, high in zip(time_map.old, time_map.old[1:], strict=False):
        within = (poses >= low - EVEN_GAP_FRAMES) & (poses <= high + EVEN_GAP_FRAMES)
        before, after = np.diff(poses[within]), np.diff(new[within])
        if (
            len(before) < 2
            or before[0] < 2.0 - EVEN_GAP_FRAMES
            or np.ptp(before) > EVEN_GAP_FRAMES
            or np.ptp([*after, before[0]]) <= EVEN_GAP_FRAMES
        ):
            continue
        start, end = new[within][[0, -1]].tolist()
        one = Spacing(start, end, was=float(before[0]), fewest=float(after.min()), most=float(after.max()))
        last = found[-1] if found else None
        if last and (last.last, last.was, last.fewest, last.most) == (one.first, one.was, one.fewest, one.most):
            found[-1] = Spacing(last.first, one.last, one.was, one.fewest, one.most)
        else:
            found.append(one)
    return tuple(found)
