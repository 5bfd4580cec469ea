"""What a .blend file holds to audit: opens it in this Blender and reads its tracks."""

import re
import time
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from functools import partial
from pathlib import Path

import bpy
from bpy.types import Scene

from ...analysis.day import DayRequest, audit_track_file, guarded, judged
from ...analysis.errors import SourceError, TrackError
from ...analysis.files import BLEND_SUFFIX, IN_BLENDER
from ...analysis.settings import Settings
from ...analysis.shot import Extras, Pose, Reading, Shot
from ...analysis.track import Track
from .. import scene as scene_world
from ..feet.settings import FEET_OFF
from ..footage import settings as footage_settings
from ..footage.marker import MARKER, FootageScale, clip_and_marker, sample_marker
from ..marks import marks
from ..rigs import is_rig
from .blend_header import check_header
from .candidates import Candidate, candidate_named, find_candidates, jumper_of
from .following import followed
from .imports import IMPORTERS, import_motion
from .poses import rig_poses
from .quiet import silent
from .thumbnails import thumbnails_of


def audit_each(paths: Sequence[Path], way: DayRequest) -> Iterator[tuple[int, Shot]]:
    """Read and audit files one after the other here: each one's place in the list, and its shot.

    What was open is replaced. Raises SourceError in a Blender with a window: there somebody works.
    """
    if not bpy.app.background:
        raise SourceError("shots are not opened in a Blender with a window: run blender --command leapwright")
    for place, path in enumerate(paths):
        with silent():
            shot = guarded(path, partial(audit_file, path, way))
        yield place, shot


def audit_file(path: Path, way: DayRequest) -> Shot:
    """Read what is to be audited in a file, and audit it. Raises SourceError or TrackError, a sentence each."""
    if path.suffix.lower() not in IN_BLENDER:
        return audit_track_file(path, way)
    began = time.perf_counter()
    reading = read_shot(path, track=way.track, extras=way.extras, settings=lambda scene: _settings(scene, way))
    shot = judged(path, reading, way, began)
    extras = way.extras or Extras()
    shot = replace(shot, poses=_poses(shot)) if extras.poses else shot
    return _with_thumbnails(shot) if extras.thumbnails and path.suffix.lower() == BLEND_SUFFIX else shot


def _with_thumbnails(shot: Shot) -> Shot:
    """Render the jumps of a shot that is still open; where that cannot be, a note says why."""
    scene, rendered = bpy.context.scene, []
    try:
        for track, audit in zip(shot.tracks, shot.audits, strict=True):
            rendered.append(thumbnails_of(scene, track, audit) if track.source != "footage" else ())
    except (SourceError, RuntimeError) as refusal:
        return replace(shot, notes=(*shot.notes, f"no thumbnails: {refusal}"))
    return replace(shot, thumbnails=tuple(rendered))


def _poses(shot: Shot) -> tuple[tuple[tuple[Pose, ...], ...], ...]:
    """Return the poses of every jump of an audited shot that is still open; none where no armature makes it."""
    scene, found = bpy.context.scene, []
    for track, audit in zip(shot.tracks, shot.audits, strict=True):
        rig = scene.objects.get(audit.name.partition("/")[0])
        try:
            found.append(rig_poses(scene, rig, track, audit) if rig is not None and is_rig(rig) else ())
        except SourceError:  # the figures stand without a picture
            found.append(())
    return tuple(found)


def _settings(scene: Scene, way: DayRequest) -> Settings:
    """Tell what the jumps of a scene will be judged against."""
    given = None if isinstance(way.gravity, str) else way.gravity
    world = way.settings.world
    fall = given or scene_world.scene_gravity(scene) or world.gravity
    return replace(way.settings, world=replace(world, gravity=fall))


