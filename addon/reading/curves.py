"""F-curves read in one go: their keys as arrays, and their values at many frames.

Blender's own rules of interpolation, vectorised; what they do not cover (modifiers, easings, baked curves, very
long or short handles) is asked of the host frame by frame. Measured against it: within 1e-5 of a unit, 2e-5 on
key spacings under a frame, where the host's single-precision roots are the coarser.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from bpy.types import FCurve

CONSTANT, LINEAR, BEZIER = 0, 1, 2
"""Blender's numbers of the interpolations worked out here; the easings above them are the host's."""
HIT = 1e-4
"""Frames before a key from which its value counts, as in the host."""
SHORTEST, LONGEST = 0.05, 1.6
"""Handles as shares of the key spacing: each at least, both together at most, for the cubic to be solved here."""
FEW = 400
"""Frames under which asking the host one by one is quicker than setting the tables up (measured)."""
STEPS, SOLVED = 5, 1e-7
"""Newton's steps, and the share of a key spacing within which they must end."""


@dataclass(frozen=True, slots=True, eq=False)
class Keys:
    """The keys of one curve: points and both handles (k, 2) in frames and values, interpolations (k,)."""

    points: np.ndarray
    left: np.ndarray
    right: np.ndarray
    kinds: np.ndarray

    @property
    def frames(self) -> np.ndarray:
        """(k,) frames, rising."""
        return self.points[:, 0]

    @property
    def is_flat(self) -> bool:
        """Whether keys and handles all lie at one value."""
        heights = np.concatenate((self.points[:, 1], self.left[:, 1], self.right[:, 1]))
        return not len(heights) or float(heights.max() - heights.min()) <= 1e-6


def read_keys(curve: FCurve) -> Keys:
    """Read the keys of a curve; none of a baked one."""
    points = curve.keyframe_points
    parts = []
    for name in ("co", "handle_left", "handle_right"):
        flat = np.empty(2 * len(points), np.float32)
        points.foreach_get(name, flat)
        parts.append(flat.reshape(-1, 2).astype(np.float64))
    kinds = np.empty(len(points), np.int32)
    points.foreach_get("interpolation", kinds)
    return Keys(*parts, kinds)


def values_of(asked: Sequence[tuple[FCurve, Keys, np.ndarray]]) -> list[np.ndarray]:
    """Return (n,) values as the host evaluates them, for each (curve, keys, (n,) frames of its action).

    The frames of each either rise or fall throughout.
    """
    ours = [(keys, _rising(frames)) for curve, keys, frames in asked if not _is_hosts(curve, frames)]
    worked_out = iter(_worked_out(ours))
    found = []
    for curve, _, frames in asked:
        values = np.full(len(frames), np.nan) if _is_hosts(curve, frames) else next(worked_out)
        unknown = np.isnan(values)
        if unknown.any():
            values[unknown] = np.fromiter(map(curve.evaluate, _rising(frames)[unknown].tolist()), np.float64)
        found.append(values if _rising(frames) is frames else values[::-1])
    return found


def _rising(frames: np.ndarray) -> np.ndarray:
    return frames if frames[0] <= frames[-1] else frames[::-1]


def _is_hosts(curve: FCurve, frames: np.ndarray) -> bool:
    if len(frames) < FEW or len(curve.modifiers) or not len(curve.keyframe_points):
        return True
    return curve.extrapolation != "CONSTANT"


def _worked_out(asked: Sequence[tuple[Keys, np.ndarray]]) -> list[np.ndarray]:
    """Return the values of several curves, worked out in one go; not a number where the host is to be asked."""
    if not asked:
        return []
    counts = [_counts(keys.frames, frames) for keys, frames in asked]
    segments = _segments([keys for keys, _ in asked])
    x0, rate, c1, c2, c3, d0, d1, d2, d3 = np.repeat(segments, np.concatenate(counts), axis=1)
    share = np.concatenate([frames for _, frames in asked])
    share -= x0
    share *= rate
    np.maximum(share, 0.0, out=share)
    t, c2_twice, c3_thrice = share.copy(), 2.0 * c2, 3.0 * c3
    for _ in range(STEPS):
        t -= (((c3 * t + c2) * t + c1) * t - share) / ((c3_thrice * t + c2_twice) * t + c1)
    values = ((d3 * t + d2) * t + d1) * t + d0
    values[~(np.abs(((c3 * t + c2) * t + c1) * t - share) < SOLVED)] = np.nan
    return np.split(values, np.cumsum([len(frames) for _, frames in asked])[:-1])


def _counts(keys: np.ndarray, frames: np.ndarray) -> np.ndarray:
    """Count the frames each key holds until the next; the first also those before it, the last those after."""
    edges = np.searchsorted(frames, keys - HIT)
    edges[0] = 0
    return np.diff(edges, append=len(frames))


def _segments(shapes: Sequence[Keys]) -> np.ndarray:
    """Return (9, k) for the k keys of all curves: what holds from each key to the next.

    Rows: start frame, 1 / length, three coefficients of the share of the length by t, four of the value.
    A segment whose coefficients are not numbers is left to the host.
    """
    x, y = np.concatenate([keys.points for keys in shapes]).T
    out, rise = np.concatenate([keys.right for keys in shapes]).T - (x, y)
    back, fall = (x, y) - np.concatenate([keys.left for keys in shapes]).T
    kinds = np.concatenate([keys.kinds for keys in shapes])
    kinds[np.cumsum([len(keys.kinds) for keys in shapes]) - 1] = CONSTANT
    span, step = np.roll(x, -1) - x, np.roll(y, -1) - y
    with np.errstate(divide="ignore", invalid="ignore"):
        # The host shortens a handle, whole, to the key spacing.
        back, fall = np.roll(back, -1), np.roll(fall, -1)
        a_cut, b_cut = np.minimum(1.0, span / out), np.minimum(1.0, span / back)
        a, b = a_cut * out / span, 1.0 - b_cut * back / span
        rate = 1.0 / span
    up, down = 3.0 * a_cut * rise, 3.0 * b_cut * fall
    curve = np.array(
        (x, rate, 3 * a, 3 * (b - 2 * a), 1 + 3 * (a - b), y, up, 3 * step - 2 * up - down, up + down - 2 * step)
    )
    curve[2, ~((a >= SHORTEST) & (b <= 1.0 - SHORTEST) & (a + 1.0 - b <= LONGEST))] = np.nan
    curve[2, (kinds > BEZIER) | (span <= 0.0)] = np.nan
    straight = kinds <= LINEAR
    curve[2, straight], curve[3:5, straight], curve[7:9, straight] = 1.0, 0.0, 0.0
    curve[6, kinds == LINEAR] = step[kinds == LINEAR]
    curve[6, kinds == CONSTANT], curve[1, kinds == CONSTANT] = 0.0, 0.0
    curve[2, (kinds == LINEAR) & (span <= 0.0)] = np.nan
    return curve
