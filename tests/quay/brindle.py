"""Brindle the goat: her bones, her low-poly body, and her keys.

She faces +x, stands on her hind legs at the origin, and carries a parcel in her forelegs. The root's
own y axis is up, so that her height is the second channel of its location.
"""

import itertools
import math

import bpy

from .keying import lay
from .motion import Motion, at
from .moves import STANDING
from .pose import CANNON, SHIN, THIGH, hoof, lean, leg
from .shapes import Point, Shape

HIPS = 0.12
"""Half the distance between the hips, meters."""
REST = leg(0.0, -STANDING)
FEET = {"L": HIPS, "R": -HIPS}


def brindle() -> bpy.types.Object:
    """Build the rig and the body bound to it; return the armature."""
    data = bpy.data.armatures.new("Brindle")
    rig = bpy.data.objects.new("Brindle", data)
    bpy.context.scene.collection.objects.link(rig)
    bpy.context.view_layer.objects.active = rig
    bpy.ops.object.mode_set(mode="EDIT")
    for name, (head, tail, parent) in _bones().items():
        bone = data.edit_bones.new(name)
        bone.head, bone.tail = head, tail
        bone.align_roll((0.0, -1.0, 0.0))
        bone.parent = data.edit_bones[parent] if parent else None
    bpy.ops.object.mode_set(mode="OBJECT")
    for bone in rig.pose.bones:
        bone.rotation_mode = "XYZ"
    data.display_type = "STICK"
    body = _body().build("Brindle body")
    body.parent = rig
    body.modifiers.new("Brindle", "ARMATURE").object = rig
    return rig


def pose(rig: bpy.types.Object, motion: Motion, drawn: str, *, steady: bool = False) -> None:
    """Key the rig along a motion; `drawn` as a shot says it; steady: the back stays upright."""
    keys, last = motion.keys, int(motion.last.frame)
    root = rig.pose.bones["root"]
    stepped = drawn == "twos"
    frames = list(range(1, last + 1, 2)) if stepped else [k.frame for k in keys]
    path = [at(keys, f) for f in frames]
    exact = drawn == "arcs"
    aside = [motion.aside(f) for f in frames]
    across = [(motion.aside(f) - motion.aside(f - 1), motion.aside(f + 1) - motion.aside(f)) for f in frames]
    slopes = ([(k.before[0], k.after[0]) for k in keys], [(k.before[1], k.after[1]) for k in keys])
    channels = ([p[0] for p in path], [p[1] - STANDING for p in path], aside)
    for index, (values, slope) in enumerate(zip(channels, (*slopes, across), strict=True)):
        lay(root, "location", index, frames, values, slopes=slope if exact else None, stepped=stepped)
    _pose_legs(rig, motion, list(range(1, last + 1)) if exact else frames, stepped=stepped)
    if not steady:
        _pose_back(rig, motion, frames, stepped=stepped)


def _pose_legs(rig: bpy.types.Object, motion: Motion, frames: list[float], *, stepped: bool) -> None:
    for foot in FEET:
        turns: dict[str, list[float]] = {"thigh": [], "shin": [], "foot": []}
        for frame in frames:
            (x, z), (hoof_x, hoof_z) = at(motion.keys, frame), hoof(motion, foot, frame)
            now = leg(hoof_x - x, hoof_z - z)
            thigh, shin, cannon = now.thigh - REST.thigh, now.shin - REST.shin, now.cannon - REST.cannon
            for part, turn in zip(turns, (thigh, shin - thigh, cannon - shin), strict=True):
                turns[part].append(-turn)
        for part, values in turns.items():
            bone = rig.pose.bones[f"{part}.{foot}"]
            lay(bone, "rotation_euler", 2, frames, values, stepped=stepped)


def _pose_back(rig: bpy.types.Object, motion: Motion, frames: list[float], *, stepped: bool) -> None:
    poses = lean(motion)
    if stepped:
        poses = [_between(poses, frame) for frame in frames]
    times = [p[0] for p in poses]
    for name, column in (("body", 1), ("head", 2)):
        values = [-math.radians(p[column]) for p in poses]
        lay(rig.pose.bones[name], "rotation_euler", 2, times, values, stepped=stepped)


def _between(poses: list[tuple[float, float, float]], frame: float) -> tuple[float, float, float]:
    for a, b in itertools.pairwise(poses):
        if frame <= b[0]:
            u = (frame - a[0]) / (b[0] - a[0])
            return frame, a[1] + u * (b[1] - a[1]), a[2] + u * (b[2] - a[2])
    return frame, *poses[-1][1:]


def _leg_points(y: float) -> list[Point]:
    """Hip, knee, hock and hoof at rest."""
    points = [(0.0, y, STANDING)]
    parts = ((THIGH, REST.thigh), (SHIN, REST.shin), (CANNON, REST.cannon))
    for length, pitch in parts:
        x, _, z = points[-1]
        points.append((x + length * math.sin(pitch), y, z + length * math.cos(pitch)))
    return points


