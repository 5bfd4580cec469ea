"""The latest forecast of each scene, beside the file like the audits in `results`."""

from dataclasses import dataclass

from bpy.types import Scene

from ...analysis.retiming.forecast import Forecast
from ..host import scene_key
from ..results import Result


@dataclass(frozen=True, slots=True)
class Shown:
    """A forecast, the audit it stands beside, the jump it is of, and what was chosen for it.

    done      whether the keys have been moved
    differs   what the audit after it found otherwise; empty where it agrees
    """

    forecast: Forecast
    result: Result
    jump: int
    chosen: tuple[object, ...]
    done: bool = False
    differs: tuple[str, ...] = ()


_latest: dict[int, Shown] = {}


def keep(scene: Scene, shown: Shown) -> None:
    """Make a forecast the latest of its scene."""
    _latest[scene_key(scene)] = shown


def has_forecast(scene: Scene) -> bool:
    """Say whether there is a forecast of the scene."""
    return scene_key(scene) in _latest


def drop(scene: Scene) -> None:
    """Put the forecast of a scene away."""
    _latest.pop(scene_key(scene), None)


def shown_beside(scene: Scene, result: Result, jump: int) -> Shown | None:
    """Return the latest forecast while it belongs to this audit and this jump, from 0."""
    shown = _latest.get(scene_key(scene))
    return shown if shown is not None and shown.result is result and shown.jump == jump else None
