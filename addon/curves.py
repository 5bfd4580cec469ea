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
    """Return, for each (curve, keys, (n,) frames of its action), (n,) values as the host evaluates them."""
    tables = [_segments(curve, keys) for curve, keys, _ in asked]
    rows = [np.searchsorted(keys.frames, frames + HIT, side="right") for _, keys, frames in asked]
    starts = np.cumsum([0, *(table.shape[1] for table in tables)])
    at = np.concatenate([row + start for row, start in zip(rows, starts, strict=False)])
    frames = np.concatenate([frames for _, _, frames in asked])
    x0, rate, c1, c2, c3, d0, d1, d2, d3 = np.concatenate(tables, axis=1)[:, at]
    share = (frames - x0) * rate
    t, c2_twice, c3_thrice = share.copy(), 2.0 * c2, 3.0 * c3
    for _ in range(STEPS):
        t -= (((c3 * t + c2) * t + c1) * t - share) / ((c3_thrice * t + c2_twice) * t + c1)
    values = ((d3 * t + d2) * t + d1) * t + d0
    # Segments that are not worked out here hold no number, and the comparison with it is false.
    found = np.abs(((c3 * t + c2) * t + c1) * t - share) < SOLVED
    ends = np.cumsum([len(frames) for _, _, frames in asked])[:-1]
    parts = np.split(values, ends)
    if not found.all():
        for (curve, _, frames), part, good in zip(asked, parts, np.split(found, ends), strict=True):
            part[~good] = np.fromiter(map(curve.evaluate, frames[~good].tolist()), np.float64)
    return parts


def _segments(curve: FCurve, keys: Keys) -> np.ndarray:
    """Return (9, k + 1): what holds before the first key, between each two, and after the last.

    Rows: start frame, 1 / length, three coefficients of the share of the length by t, four of the value.
    A segment whose coefficients are not numbers is left to the host.
    """
    count = len(keys.kinds)
    table = np.zeros((9, count + 1))
    table[2] = 1.0
    if not count or len(curve.modifiers):
        table[2] = np.nan
        return table
    (x, y), (out, rise), (back, fall) = keys.points.T, (keys.right - keys.points).T, (keys.points - keys.left).T
    table[5, 0], table[5, 1:] = y[0], y
    if curve.extrapolation != "CONSTANT":
        table[2, [0, -1]] = np.nan
    span, kinds, inner = np.diff(x), keys.kinds[:-1], table[:, 1:-1]
    with np.errstate(divide="ignore", invalid="ignore"):
        # The host shortens a handle, whole, to the key spacing.
        a_cut, b_cut = np.minimum(1.0, span / out[:-1]), np.minimum(1.0, span / back[1:])
        a, b = a_cut * out[:-1] / span, 1.0 - b_cut * back[1:] / span
        up, down = 3.0 * a_cut * rise[:-1], 3.0 * b_cut * fall[1:]
        inner[0], inner[1] = x[:-1], 1.0 / span
    step = np.diff(y)
    curved = kinds == BEZIER
    inner[2:5, curved] = np.stack((3.0 * a, 3.0 * (b - 2.0 * a), 1.0 + 3.0 * (a - b)))[:, curved]
    inner[6:9, curved] = np.stack((up, 3.0 * step - 2.0 * up - down, up + down - 2.0 * step))[:, curved]
    inner[6, kinds == LINEAR] = step[kinds == LINEAR]
    tame = (a >= SHORTEST) & (b <= 1.0 - SHORTEST) & (a + 1.0 - b <= LONGEST)
    inner[2, (curved & ~tame) | (kinds > BEZIER) | (span <= 0.0)] = np.nan
    return table