def _bones() -> dict[str, tuple[Point, Point, str]]:
    """Return head, tail and parent by name; parents first."""
    bones = {
        "root": ((0.0, 0.0, STANDING), (0.0, 0.0, STANDING + 0.2), ""),
        "body": ((0.0, 0.0, STANDING + 0.02), (0.05, 0.0, 1.42), "root"),
        "head": ((0.07, 0.0, 1.44), (0.12, 0.0, 1.74), "body"),
        "tail": ((-0.14, 0.0, 0.98), (-0.28, 0.0, 1.08), "body"),
    }
    for side, y in FEET.items():
        hip, knee, hock, toe = _leg_points(y)
        bones[f"thigh.{side}"] = (hip, knee, "root")
        bones[f"shin.{side}"] = (knee, hock, f"thigh.{side}")
        bones[f"foot.{side}"] = (hock, toe, f"shin.{side}")
        bones[f"foreleg.{side}"] = ((0.10, 1.5 * y, 1.34), (0.40, y, 1.16), "body")
    return bones


def _body() -> Shape:
    shape = Shape()
    coat = ["coat", "streak", "coat", "streak", "coat", "coat"]
    back = [(-0.03, 0.80, 0.12), (-0.03, 0.90, 0.20), (-0.01, 1.02, 0.215), (0.02, 1.14, 0.21),
            (0.04, 1.26, 0.20), (0.06, 1.38, 0.175), (0.07, 1.46, 0.10)]  # fmt: skip
    shape.rings([((x, 0.0, z), r) for x, z, r in back], coat, "body", sides=10, flat=0.92)
    shape.limb((0.06, 0.0, 1.40), (0.085, 0.0, 1.49), (0.15, 0.125), "scarf", "body", sides=9)
    shape.box((-0.075, -0.05, 1.34), (0.05, 0.09, 0.24), "scarf", "body")
    shape.limb((-0.14, 0.0, 0.98), (-0.29, 0.0, 1.10), (0.06, 0.02), "muzzle", "tail", sides=5)
    _head(shape)
    for side, y in FEET.items():
        hip, knee, hock, toe = _leg_points(y)
        shape.limb(hip, knee, (0.135, 0.075), "coat", f"thigh.{side}", sides=7)
        shape.limb(knee, hock, (0.078, 0.05), "streak", f"shin.{side}")
        mid = tuple(p + 0.68 * (q - p) for p, q in zip(hock, toe, strict=True))
        shape.limb(hock, mid, (0.052, 0.045), "coat", f"foot.{side}")
        shape.limb(mid, (toe[0] + 0.035, y, toe[2]), (0.05, 0.075), "hoof", f"foot.{side}", sides=5)
        arm, hand = f"foreleg.{side}", (0.44, y, 1.17)
        elbow = (0.16, 1.75 * y, 1.14)
        shape.limb((0.08, 1.5 * y, 1.34), elbow, (0.075, 0.055), "coat", arm)
        shape.limb(elbow, hand, (0.055, 0.04), "streak", arm)
        shape.limb(hand, (0.51, 0.95 * y, 1.18), (0.045, 0.05), "hoof", arm, sides=5)
    shape.box((0.38, 0.0, 1.325), (0.30, 0.34, 0.24), "paper", "body")
    shape.box((0.38, 0.0, 1.325), (0.31, 0.05, 0.25), "string", "body")
    shape.box((0.38, 0.0, 1.325), (0.05, 0.35, 0.25), "string", "body")
    return shape


def _head(shape: Shape) -> None:
    skull = [((0.06, 0.0, 1.45), 0.10), ((0.11, 0.0, 1.63), 0.165), ((0.10, 0.0, 1.79), 0.115)]
    shape.rings(skull, ["coat", "coat"], "head", sides=8, flat=0.9)
    shape.limb((0.15, 0.0, 1.64), (0.42, 0.0, 1.54), (0.14, 0.085), "muzzle", "head", sides=8, flat=0.85)
    shape.limb((0.405, 0.0, 1.555), (0.45, 0.0, 1.54), (0.055, 0.035), "streak", "head")
    shape.limb((0.30, 0.0, 1.49), (0.27, 0.0, 1.33), (0.055, 0.008), "muzzle", "head", sides=5)
    for side in (1.0, -1.0):
        horn = [((0.10, side * 0.07, 1.76), 0.055), ((0.07, side * 0.09, 1.91), 0.045),
                ((-0.05, side * 0.12, 2.02), 0.032), ((-0.19, side * 0.14, 2.02), 0.006)]  # fmt: skip
        shape.rings(horn, ["horn", "streak", "horn"], "head", sides=6)
        ear = (0.05, side * 0.13, 1.69), (-0.06, side * 0.33, 1.60)
        shape.limb(*ear, (0.055, 0.012), "streak", "head", 5)
        shape.limb((0.215, side * 0.085, 1.71), (0.225, side * 0.145, 1.715), (0.05, 0.04), "trim", "head", 7)
        shape.box((0.24, side * 0.132, 1.712), (0.05, 0.03, 0.06), "eye", "head")
