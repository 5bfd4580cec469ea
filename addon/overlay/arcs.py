"""The drawing of each scene's latest audit, made anew only when what it shows has changed."""

from dataclasses import dataclass

import bpy
from bpy.types import Scene

from ...analysis.finding import Finding
from ...analysis.retiming.warp import warp
from .. import results
from ..basis import target_in
from ..host import scene_key
from ..retiming import forecasts
from ..scene import unit_scale, upright
from ..sidebar import rows
from ..sources import SCENE_SOURCES
from .geometry import Drawing, drawing_of


@dataclass(frozen=True, slots=True, eq=False)
class _Made:
    of: tuple[object, ...]
    chosen: int
    drawing: Drawing


_made: dict[int, _Made] = {}


def drawing_in(scene: Scene) -> Drawing | None:
    """Return what is to be drawn in a scene, the same object while nothing of it changes; None without an audit,
    and where what was audited is gone.

    A clip's marker has no place in the scene, so nothing is drawn of it.
    """
    latest = results.latest(scene)
    if latest is None or not SCENE_SOURCES[latest.basis.source].in_space or target_in(scene, latest.basis) is None:
        return None
    listed = rows.of_window(bpy.data.window_managers[0])
    finding = latest.finding(listed.chosen, max(listed.finding, 0))
    told = forecasts.shown_beside(scene, latest, listed.chosen)
    of = latest, finding, told, results.held(scene)
    made = _made.get(scene_key(scene))
    if made is None or made.chosen != listed.chosen or any(a is not b for a, b in zip(made.of, of, strict=True)):
        drawing = _drawn(latest, listed.chosen, finding, told, results.held(scene))
        made = _Made(of, listed.chosen, drawing.placed(upright(scene), unit_scale(scene)))
        _made[scene_key(scene)] = made
    return made.drawing


def _drawn(
    latest: results.Result,
    chosen: int,
    finding: Finding | None,
    told: forecasts.Shown | None,
    held: results.Result | None,
) -> Drawing:
    ghost = warp(latest.track, told.forecast.time_map) if told is not None and not told.done else None
    before = held.track if held is not None and held is not latest else None
    return drawing_of(latest.track, latest.audit.jumps, chosen, finding=finding, ghost=ghost, before=before)


def forget() -> None:
    """Drop every drawing."""
    _made.clear()
