"""Seeded shots of one or two leaps, with every kind of key on every kind of carrier; they are not saved."""

from dataclasses import dataclass

import bpy
import numpy as np
from leapwright.addon import host

from tests.quay.brindle import brindle, pose
from tests.quay.keying import lay
from tests.quay.motion import FPS, Motion, at, plan
from tests.quay.moves import Leap, Stand

CARRIERS = ("object", "bone", "feet", "mass")
"""What carries the leap: an object, a bone of a turned rig, a bone with its feet read, the center of mass."""
DRAWN = ("exact", "clamped", "automatic", "linear", "stepped", "twos", "baked", "breakdowns")
"""How keys are joined, and how many of them there are."""


@dataclass(frozen=True, slots=True)
class Drawn:
    """A shot in the open file: the thing to follow, and the step of the scene's settings."""

    thing: bpy.types.Object
    bone: str
    source: str
    step: int
    said: str


def leaps_of(rng: np.random.Generator) -> tuple[Leap, ...]:
    """Return one leap, or two, of any pace and any mismatch of push, flight and absorb."""
    return tuple(_leap(rng, level=number == 0) for number in range(1 + (rng.random() < 0.3)))


def _leap(rng: np.random.Generator, *, level: bool) -> Leap:
    rise = int(rng.integers(5, 14))
    fall = rise if level or rng.random() < 0.6 else max(4, rise + int(rng.integers(-2, 3)))
    push = int(rng.integers(3, 12))
    return Leap(
        push=push,
        rise=rise,
        fall=fall,
        absorb=int(rng.integers(3, 9)),
        distance=float(rng.choice([0.0, rng.uniform(0.2, 2.0)])),
        dip=int(rng.integers(6, 12)),
        hold=int(rng.integers(0, 5)),
        settle=int(rng.integers(8, 16)),
        pace=float(rng.uniform(0.6, 1.6)),
        push_real=float(min(rng.uniform(0.5, 2.0) * push, 1.2 * rise)),
        absorb_real=float(rng.uniform(3.0, 9.0)),
    )


def shot(seed: int) -> Drawn:
    """Draw the shot of a seed into the running Blender's empty file."""
    rng = np.random.default_rng([seed, 10])
    scene = bpy.context.scene
    scene.render.fps, scene.render.fps_base, scene.gravity = FPS, 1.0, (0.0, 0.0, -9.81)
    motion = plan((Stand(int(rng.integers(7, 15))), *leaps_of(rng), Stand(6)), x=0.0, ground=0.0, gravity=9.81)
    scene.frame_start, scene.frame_end = 1, int(motion.last.frame)
    carrier, drawn = CARRIERS[int(rng.choice(4, p=(0.4, 0.3, 0.15, 0.15)))], str(rng.choice(DRAWN))
    step = 2 if drawn == "twos" or rng.random() < 0.15 else 1
    said = f"seed {seed}: {carrier}, {drawn}, step {step}"
    if carrier in ("object", "bone"):
        thing, bone = _lone(motion, carrier, drawn, rng)
        return Drawn(thing, bone, carrier, step, said)
    rig = brindle()
    pose(rig, motion, "twos" if drawn in ("stepped", "twos") else "arcs" if drawn == "exact" else "poses")
    bpy.context.view_layer.objects.active = rig
    if carrier == "mass":
        assert bpy.ops.leapwright.weigh_body() == {"FINISHED"}
        return Drawn(rig, "", "center_of_mass", step, said)
    rig.leapwright_feet.reading = str(rng.choice(["on", "auto"]))
    return Drawn(rig, "root", "bone", step, said)


def _lone(motion: Motion, carrier: str, drawn: str, rng: np.random.Generator) -> tuple[bpy.types.Object, str]:
    owner, bone, turn = _carrier(carrier, rng)
    frames = np.array([key.frame for key in motion.keys], np.float64)
    last = int(motion.last.frame)
    if drawn == "twos":
        frames = np.arange(1.0, last + 1.0, 2.0)
    elif drawn == "baked":
        frames = np.arange(1.0, last + 1.0)
    elif drawn == "breakdowns":
        frames = np.union1d(frames, rng.choice(np.arange(2, last), 5, replace=False))
    path = np.array([at(motion.keys, frame) for frame in frames])
    slopes = [[(key.before[n], key.after[n]) for key in motion.keys] for n in (0, 1)] if drawn == "exact" else None
    for axis, values in ((0, path[:, 0]), (turn, path[:, 1]), (3 - turn, 0.0 * frames)):
        given = None if slopes is None else slopes[axis == turn] if axis != 3 - turn else [(0.0, 0.0)] * len(frames)
        lay(owner, "location", axis, frames, values, slopes=given, stepped=drawn in ("stepped", "twos"))
    thing = owner.id_data
    extra = np.unique(rng.integers(1, last, 6)).astype(float)
    lay(thing, "rotation_euler", 2, extra, rng.normal(0.0, 0.3, len(extra)) * (carrier == "object"))
    for curve in host.curves_of(thing.animation_data):
        for point in curve.keyframe_points:
            if drawn == "linear":
                point.interpolation = "LINEAR"
            elif drawn == "automatic":
                point.handle_left_type = point.handle_right_type = "AUTO"
        curve.update()
    return thing, bone


def _carrier(carrier: str, rng: np.random.Generator) -> tuple[bpy.types.Object | bpy.types.PoseBone, str, int]:
    """Tell what is keyed, its bone's name, and the number of its channel that is up."""
    if carrier == "object":
        thing = bpy.data.objects.new("Crate", None)
        bpy.context.scene.collection.objects.link(thing)
        bpy.context.view_layer.objects.active = thing
        return thing, "", 2
    rig = brindle()
    rig.rotation_euler.z = rng.uniform(-3.0, 3.0)
    bpy.context.view_layer.objects.active = rig
    bpy.context.view_layer.update()
    return rig.pose.bones["root"], "root", 1
