"""Read what is followed and audit it, once: an audit that still holds is not made again."""

import time

import bpy
from bpy.types import Context, Scene

from ..analysis.audit import audit_track
from ..analysis.settings import Settings
from ..analysis.track import Track
from . import results, view
from .basis import Asked, asked_of, basis_of
from .live import freshness
from .reading import sample_cache
from .scene import settings_of
from .sidebar import rows
from .target import Target, stand_in, target_of


def audit_followed(context: Context) -> results.Result:
    """Return the audit of what is followed and keep it as the scene's latest; the one there is where it still holds.

    Raises LeapwrightError when nothing can be read.
    """
    context.view_layer.update()  # so that edits still to be evaluated are counted
    scene, asked = context.scene, target_of(context)
    latest = results.latest(scene)
    same = latest is not None and latest.basis.asked == asked_of(asked)
    if same and freshness.state_of(scene, latest) is freshness.State.FRESH:
        return latest
    settings = settings_of(scene)
    result = read(scene, stand_in(asked), asked=asked_of(asked), settings=settings)
    context.view_layer.update()  # a private scene leaves an update behind, which is none of the user's edits
    keep(scene, result)
    return result


def keep(scene: Scene, result: results.Result, *, chosen: int = 0) -> None:
    """Make a result that was read just now the latest of its scene, with one of its jumps chosen, from 0."""
    results.keep(scene, result)
    freshness.trust(scene, result)
    for manager in bpy.data.window_managers:
        rows.fit(manager, len(result.audit.jumps), chosen=chosen)
    view.redraw()


def read(
    scene: Scene,
    target: Target,
    *,
    asked: Asked | None = None,
    settings: Settings,
    track: Track | None = None,
) -> results.Result:
    """Read a target now and audit it; track: what it reads as, where only its keys were needed for that.

    Raises LeapwrightError when it cannot be read.
    """
    began, evaluations = time.perf_counter(), sample_cache.asked()
    if track is None:
        track = target.sample_in(scene)
    evaluated = sample_cache.asked() != evaluations
    basis = basis_of(scene, target, asked=asked or asked_of(target), settings=settings, evaluated=evaluated)
    audit = audit_track(track, settings)
    return results.Result(audit, track, basis, seconds=time.perf_counter() - began)
