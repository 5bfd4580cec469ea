"""Open a shot in this Blender, retime one of its jumps and save it elsewhere; the shot itself is only read."""

import atexit
import os
import shutil
import sys
import tempfile
from dataclasses import dataclass, replace
from pathlib import Path

# Before bpy is imported: it would otherwise start from, and write to, the person's own Blender.
if "bpy" not in sys.modules and "BLENDER_USER_RESOURCES" not in os.environ:
    _folder = os.environ["BLENDER_USER_RESOURCES"] = tempfile.mkdtemp(prefix="leapwright-")
    atexit.register(shutil.rmtree, _folder, ignore_errors=True)

import bpy
from bpy.types import Scene

from ...analysis.audit import audit_track
from ...analysis.errors import RetimeError, SourceError
from ...analysis.finding import Finding
from ...analysis.retiming.aim import Aim
from ...analysis.retiming.fit import fit_of
from ...analysis.retiming.forecast import Forecast, differences
from ...analysis.retiming.retime import jump_of
from ...analysis.settings import Settings
from ...analysis.sources import check_is_file
from ...analysis.track import Track
from ...analysis.world import World
from .. import scene as scene_world
from ..marks import marks
from ..shots.blend_header import GZIP, ZSTD, check_header
from ..shots.candidates import Candidate, candidate_named, find_candidates
from ..shots.quiet import silent
from ..target import Target
from .retiming import Extent, prepare
from .words import fit_sentence


@dataclass(frozen=True, slots=True)
class Done:
    """What was done to a shot: the forecast, how many curves moved, what the audit found, and where it differs."""

    track: str
    number: int
    forecast: Forecast | None = None
    curves: int = 0
    out: Path | None = None
    findings: tuple[Finding, ...] = ()
    differs: tuple[str, ...] = ()
    said: str = ""


def retime_file(
    shot: Path,
    out: Path | None,
    *,
    track: str | None,
    number: int,
    aim: Aim | None,
    world: World,
    gravity: float | None = None,
    shape_keys: bool = False,
    markers: bool = False,
) -> Done:
    """Retime a jump of a shot, counted from 0, and write the shot to out; without an aim only say what times fit.

    What was open is replaced. Raises SourceError when the shot cannot be read, RetimeError when its keys may
    not be moved.
    """
    if bpy.app.binary_path and not bpy.app.background:
        raise RetimeError("shots are not opened in a Blender with a window: run blender --command leapwright")
    check_is_file(shot)
    check_header(shot, newest=bpy.app.version)
    with silent(), marks.readable():
        scene = _opened(shot)
        candidate, drawn = _jumper(scene, track, number, settings := _settings(scene, world, gravity))
        target = _target(scene, candidate)
        if aim is None:
            jump = jump_of(audit_track(drawn, settings), number)
            said = fit_sentence(fit_of(jump), scene.unit_settings)
            return Done(candidate.name, number, said=said, findings=jump.findings)
        extent = Extent(shape_keys=shape_keys, markers=markers)
        plan = prepare(scene, target, drawn, number, aim=aim, settings=settings, extent=extent)
        curves = plan.write()
        audit = audit_track(candidate.sample(), settings)
        packed = _start(shot).startswith((ZSTD, GZIP))
        bpy.ops.wm.save_as_mainfile(filepath=str(out.absolute()), copy=True, check_existing=False, compress=packed)
    after = plan.forecast.after
    return Done(
        candidate.name, number, plan.forecast, curves, out, after.findings, differences(plan.forecast, audit)
    )


def _opened(shot: Path) -> Scene:
    try:
        # With its windows, which are saved again; without its scripts.
        bpy.ops.wm.open_mainfile(filepath=str(shot.absolute()), load_ui=True, use_scripts=False)
    except RuntimeError:
        raise SourceError(
            f"Blender {bpy.app.version_string} cannot open it: damaged, cut short or from a newer Blender"
        ) from None
    return bpy.context.scene


def _settings(scene: Scene, world: World, gravity: float | None) -> Settings:
    fall = gravity or scene_world.gravity(scene)
    return Settings(replace(world, gravity=fall) if fall else world)


def _jumper(scene: Scene, name: str | None, number: int, settings: Settings) -> tuple[Candidate, Track]:
    """The track that is named, or the only one that has as many jumps."""
    if name is not None:
        candidate = candidate_named(scene, name)
        return candidate, candidate.sample()
    found, refused = [], []
    for candidate in find_candidates(scene):
        try:
            track = candidate.sample()
        except SourceError as refusal:
            refused.append(str(refusal))
            continue
        if len(audit_track(track, settings).jumps) > number:
            found.append((candidate, track))
    if len(found) == 1:
        return found[0]
    if not found:
        raise RetimeError("; ".join(refused) or f"nothing in it makes a jump of number {number + 1}")
    raise RetimeError(f"several tracks jump: name one by --track, {', '.join(c.name for c, _ in found)}")


def _target(scene: Scene, candidate: Candidate) -> Target:
    if candidate.source == "object":
        return Target(scene.objects[candidate.name])
    for thing in scene.objects:
        bone = candidate.name.removeprefix(f"{thing.name}/")
        if thing.pose is not None and bone != candidate.name and bone in thing.pose.bones:
            return Target(thing, bone, candidate.source)
    raise RetimeError(f'"{candidate.name}" is no bone or object whose keys could be moved: name its root by --track')


def _start(path: Path) -> bytes:
    with path.open("rb") as file:
        return file.read(4)
