"""Read what is followed and audit it, once: an audit that still holds is not made again."""

import time
from collections.abc import Generator
from dataclasses import replace

import bpy
import numpy as np
from bpy.types import Context, Scene

from ..analysis.audit import judge_in_steps, mend_in_steps
from ..analysis.settings import Settings
from ..analysis.steps import finished
from ..analysis.track import Track
from . import choosing, results, view
from .basis import Asked, asked_of, basis_of, target_in
from .choosing import ASKED, Why
from .live import freshness
from .live.changes import Count, count_of
from .reading import sample_cache
from .scene import settings_of
from .sidebar import rows
from .target import Target, target_of

Steps = Generator[None, None, results.Result]
"""A reading and its audit, worked out a step at a time."""


def audit_followed(context: Context) -> results.Result:
    """Return the audit of what is followed and keep it as the scene's latest; the one there is where it still holds.

    Raises LeapwrightError when nothing can be read.
    """
    context.view_layer.update()  # so that edits still to be evaluated are counted
    scene, asked = context.scene, target_of(context)
    latest = results.latest(scene)
    same = latest is not None and latest.basis.asked == asked_of(asked)
    if latest is not None and same and freshness.state_of(scene, latest) is freshness.State.FRESH:
        return latest
    settings = settings_of(scene)
    target, why = choosing.choose(scene, asked, settings)
    result = read_and_audit(scene, target, asked=asked_of(asked), settings=settings, why=why)
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
    return read_and_audit(scene, target, asked=asked_of(asked), settings=settings, why=why)


def keep(scene: Scene, result: results.Result, *, chosen: int = 0, count: Count | None = None) -> None:
    """Make a result the latest of its scene, with one of its jumps chosen, from 0.

    count: the scene's changes when it was read; those of now unless given.
    """
    results.keep(scene, result)
    freshness.trust(scene, result, count_of(scene) if count is None else count)
    for manager in bpy.data.window_managers:
        rows.fit_rows(manager, len(result.audit.jumps), chosen=chosen)
    view.redraw()


def read_and_audit(
    scene: Scene, target: Target, *, asked: Asked | None = None, settings: Settings, why: Why = ASKED
) -> results.Result:
    """Read a target now and audit it; why: for what reason it. Raises LeapwrightError when it cannot be read."""
    began = time.perf_counter()
    result = finished(read_in_steps(scene, target, asked=asked or asked_of(target), settings=settings, why=why))
    return replace(result, seconds=time.perf_counter() - began)


def read_in_steps(
    scene: Scene, target: Target, *, asked: Asked, settings: Settings, why: Why, path: Track | None = None
) -> Steps:
    """Read a target in the first step, and audit it in the next ones, in which Blender is not asked.

    path: its path, where that has just been read. Raises LeapwrightError in the first step when it cannot be read.
    """
    began, evaluations = time.perf_counter(), sample_cache.asked()
    path = target.path_in(scene) if path is None else path
    of_path = sample_cache.asked()
    track = target.with_feet(scene, path, settings)
    evaluated, has_feet = of_path != evaluations, sample_cache.asked() != of_path
    basis = basis_of(
        scene, target, asked=asked, settings=settings, evaluated=evaluated, has_feet=has_feet, why=why
    )
    for layer in scene.view_layers if basis.digest is not None else ():
        layer.update()  # what a private scene leaves behind is none of the user's edits
    seconds = time.perf_counter() - began
    yield
    track_said = track.noting(*choosing.words(why, target))
    judged = yield from judge_in_steps(track_said, settings)
    audit = yield from mend_in_steps(track_said, judged, settings)
    return results.Result(audit, track, basis, path, seconds=seconds)


def again_in_steps(scene: Scene, target: Target, latest: results.Result) -> Steps:
    """Read what a result is of once more, and audit it; steps and errors as in `read_in_steps`."""
    path = None if latest.basis.evaluated else freshness.read_path(scene, target, latest)
    settings, basis = settings_of(scene), latest.basis
    result = yield from read_in_steps(scene, target, asked=basis.asked, settings=settings, why=basis.why, path=path)
    return result


def preview_in_steps(path: Track, latest: results.Result) -> Steps:
    """Audit keys as they are being dragged, in place of a result: its feet left as they were, mends not planned.

    path: what was read of them; Blender is not asked.
    """
    track, feet = path, latest.track
    if feet.feet is not None and np.array_equal(path.frames, feet.frames):
        track = replace(path, feet=feet.feet, ground=feet.ground)
    yield
    audit = yield from judge_in_steps(track, latest.basis.settings)
    return results.Result(audit, track, latest.basis, path, seconds=latest.seconds, is_preview=True)
