"""A retiming from end to end: what it will do, worked out without a change; then the change itself."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import islice

import numpy as np
from bpy.types import Scene

from ...analysis.arrays import Array
from ...analysis.audit import audit_track
from ...analysis.errors import RetimeError
from ...analysis.retiming.aim import Aim
from ...analysis.retiming.forecast import Forecast, compare
from ...analysis.retiming.retime import forecasts, no_better
from ...analysis.retiming.warp import air_of, moved_marks
from ...analysis.retiming.worth import worth
from ...analysis.settings import Settings
from ...analysis.time_map import TimeMap
from ...analysis.track import Marks, Track
from .. import keys
from ..marks import marks
from ..target import Target
from .character import MovedCurves, parts_of
from .laying import lay
from .rehearsal import rehearsed

MOST_REHEARSED = 8
"""Most timings that are rehearsed until one leaves nothing to find."""


@dataclass(frozen=True, slots=True)
class Extent:
    """What moves along with the curves of the object and its data."""

    shape_keys: bool = False
    markers: bool = False


@dataclass(frozen=True, slots=True, eq=False)
class Retiming:
    """What is to be written, and the forecast of it. Holds Blender's data: use it at once, or drop it."""

    forecast: Forecast
    table: keys.KeyTable
    values: Array
    scene: Scene
    track: Track
    marked: tuple[MovedCurves, ...] = ()

    def write(self) -> int:
        """Move the keys, the marks by hand and, where asked, the markers; return how many curves changed."""
        time_map = self.forecast.time_map
        if np.array_equal(self.values, self.table.values):
            return 0
        for part in self.marked:
            keys.move_markers(part.action.pose_markers, time_map, ahead=part.ahead)
        if self.marked:
            keys.move_markers(self.scene.timeline_markers, time_map)
        if self.track.marks and not time_map.is_identity:
            marks.put(self.scene, self.track.name, moved_marks(self.track.marks, time_map))
        return keys.write_changed(self.table, self.values)


def prepare(
    scene: Scene,
    target: Target,
    track: Track,
    number: int,
    *,
    aim: Aim,
    settings: Settings,
    extent: Extent | None = None,
) -> Retiming:
    """Work out the retiming of a jump, by its place in the track's audit from 0; nothing in the scene is changed.

    track is what the target reads as. Raises RetimeError when keys may not be moved, no timing fits,
    or every one would leave the jump worse.
    """
    extent = extent or Extent()
    parts = parts_of(scene, target.object, shape_keys=extent.shape_keys)
    curves = [curve for part in parts for curve in part.curves]
    table = keys.table_of(curves, ahead=[part.ahead for part in parts for _ in part.curves])
    own = parts[0].owner == target.thing
    if aim.lay == "rounded" and not (own and track.placed_by_keys):
        aim = replace(aim, lay="none")  # no keys of its own to lay, and none to forecast
    best: tuple[int, Forecast, Array] | None = None
    refused: RetimeError | None = None
    for forecast in islice(forecasts(track, number, aim=aim, settings=settings), MOST_REHEARSED):
        try:
            values = keys.moved(table, keys.new_frames(table, forecast.time_map), forecast.time_map)
            air = air_of(forecast.before, forecast.time_map, lay=aim.lay) if own else None
            if air is not None:
                values = lay(scene, target, track, forecast, air, table=table, values=values)
            after = _played(scene, target, track, parts, table=table, values=values, time_map=forecast.time_map)
            if after is not None:
                forecast = _as_played(forecast, track, after, number, settings)
        except RetimeError as refusal:
            refused = refused or refusal
            continue
        found = worth(forecast, aim)
        if found.harms:
            refused = refused or no_better(found, aim)
            continue
        if best is None or found.left < best[0]:
            best = found.left, forecast, values
        if not found.left:
            break
    if best is None:
        raise refused or RetimeError("no timing in whole frames lies near what this asks for")
    return Retiming(best[1], table, best[2], scene, track, parts if extent.markers else ())


def _as_played(forecast: Forecast, track: Track, after: Track, number: int, settings: Settings) -> Forecast:
    """Return the forecast with the jump as Blender plays it."""
    before, played = audit_track(track, settings), audit_track(after, settings)
    return compare(
        before, played, number, time_map=forecast.time_map, names=forecast.names, pace=forecast.pace,
        respaced=forecast.respaced, rehearsed=True,
    )  # fmt: skip


def _played(
    scene: Scene,
    target: Target,
    track: Track,
    parts: Sequence[MovedCurves],
    *,
    table: keys.KeyTable,
    values: Array,
    time_map: TimeMap,
) -> Track | None:
    """Return the track as Blender will play the keys; None where only an estimate can be had."""
    if np.array_equal(values, table.values):
        return track
    own = [part for part in parts if part.owner in (target.object, target.object.data)]
    kept = _kept(track, time_map)
    return rehearsed(scene, target, own, table=table, values=values, name=track.name, marks=kept)


def _kept(track: Track, time_map: TimeMap) -> tuple[Marks, ...]:
    """Return marks by hand where they will be, as a file keeps them."""
    return tuple(marks.rounded(mark) for mark in moved_marks(track.marks, time_map))
