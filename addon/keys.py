"""The only module that writes keys: moves those of whole F-curves by a TimeMap, all at once.

Frames are those of the curves' action. What is not a key's place in time stays: values (but those asked for),
interpolations, easings, handle types, selection, groups, locks, modifiers, extrapolation.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
from bpy.types import FCurve, TimelineMarker

from ..analysis.arrays import Array
from ..analysis.errors import RetimeError
from ..analysis.time_map import SAME_KEY_FRAMES, TimeMap
from .reading.curves import CONSTANT

KEY_PARTS = 3
"""Parts of a key: its point, its left and its right handle."""


@dataclass(frozen=True, slots=True, eq=False)
class KeyTable:
    """The keys of several curves in one array.

    values   (3, k, 2) single precision: points, left and right handles, each frame and value
    curve    (k,) the number of the curve each key is on
    starts   (c + 1,) where each curve's keys begin
    ahead    (k,) frames by which the curve's action runs ahead of the timeline
    """

    curves: tuple[FCurve, ...]
    values: Array
    curve: Array
    starts: Array
    ahead: Array

    @property
    def frames(self) -> Array:
        """(k,) timeline frames of the keys, rising within each curve."""
        return self.values[0, :, 0].astype(np.float64) - self.ahead

    def of_copies(self, curves: Sequence[FCurve]) -> "KeyTable":
        """Return the table of its first curves, with copies of those in their place."""
        keys = int(self.starts[len(curves)])
        return KeyTable(
            tuple(curves), self.values[:, :keys], self.curve[:keys], self.starts[: len(curves) + 1], self.ahead[:keys]
        )


def table_of(curves: Sequence[FCurve], *, ahead: Sequence[float]) -> KeyTable:
    """Read the keys of curves, given the frames by which each one's action runs ahead of the timeline."""
    sets = [curve.keyframe_points for curve in curves]
    counts = [len(keys) for keys in sets]
    starts = np.cumsum([0, *counts])
    values = np.empty((KEY_PARTS, starts[-1], 2), np.float32)
    points, left, right = values.reshape(KEY_PARTS, -1)
    ends = (2 * starts).tolist()
    for keys, a, b in zip(sets, ends, ends[1:], strict=False):
        get = keys.foreach_get
        get("co", points[a:b])
        get("handle_left", left[a:b])
        get("handle_right", right[a:b])
    return KeyTable(tuple(curves), values, np.repeat(np.arange(len(curves)), counts), starts, np.repeat(ahead, counts))


def new_frames(table: KeyTable, time_map: TimeMap) -> Array:
    """Return (k,) new frames: keys of one old frame stay together on one new frame, poses on whole frames.

    Runs of keys that draw a curve frame by frame keep their proportions instead. Raises RetimeError when keys
    would come to lie on one frame.
    """
    frames = table.frames
    run = time_map.runs(frames, table.curve, np.zeros(len(frames)))
    for number in np.unique(table.curve[run]):
        own = slice(*table.starts[number : number + 2])
        kinds = np.empty(own.stop - own.start, np.int32)
        table.curves[number].keyframe_points.foreach_get("interpolation", kinds)
        run[own] &= kinds != CONSTANT
    new = time_map.at(frames)
    poses, back = np.unique(frames[~run], return_inverse=True)
    new[~run] = time_map.place(poses)[back]
    new = new.astype(np.float32).astype(np.float64)
    inner = table.curve[1:] == table.curve[:-1]
    was, now = np.diff(frames), np.diff(new)
    if (inner & (was < 0.0)).any():
        raise RetimeError(f"the keys of {name_of(table.curves[_first(table, inner & (was < 0.0))])} are out of order")
    close = inner & (now < SAME_KEY_FRAMES) & (was > now + 1e-6)
    if close.any():
        at = frames[1:][close][0]
        raise RetimeError(f"keys of {name_of(table.curves[_first(table, close)])} near frame {at:g} would become one")
    return new


def moved(table: KeyTable, new: Array, time_map: TimeMap) -> Array:
    """Return the table's values with its keys at new frames, (k,), and handles scaled with their side.

    Past the first and last key of a curve a handle is scaled as time is there.
    """
    frames, offsets = table.frames, table.values[1:, :, 0].astype(np.float64) - table.values[0, :, 0]
    inner = table.curve[1:] == table.curve[:-1]
    gaps = np.diff(frames)
    with np.errstate(divide="ignore", invalid="ignore"):
        between = np.where(inner & (gaps > 0.0), np.diff(new) / gaps, np.nan)
    before, after = np.append(np.nan, between), np.append(between, np.nan)
    edge = np.isnan(before)
    before[edge] = time_map.slopes(frames[edge], side="left")
    edge = np.isnan(after)
    after[edge] = time_map.slopes(frames[edge], side="right")
    values = table.values.copy()
    still = new == frames
    points = new + table.ahead
    values[0, :, 0] = np.where(still, values[0, :, 0], points)
    for part, scale in ((1, before), (2, after)):
        same = still & (scale == 1.0)
        values[part, :, 0] = np.where(same, values[part, :, 0], points + offsets[part - 1] * scale)
    return values


def write_changed(table: KeyTable, values: Array) -> int:
    """Write the values of those curves that differ from the table's; return how many did."""
    changed = (values != table.values).any(axis=(0, 2))
    numbers = np.flatnonzero(np.bincount(table.curve[changed])).tolist()
    points, left, right = values.reshape(KEY_PARTS, -1)
    ends = (2 * table.starts).tolist()
    for number in numbers:
        curve, a, b = table.curves[number], ends[number], ends[number + 1]
        put = curve.keyframe_points.foreach_set
        put("co", points[a:b])
        put("handle_left", left[a:b])
        put("handle_right", right[a:b])
        curve.update()
    return len(numbers)


def move_markers(markers: Iterable[TimelineMarker], time_map: TimeMap, *, ahead: float = 0.0) -> None:
    """Move markers, of a scene or of an action that runs ahead of the timeline, to whole frames."""
    for marker in markers:
        frame = round(float(time_map.at([marker.frame - ahead])[0]) + ahead)
        if frame != marker.frame:
            marker.frame = frame


def name_of(curve: FCurve) -> str:
    """Name a curve as the Graph Editor's data path does."""
    return f"{curve.data_path}[{curve.array_index}]"


def _first(table: KeyTable, where: Array) -> int:
    return int(table.curve[1:][where][0])
