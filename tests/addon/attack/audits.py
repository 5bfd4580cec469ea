"""Audit everything in a random scene as the panel and the command do, and list what must never come of it."""

import tempfile
import traceback
from dataclasses import dataclass

import bpy
from leapwright.addon import results
from leapwright.addon.shots.candidates import find_candidates
from leapwright.analysis import LeapwrightError, Settings, World
from leapwright.analysis.dailies.document import as_document, as_json
from leapwright.analysis.report.data import shot_data
from leapwright.analysis.shot import Reading, audit_reading

from tests.addon.attack.numbers import no_numbers
from tests.addon.attack.random_scenes import build, link_some
from tests.addon.attack.whole_file import changes, whole_file


@dataclass(frozen=True, slots=True)
class Attacked:
    """The outcome of one scene: how many tracks were read and jumps found, the refusals, and the faults."""

    seed: int
    tracks: int
    jumps: int
    refusals: tuple[str, ...]
    faults: tuple[str, ...]


def attack(seed: int) -> Attacked:
    """Build the scene of a seed in an empty file (every fourth one with linked objects) and audit all of it."""
    bpy.ops.wm.read_homefile(use_factory_startup=True, use_empty=True)
    build(seed)
    if seed % 4 == 3:
        with tempfile.TemporaryDirectory() as folder:
            link_some(f"{folder}/library.blend")
    scene, faults, refusals = bpy.context.scene, [], []
    bpy.context.view_layer.update()
    before = whole_file()
    results.forget()
    try:
        bpy.ops.leapwright.audit_jump()
    except RuntimeError as refusal:  # a refusal, or a traceback in one
        (faults if "Traceback" in str(refusal) else refusals).append(str(refusal).strip())
    tracks = []
    for candidate in find_candidates(scene):
        try:
            tracks.append(candidate.sample())
        except LeapwrightError as refusal:
            refusals.append(str(refusal))
        except Exception:
            faults.append(traceback.format_exc())
    shot = None
    try:
        shot = audit_reading("attack.blend", Reading(tuple(tracks)), Settings(World()))
        as_json(as_document([shot_data(shot)], "0"))
    except Exception:
        faults.append(traceback.format_exc())
    bpy.context.view_layer.update()
    faults += [f"changed: {name}" for name in changes(before, whole_file())]
    jumps = [jump for audit in shot.audits for jump in audit.jumps] if shot else []
    faults += [odd for jump in jumps for odd in no_numbers(jump)]
    return Attacked(seed, len(tracks), len(jumps), tuple(refusals), tuple(faults))
