"""Rehearse a retiming on a copy: the track as Blender itself will play it, the scene's own data untouched.

Automatic handles are worked out anew where keys move, which only the host does as the host does; feet and a
center of mass follow from more curves than the track's own.
"""

from collections.abc import Sequence
from dataclasses import replace

import bpy
from bpy.types import ID, Object, Scene

from ...analysis.arrays import Array
from ...analysis.errors import SourceError, TrackError
from ...analysis.track import Marks, Track
from .. import host, keys
from ..feet.asking import with_asked_feet
from ..reading.dependencies import dependencies_of, driver_targets
from ..target import Target
from .character import MovedCurves


def rehearsed(
    scene: Scene,
    target: Target,
    parts: Sequence[MovedCurves],
    *,
    table: keys.KeyTable,
    values: Array,
    name: str,
    marks: tuple[Marks, ...] = (),
) -> Track | None:
    """Read the track, and its feet where they are asked for, from a copy of what is followed; all gone afterward.

    name, marks: those of the track that it stands for. The table's first curves are those of the parts, in order.
    None where the copy cannot be read, or moves with something that still follows the original.
    """
    copies: list[ID] = []
    try:
        thing = target.object
        actor = _actor(thing, parts, copies)
        if {thing, thing.data} & {*dependencies_of(scene, actor)} - {actor.data}:
            return None
        moved = [owner.animation_data for owner in (actor, actor.data) if owner in copies and owner.animation_data]
        curves = [curve for data in moved for curve in host.curves_of(data) if not curve.is_empty]
        own = table.of_copies(curves)
        keys.write_changed(own, values[:, : len(own.curve)])
        played = target.kind.sample(scene, actor, target.bone)
        return with_asked_feet(scene, actor, replace(played, name=name, marks=marks))
    except (SourceError, TrackError):
        return None
    finally:
        bpy.data.batch_remove(copies)


def _actor(thing: Object, parts: Sequence[MovedCurves], copies: list[ID]) -> Object:
    """Return a copy of the object, and of its data where that has keys too, each with an action of its own."""
    actor = thing.copy()
    copies.append(actor)
    playing = {part.owner: part for part in parts}
    if thing.data in playing:
        actor.data = thing.data.copy()
        copies.append(actor.data)
        # A copy asks itself where the original asks itself; one of the two knows nothing of the other's copy.
        stands_for = {thing: actor, thing.data: actor.data}
        for owner in (actor, actor.data):
            for asked in driver_targets(owner):
                if asked.id in stands_for:
                    asked.id = stands_for[asked.id]
    for original, copy in ((thing, actor), (thing.data, actor.data)):
        if original in playing:
            action = playing[original].action.copy()
            copies.append(action)
            own, others = (getattr(one, "animation_data", None) for one in (copy, original))
            if own is not None and others is not None:
                host.play_copy(own, action, like=others)
    return actor
