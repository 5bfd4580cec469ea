"""Read what is followed and audit it, once: an audit that still holds is not made again."""

import time
from dataclasses import replace

import bpy
import numpy as np
from bpy.types import Context, Scene

from ..analysis.audit import audit_track
from ..analysis.settings import Settings
from . import choosing, results, view
from .basis import Asked, asked_of, basis_of, target_in
from .choosing import ASKED, Why
from .live import freshness
from .reading import sample_cache
from .scene import settings_of
from .sidebar import rows
from .target import Target, target_of


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
    target, why = choosing.choose(scene, asked, settings)
    result = read(scene, target, asked=asked_of(asked), settings=settings, why=why)
    if not result.audit.jumps and (others := choosing.rising(scene, target, settings)):
        result = result.noting(f"these move up and down: {', '.join(others)}")
    context.view_layer.update()  # a private scene leaves an update behind, which is none of the user's edits
    keep(scene, result)
    return result


def read_followed(context: Context) -> results.Result:
    """Read what is followed now and audit it; of what the latest audit is, where the same is asked for.

    Raises LeapwrightError when it cannot be read.
    """
    scene, asked, latest = context.scene, target_of(context), results.latest(context.scene)
    settings = settings_of(scene)
    target, why = None, ASKED
    if latest is not None and latest.basis.asked == asked_of(asked):
        target, why = target_in(scene, latest.basis), latest.basis.why
    if target is None:
        target, why = choosing.choose(scene, asked, settings)
    return read(scene, target, asked=asked_of(asked), settings=settings, why=why)


def keep(scene: Scene, result: results.Result, *, chosen: int = 0) -> None:
    """Make a result that was read just now the latest of its scene, with one of its jumps chosen, from 0."""
    results.keep(scene, result)
    freshness.trust(scene, result)
    for manager in bpy.data.window_managers:
        rows.fit(manager, len(result.audit.jumps), chosen=chosen)
    view.redraw()


def read(
    scene: Scene, target: Target, *, asked: Asked | None = None, settings: Settings, why: Why = ASKED
) -> results.Result:
    """Read a target now and audit it; why: for what reason it. Raises LeapwrightError when it cannot be read."""
    began, evaluations = time.perf_counter(), sample_cache.asked()
    path = target.path_in(scene)
    of_path = sample_cache.asked()
    track = target.with_feet(scene, path, settings)
    basis = basis_of(
        scene,
        target,
        asked=asked or asked_of(target),
        settings=settings,
        evaluated=of_path != evaluations,
        has_feet=sample_cache.asked() != of_path,
        why=why,
    )
    audit = audit_track(track.noting(*choosing.words(why, target)), settings)
    return results.Result(audit, track, basis, path, seconds=time.perf_counter() - began)


def preview(scene: Scene, target: Target, latest: results.Result) -> results.Result | None:
    """Read the keys of a target that are being dragged and audit them, its feet left as they were.

    None where the latest result is of the same keys. Raises LeapwrightError when they cannot be read.
    """
    path, feet = target.path_in(scene), latest.track
    if latest.is_preview and freshness.is_same(path, latest.path):
        return None
    track = path
    if feet.feet is not None and np.array_equal(path.frames, feet.frames):
        track = replace(path, feet=feet.feet, ground=feet.ground)
    audit = audit_track(track, latest.basis.settings)
    return results.Result(audit, track, latest.basis, path, seconds=latest.seconds, is_preview=True)
