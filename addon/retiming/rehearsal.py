"""Rehearse a retiming on a copy: the track as Blender itself will play it, the scene's own data untouched.

Automatic handles are worked out anew where keys move, which only the host does as the host does.
"""

import bpy
import numpy as np
from bpy.types import Scene

from ...analysis.errors import SourceError, TrackError
from ...analysis.track import Track
from .. import host, keys
from ..sources import SOURCES
from ..target import Target


def rehearsed(scene: Scene, target: Target, table: keys.Table, values: np.ndarray) -> Track | None:
    """Read the track from a copy of its object and action, both gone again when this returns.

    The table's first curves are the object's own, in order. None where the copy cannot be read.
    """
    data = target.thing.animation_data
    actor, action = target.thing.copy(), data.action.copy()
    try:
        host.play_copy(actor.animation_data, action, like=data)
        own = table.of_copies([curve for curve in host.curves_of(actor.animation_data) if not curve.is_empty])
        keys.write(own, values[:, : len(own.curve)])
        return SOURCES[target.source].sample(scene, actor, target.bone)
    except (SourceError, TrackError):
        return None
    finally:
        bpy.data.objects.remove(actor)
        bpy.data.actions.remove(action)
