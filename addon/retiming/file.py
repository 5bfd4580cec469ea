"""Open a shot in this Blender, retime one of its jumps and save it elsewhere; the shot itself is only read."""

from dataclasses import replace
from pathlib import Path

import bpy
from bpy.types import Scene

from ...analysis.audit import Audit, audit_track
from ...analysis.errors import RetimeError, SourceError
from ...analysis.jump import Jump
from ...analysis.retiming.aim import Aim
from ...analysis.retiming.fit import fit_of
from ...analysis.retiming.forecast import differences
from ...analysis.retiming.retime import jump_of
from ...analysis.settings import Settings
from ...analysis.sources import check_is_file
from ...analysis.world import World
from .. import scene as scene_world
from ..marks import marks
from ..shots.blend_header import GZIP, ZSTD, check_header
from ..shots.candidates import Candidate, candidate_named
from ..shots.quiet import silent
from ..sources import SCENE_SOURCES
from ..target import Target
from .jumper import jumper
from .retiming import Extent, prepare
from .told import Told
from .words import fit_sentence, lines_of


def retime_file(
    shot: Path,
    part: Path | None,
    *,
    track: str | None,
    number: int,
    aim: Aim | None,
    world: World,
    gravity: float | None = None,
    shape_keys: bool = False,
    markers: bool = False,
) -> Told:
    """Retime a jump of a shot, counted from 0, and write the shot to part; without an aim only say what times fit.

    What was written is opened again, and audited as it lies there. What was open is replaced. Raises SourceError
    when the shot cannot be read, RetimeError when its keys may not be moved or part cannot be written.
    """
    if bpy.app.binary_path and not bpy.app.background:
        raise RetimeError("shots are not opened in a Blender with a window: run blender --command leapwright")
    check_is_file(shot)
    check_header(shot, newest=bpy.app.version)
    with silent(), marks.readable():
        scene = _opened(shot)
        candidate, drawn = jumper(scene, track, number, settings := _settings(scene, world, gravity))
        target = _target(candidate)
        if aim is None:
            jump = jump_of(audit_track(drawn, settings), number)
            said = fit_sentence(fit_of(jump), scene.unit_settings)
            return Told((f"{candidate.name}, jump {number + 1}: {said}",), worst=_worst(jump))
        extent = Extent(shape_keys=shape_keys, markers=markers)
        plan = prepare(scene, target, drawn, number, aim=aim, settings=settings, extent=extent)
        curves = plan.write()
        lines = tuple(lines_of(candidate.name, number, plan.forecast))
        differs: tuple[str, ...] = ()
        if curves and part is not None:
            _save(part, compress=_start(shot).startswith((ZSTD, GZIP)))
            differs = differences(plan.forecast, _audit_saved(part, candidate.name, settings))
    return Told(lines, curves, _worst(plan.forecast.after), differs)


def _worst(jump: Jump) -> int:
    return max((finding.rank for finding in jump.findings), default=-1)


def _save(part: Path, *, compress: bool) -> None:
    try:
        bpy.ops.wm.save_as_mainfile(filepath=str(part.absolute()), copy=True, check_existing=False, compress=compress)
    except RuntimeError as error:
        said = " ".join(str(error).replace(part.name, "it").split()).removeprefix("Error: ")
        raise RetimeError(f"the new file cannot be written: {said}") from None


def _audit_saved(part: Path, track: str, settings: Settings) -> Audit:
    """Open what was written and audit it there. Raises RetimeError where it is not whole."""
    try:
        bpy.ops.wm.open_mainfile(filepath=str(part.absolute()), load_ui=False, use_scripts=False)
        return audit_track(candidate_named(bpy.context.scene, track).sample(), settings)
    except (RuntimeError, SourceError):
        raise RetimeError("the new file cannot be written whole: is the disk full?") from None


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
    fall = gravity or scene_world.scene_gravity(scene)
    return Settings(replace(world, gravity=fall) if fall else world)


def _target(candidate: Candidate) -> Target:
    if candidate.thing is None or not SCENE_SOURCES[candidate.source].is_keyed:
        raise RetimeError(
            f'"{candidate.name}" is no bone or object whose keys could be moved: name its root by --track'
        )
    return Target(bpy.data.objects[candidate.thing], candidate.bone, candidate.source)


def _start(path: Path) -> bytes:
    with path.open("rb") as file:
        return file.read(4)
