"""Scenes at random, of everything that may be keyed, placed, driven or broken in one; and an audit of all in them."""

import json

import bpy
import numpy as np
from leapwright.addon import host
from leapwright.addon.shots.candidates import find_candidates
from leapwright.analysis import Settings, World
from leapwright.analysis.errors import LeapwrightError
from leapwright.analysis.report.data import as_document, as_json, shot_data
from leapwright.analysis.shot import Reading, audit_reading

from tests.addon.constrained import limb
from tests.addon.key_state import file_state, fill
from tests.addon.scene_state import state
from tests.addon.scenery import empty, hopping
from tests.addon.skeletons import person

MODIFIERS = ("NOISE", "CYCLES", "GENERATOR", "LIMITS", "STEPPED")


def scene_of(seed: int) -> bpy.types.Scene:
    """Build the scene of a seed into the running Blender's empty file."""
    rng = np.random.default_rng([seed, 21])
    scene = bpy.context.scene
    scene.render.fps, scene.render.fps_base = int(rng.choice([1, 12, 24, 25, 30, 120])), float(rng.choice([1, 1.001]))
    scene.unit_settings.scale_length = float(rng.choice([1.0, 1.0, 0.01, 100.0]))
    scene.gravity = [(0, 0, -9.81), (0, 0, 0), (0, -9.81, 0), (0, 0, 3.0)][int(rng.choice(4, p=[0.7, 0.1, 0.1, 0.1]))]
    if rng.random() < 0.2:
        scene.render.frame_map_old, scene.render.frame_map_new = 100, int(rng.choice([50, 200]))
    made = [_thing(rng, f"Thing{number}") for number in range(int(rng.integers(1, 5)))]
    for thing in made[1:]:
        if rng.random() < 0.3:
            thing.parent = made[0]
    for thing in made:
        _complicate(thing, rng)
    scene.frame_set(int(rng.integers(-20, 90)), subframe=float(rng.choice([0.0, 0.25])))
    bpy.context.view_layer.objects.active = made[int(rng.integers(len(made)))]
    active = bpy.context.active_object
    if rng.random() < 0.2 and active.type == "ARMATURE" and not active.hide_viewport:
        bpy.ops.object.mode_set(mode=str(rng.choice(["POSE", "EDIT"])))
    bpy.context.view_layer.update()
    return scene


def _thing(rng: np.random.Generator, name: str) -> bpy.types.Object:
    kind = int(rng.integers(5))
    if kind == 0:
        return limb(bpy.context.scene, name)
    if kind == 1:
        thing = person()
        hopping(thing.pose.bones[str(rng.choice(thing.pose.bones.keys()))])
    elif kind == 2:
        return hopping(empty(name))
    else:
        thing = empty(name)
        for axis in range(3):
            thing.keyframe_insert("location", index=axis, frame=1)
        for curve in host.curves_of(thing.animation_data):
            frames = np.unique(np.round(rng.uniform(-40, 120, int(rng.integers(1, 40))), int(rng.integers(0, 3))))
            fill(curve, frames, rng)
    thing.name = name
    return thing


def _complicate(thing: bpy.types.Object, rng: np.random.Generator) -> None:
    """Add some of what makes curves tell less than all, or nothing."""
    curves = list(host.curves_of(thing.animation_data)) if thing.animation_data else []
    for curve in curves:
        if rng.random() < 0.1:
            curve.modifiers.new(str(rng.choice(MODIFIERS)))
        curve.mute, curve.hide = bool(rng.random() < 0.05), bool(rng.random() < 0.05)
        if rng.random() < 0.03:
            fill(curve, np.arange(2.0), rng)
            curve.keyframe_points[0].co.y = float(rng.choice([1e30, -1e8, 3e38]))
            curve.update()
    if rng.random() < 0.2:
        limit = thing.constraints.new(str(rng.choice(["LIMIT_LOCATION", "COPY_LOCATION", "CHILD_OF"])))
        limit.influence = float(rng.random())
    if rng.random() < 0.2:
        driver = thing.driver_add("location", int(rng.integers(3))).driver
        driver.expression = str(rng.choice(["frame * 0.1", "1 / 0", "no_such_thing", "var"]))
    if rng.random() < 0.15 and curves:
        action = thing.animation_data.action
        thing.animation_data.nla_tracks.new().strips.new("strip", int(rng.integers(-5, 20)), action)
        if rng.random() < 0.5:
            thing.animation_data.action = None
    if rng.random() < 0.1:
        thing.scale = (0.0, 0.0, 0.0)
    thing.hide_viewport = bool(rng.random() < 0.1)


def faults_of(seed: int) -> list[str]:
    """Audit all there is in the scene of a seed; say what should never happen, and an exception is one of those."""
    bpy.ops.wm.read_homefile(use_factory_startup=True, use_empty=True)
    scene = scene_of(seed)
    before = repr((file_state(), state(scene)))  # as text: what is no number is the same as before, too
    tracks, faults = [], []
    for candidate in find_candidates(scene):
        try:
            tracks.append(candidate.sample())
        except LeapwrightError as refusal:
            faults += [f"{candidate.name}: a refusal of several lines: {refusal}"] * ("\n" in str(refusal))
    if tracks:
        shot = audit_reading("random.blend", Reading(tuple(tracks)), Settings(World()))
        written = json.loads(as_json(as_document([shot_data(shot)], "0")), parse_constant=faults.append)
        assert written["shots"][0]["status"] == "ok"
    try:
        bpy.ops.leapwright.audit_jump()
    except RuntimeError as told:  # a report of kind ERROR, or a poll that fails; a traceback is a fault
        faults += [str(told)] * ("Traceback" in str(told))
    faults += ["the audit changed the file"] * (repr((file_state(), state(scene))) != before)
    return faults
