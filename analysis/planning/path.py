"""The path a plan draws: its keys with the slopes beside them, and where it is on each frame.

Frames from the crouch, meters from the takeoff: height up, across along the way of the jump. Push and absorb
are of constant force and the flight is a parabola, so each stretch between two keys is a quadratic, which a
cubic with these slopes at its ends gives exactly.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike

from ..arrays import Array


class Slope(NamedTuple):
    """Meters a frame just before a key and just after it."""

    before: float
    after: float


@dataclass(frozen=True, slots=True)
class PlannedKey:
    """One key: its event, its frame, where it lies and how fast the path runs through it."""

    event: str
    frame: int
    height: float
    across: float
    height_slope: Slope
    across_slope: Slope


class PathShape(NamedTuple):
    """Heights in meters (push, jump, drop, absorb), the distance across, and whole frames of each stretch."""

    push: float
    jump: float
    drop: float
    absorb: float
    distance: float
    push_frames: int
    rise_frames: int
    airtime_frames: int
    absorb_frames: int
    share: float
    """Share of the airtime before the parabola's own apex, which may lie between two frames."""


def keys_of(shape: PathShape, *, start: int) -> tuple[PlannedKey, ...]:
    """Give the five keys, the crouch on the start frame.

    The apex key lies on the parabola at its own whole frame; the horizontal speed of the flight is gathered
    in the push and shed in the absorb, both from and to rest at constant force.
    """
    push, air, absorb = shape.push_frames, shape.airtime_frames, shape.absorb_frames
    top = shape.share * air
    up, down = 2.0 * shape.jump / top, -2.0 * shape.drop / (air - top)
    bend = 2.0 * shape.jump / top**2
    speed = shape.distance / air
    level, left = shape.jump - shape.drop, top - shape.rise_frames
    apex = Slope(bend * left, bend * left)
    drive, give = 2.0 * shape.push / push, -2.0 * shape.absorb / absorb
    takeoff = start + push
    landing = takeoff + air
    across = Slope(speed, speed)
    return (
        PlannedKey("crouch", start, -shape.push, -0.5 * speed * push, Slope(0.0, 0.0), Slope(0.0, 0.0)),
        PlannedKey("takeoff", takeoff, 0.0, 0.0, Slope(drive, up), across),
        PlannedKey(
            "apex",
            takeoff + shape.rise_frames,
            shape.jump - 0.5 * bend * left**2,
            speed * shape.rise_frames,
            apex,
            across,
        ),
        PlannedKey("landing", landing, level, shape.distance, Slope(down, give), across),
        PlannedKey(
            "absorbed",
            landing + absorb,
            level - shape.absorb,
            shape.distance + 0.5 * speed * absorb,
            Slope(0.0, 0.0),
            Slope(0.0, 0.0),
        ),
    )


def path_at(keys: Sequence[PlannedKey], frames: ArrayLike) -> tuple[Array, Array]:
    """Give (n,) heights and (n,) meters across at these frames, at rest before the first key and after the last.

    >>> keys = keys_of(PathShape(0.5, 1.0, 1.0, 0.5, 2.0, 6, 12, 24, 6, 0.5), start=1)
    >>> [array.round(3).tolist() for array in path_at(keys, [1, 7, 13, 19])]
    [[-0.5, 0.0, 0.75, 1.0], [-0.25, 0.0, 0.5, 1.0]]
    """
    at = np.array([key.frame for key in keys], dtype=np.float64)
    clipped = np.clip(np.asarray(frames, dtype=np.float64), at[0], at[-1])
    first = np.clip(np.searchsorted(at, clipped, side="right") - 1, 0, len(at) - 2)
    gap = at[first + 1] - at[first]
    part = (clipped - at[first]) / gap
    height = _cubic([key.height for key in keys], [key.height_slope for key in keys], first, gap, part)
    across = _cubic([key.across for key in keys], [key.across_slope for key in keys], first, gap, part)
    return height, across


def _cubic(
    values: Sequence[float], slopes: Sequence[Slope], first: Array, gap: Array, part: Array
) -> Array:
    """Return Hermite's cubic between two keys (a standard formula; equal to Bezier handles at thirds)."""
    value = np.array(values)
    out = np.array([slope.after for slope in slopes])[first] * gap
    into = np.array([slope.before for slope in slopes])[first + 1] * gap
    rise = value[first + 1] - value[first]
    return value[first] + part * (out + part * (3.0 * rise - 2.0 * out - into + part * (out + into - 2.0 * rise)))
