"""A retiming and its undo on a seeded shot: forecast, keys moved, audited again, undone; and what went wrong."""

import math
from dataclasses import dataclass

import bpy
import numpy as np
from leapwright.addon import results
from leapwright.addon.retiming import forecasts

from tests.addon.attack.numbers import no_numbers
from tests.addon.key_state import file_state
from tests.addon.random_shots import shot

KEEPS = ({"keep": "flight"}, {"keep": "push"}, {"keep": "nothing"}, {"keep": "nothing", "pace": 0.0})
"""The four ways of every shot; a pace of 0 stands for one drawn at random."""
AIR = {"air-floaty", "air-snappy"}
BETWEEN = "arc-between"
"""The finding that handles leave the arc between keys; a timing that moves keys apart may bring it."""
HALF = 0.6
"""Frames by which a push may be off what its flight asks for after rounding to whole frames (0.5), with 0.1 for the
scatter of a fit (ours)."""


@dataclass(frozen=True, slots=True)
class Trip:
    """The outcome: "no jump", "refused", "unmoved" or "moved"; faults: what should never happen."""

    said: str
    end: str
    faults: tuple[str, ...] = ()


def way_of(seed: int, way: int) -> dict[str, object]:
    """Return the settings of a retiming: one of the four ways to keep, the rest at random."""
    rng = np.random.default_rng([seed, way, 11])
    aim = dict(KEEPS[way])
    if "pace" in aim:
        aim["pace"] = float(np.round(rng.uniform(0.6, 1.7), 2))
    aim["hold"] = str(rng.choice(["takeoff", "crouch", "landing"], p=[0.6, 0.2, 0.2]))
    aim["ripple"], aim["whole"] = bool(rng.random() < 0.5), bool(rng.random() < 0.85)
    aim["lay"] = str(rng.choice(["rounded", "none", "all"], p=[0.7, 0.15, 0.15]))
    return aim


def round_trip(seed: int, way: int) -> Trip:
    """Retime the first jump of a seeded shot in one of the four ways, as a click does; the open file is replaced."""
    bpy.ops.wm.read_homefile(use_factory_startup=True, use_empty=True)
    drawn, aim = shot(seed), way_of(seed, way)
    said = f"{drawn.said}, {aim}"
    chosen = bpy.context.scene.leapwright
    chosen.follow, chosen.thing, chosen.bone, chosen.step = drawn.source, drawn.thing, drawn.bone, str(drawn.step)
    try:
        if bpy.ops.leapwright.audit_jump() != {"FINISHED"} or not (was := _latest()).jumps:
            return Trip(said, "no jump")
    except RuntimeError as refusal:
        return Trip(said, "no jump", _traceback(refusal))
    bpy.ops.ed.undo_push(message="Drawn")
    before = file_state()
    try:
        bpy.ops.leapwright.forecast_retime(**aim)
    except RuntimeError as refusal:
        changed = ("a refusal changed the file",) * (file_state() != before)
        return Trip(said, "refused", (*_traceback(refusal), *changed))
    faults = ["a forecast changed the file"] * (file_state() != before)
    promised = _shown().forecast
    if bpy.ops.leapwright.retime_jump("EXEC_DEFAULT", True, **aim) == {"CANCELLED"}:
        faults += ["what moves nothing changed the file"] * (file_state() != before)
        return Trip(said, "unmoved", tuple(faults))
    faults += [*_otherwise(promised), *_worse(was, aim)]
    faults += [odd for jump in _latest().jumps for odd in no_numbers(jump)]
    bpy.ops.ed.undo()
    faults += ["undo left a difference"] * (file_state() != before)
    return Trip(said, "moved", tuple(faults))


def _traceback(refusal: RuntimeError) -> tuple[str, ...]:
    """Tell apart what Blender raises for an operator that reports an error, and for one that fails."""
    return (str(refusal),) * ("Traceback" in str(refusal))


def _latest():
    return results.latest(bpy.context.scene).audit


def _shown():
    return forecasts.shown_beside(bpy.context.scene, results.latest(bpy.context.scene), 0)


def _otherwise(promised) -> list[str]:
    """Return in what the audit after the keys moved differs from the promised jump, to the last digit."""
    shown = _shown()
    if shown is None:
        return ["the jump is not where it was promised"]
    found = min(_latest().jumps, key=lambda jump: abs(jump.takeoff.frame - promised.after.takeoff.frame))
    same = repr(found) == repr(promised.after)
    return [*(f"not as forecast: {difference}" for difference in shown.differs), *["not as forecast"] * (not same)]


def _worse(was, aim) -> list[str]:
    """Return what is worse than before: findings at check or above that nobody asked for, or a push that is further
    off."""
    now = _latest()
    faults, styled = [], aim["keep"] == "push" or aim.get("pace", 1.0) != 1.0
    for a, b in zip(was.jumps, now.jumps, strict=True):
        ranks = {finding.code: finding.rank for finding in a.findings}
        allowed = {BETWEEN, *(AIR if a is was.jumps[0] and styled else ())}
        faults += [
            f"new: {finding.code}"
            for finding in b.findings
            if finding.rank and finding.rank > ranks.get(finding.code, -1) and finding.code not in allowed
        ]
    a, b = was.jumps[0].push, now.jumps[0].push
    if a and b and abs(math.log(b.agreement.value)) > abs(math.log(a.agreement.value)):
        off, before = (abs(push.frames.value - push.expected.value) for push in (b, a))
        faults += [f"push off by {off:.1f} frames"] * (off > max(HALF, before))
    return faults