def read_shot(
    path: Path,
    *,
    track: str | None = None,
    extras: Extras | None = None,
    settings: Callable[[Scene], Settings] = scene_world.settings_of,
) -> Reading:
    """Open a .blend file, without its scripts and its window layout, or a motion file, and read its tracks.

    track: the name of the one to read; without it what `find_candidates` takes, each with its reason. extras:
    when to read feet too, and a length known in footage. settings: what its jumps are judged against, to tell whether
    they are unsure. Raises SourceError or TrackError, a sentence each.
    """
    notes = _opened(path)
    scene = bpy.context.scene
    extras = extras or Extras()
    candidates = _candidates(scene, track, extras)
    if track is None and extras.follow:
        candidates, lacking = followed(scene, candidates, extras.follow)
        notes += lacking
    if not candidates:
        none = "it holds no animation: no keyed bone, and no keyed object without a parent"
        raise SourceError("; ".join((none, *_file_notes(scene))))  # a missing library may be why
    tracks, reasons = [], []
    for candidate in candidates:
        try:
            with marks.readable():
                chosen = jumper_of(scene, candidate, settings(scene)) if track is None else candidate
                tracks.append(_sampled(chosen, extras.feet, settings(scene), notes))
            reasons.append(chosen.reason)
        except (SourceError, TrackError) as refusal:
            notes.append(f"{candidate.name} could not be read: {refusal}")
    if not tracks:
        raise SourceError(_none_read(candidates, notes))
    gravity = scene_world.scene_gravity(scene)
    if gravity == 0.0:
        notes.append("the scene's gravity is nothing: Earth's taken")
    return Reading(tuple(tracks), tuple(reasons), gravity or None, tuple(notes), tuple(_needs()))


def _needs() -> Iterator[str]:
    """Yield files that what was read depends on besides its own: libraries, caches, footage."""
    for library in bpy.data.libraries:
        yield bpy.path.abspath(library.filepath, library=library.parent)
    for data in (*bpy.data.cache_files, *bpy.data.movieclips):
        yield bpy.path.abspath(data.filepath, library=data.library)


def _candidates(scene: Scene, track: str | None, extras: Extras) -> tuple[Candidate, ...]:
    if track is None:
        return find_candidates(scene)
    if not track.startswith(MARKER):
        return (candidate_named(scene, track),)
    clip, marker = clip_and_marker(bpy.data.movieclips, track.removeprefix(MARKER))
    with footage_settings.readable():
        scale = footage_settings.scale_of(scene) if extras.length is None else _scale(extras)
        own_rate = footage_settings.own_rate(scene)

    def sample(**_not_for_markers: object) -> Track:
        return sample_marker(scene, clip, marker, scale, own_rate=own_rate)

    return (Candidate(f"{clip.name}/{marker}", "footage", "named", sample),)


def _scale(extras: Extras) -> FootageScale:
    return FootageScale(extras.length or 0.0, between=extras.between, pixels=extras.pixels)


def _sampled(candidate: Candidate, feet: str | None, settings: Settings, notes: list[str]) -> Track:
    """Read a candidate, with its feet where those are asked for and it is carried by an armature."""
    try:
        return candidate.sample(feet=feet, settings=settings)
    except SourceError as refusal:
        track = candidate.sample(feet=FEET_OFF)  # raises again what is not about the feet
        notes.append(f"{candidate.name} was read without feet: {refusal}")
        return track


def _opened(path: Path) -> list[str]:
    """Open a file in place of what was open; return notes on the file as a whole."""
    if path.suffix.lower() in IMPORTERS:
        return import_motion(path)
    check_header(path, newest=bpy.app.version)
    try:
        bpy.ops.wm.open_mainfile(filepath=str(path.absolute()), load_ui=False, use_scripts=False)
    except RuntimeError as error:
        raise SourceError(
            f"Blender {bpy.app.version_string} cannot open it: damaged, cut short or from a newer Blender "
            f"({_said(error)})"
        ) from None
    return list(_file_notes(bpy.context.scene))


def _none_read(candidates: Sequence[Candidate], notes: Sequence[str]) -> str:
    return notes[-1] if len(candidates) == 1 else "none of its tracks could be read: " + "; ".join(notes)


def _file_notes(scene: Scene) -> Iterator[str]:
    """Say what may make positions wrong: scripts held back, libraries missing, a newer writer."""
    if bpy.app.autoexec_fail:
        yield f"scripts were not run ({bpy.app.autoexec_fail_message}): positions may be wrong"
    missing = [library.filepath for library in bpy.data.libraries if library.is_missing]
    if missing:
        yield f"missing libraries: {', '.join(missing)}; positions may be wrong"
    writer, reader = tuple(bpy.data.version)[:2], bpy.app.version[:2]
    if writer > reader:
        yield (
            f"saved by Blender {_spoken(writer)}, opened by the older {_spoken(reader)}: what is new in it is lost"
        )
    if len(bpy.data.scenes) > 1:
        yield f'it holds {len(bpy.data.scenes)} scenes: "{scene.name}" was audited'


def _spoken(version: Sequence[int]) -> str:
    return ".".join(map(str, version))


def _said(error: RuntimeError) -> str:
    """Tell what Blender said, in one line without its "Error:" and the path."""
    text = " ".join(str(error).split()).removeprefix("Error: ").rstrip(".")
    return re.split(r"""['"](?: failed)?[:,]? """, text)[-1]
