"""Lay a track's keys in the air onto its arc: what moving in time took off it, or all that is off the parabola."""

import numpy as np
from bpy.types import Object, Scene

from ...analysis.arrays import Array
from ...analysis.errors import RetimeError
from ...analysis.retiming.forecast import Forecast
from ...analysis.retiming.warp import Air, laid
from ...analysis.track import Track
from ..keys import KeyTable
from ..reading import placement
from ..reading.channels import Motion
from ..rigs import is_rig
from ..scene import unit_scale, upright
from ..target import Target

LEAST_LAID_BACK = 1e-3
"""Least distance, in frames, that whole frames move a key out of proportion for the key to be laid back."""


def lay(
    scene: Scene, target: Target, track: Track, forecast: Forecast, air: Air, *, table: KeyTable, values: Array
) -> Array:
    """Return the table's values with those of the track's location keys in the air changed, handles along.

    Only where its location curves alone place the target: otherwise nothing is laid, and RetimeError raised if
    all keys were to be.
    """
    if not track.placed_by_keys:
        if air.rise is None:
            return values
        raise RetimeError(f'"{track.name}" is not placed by its location keys alone: its keys cannot be laid')
    thing = target.object
    path, place = _placed(thing, target.bone)
    # World meters, z up, to the channels' own units.
    inward = np.linalg.inv(upright(scene) @ place[:3, :3] * unit_scale(scene))
    values = values.copy()
    new = values[0, :, 0] - table.ahead
    for number, curve in enumerate(table.curves):
        if thing.animation_data is None or curve.id_data != thing.animation_data.action or curve.data_path != path:
            continue
        own = np.arange(*table.starts[number : number + 2])
        own = own[air.inside(new[own])]
        if air.rise is None:
            own = own[np.abs(forecast.time_map.at(table.frames[own]) - new[own]) > LEAST_LAID_BACK]
        if not len(own):
            continue
        drawn = np.stack([np.interp(table.frames[own], track.frames, axis) for axis in track.positions.T], axis=1)
        off = (laid(track, forecast.time_map, air, new[own]) - drawn) @ inward.T
        values[:, own, 1] += off[:, curve.array_index].astype(np.float32)
    return values


def _placed(thing: Object, bone: str) -> tuple[str, Array]:
    """Return the data path of the location, and the matrix that places it."""
    if not bone or not is_rig(thing):
        return "location", placement.of_object(thing)[0]
    posed = thing.pose.bones[bone]
    return posed.path_from_id("location"), placement.of_bone(thing, posed, Motion(thing))[0]
