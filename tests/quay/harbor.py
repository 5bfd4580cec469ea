"""The harbor at low tide: quay, two barges, water, the far shore, a camera and the light."""

import math

import bpy
from mathutils import Vector

from .motion import Motion
from .palette import COLORS
from .shapes import Shape, linear
from .shots import BARGE, QUAY

BARGES = (("hull rust", 0.45, 4.35), ("hull green", 4.85, 9.2))
"""Color of the hull, first and last x of the deck, meters."""
FRONT, BACK = -0.85, 2.45
"""Edges of quay and decks toward the camera and away from it: y, meters."""
MIDDLE, DEPTH = (FRONT + BACK) / 2, BACK - FRONT


def harbor() -> None:
    """Build everything that stands still."""
    shape = Shape()
    _quay(shape)
    for hull, first, last in BARGES:
        _barge(shape, hull, first, last)
    _shore(shape)
    shape.build("Tern Quay")
    water = Shape()
    water.box((0.0, 60.0, -0.5), (400.0, 160.0, 1.0), "water")
    water.build("Water")


def prop(kind: str, motion: Motion) -> None:
    """Put what is jumped over under the apex of the first jump."""
    jump = motion.jumps[0]
    apex = next(key for key in motion.keys if key.frame == jump.apex)
    ground, shape = motion.plants[0].z, Shape()
    if kind == "crate":
        shape.box((apex.x, 0.0, ground + 0.22), (0.52, 0.6, 0.44), "planks dark")
        for z in (0.04, 0.40):
            shape.box((apex.x, 0.0, ground + z), (0.56, 0.64, 0.07), "trim")
    elif kind == "bucket":
        shape.limb((apex.x, 0.0, ground), (apex.x, 0.0, ground + 0.34), (0.15, 0.21), "string", sides=10)
        shape.limb((apex.x, 0.0, ground + 0.30), (apex.x, 0.0, ground + 0.36), (0.215, 0.225), "trim", sides=10)
    elif kind == "rope":
        for y in (-0.8, 0.8):
            shape.limb((apex.x, y, ground), (apex.x, y, ground + 0.42), (0.09, 0.07), "iron", sides=7)
        shape.limb((apex.x, -0.8, ground + 0.34), (apex.x, 0.8, ground + 0.34), (0.03, 0.03), "rope", sides=6)
    shape.build(kind.capitalize())


def camera(motion: Motion) -> None:
    """Frame the whole move from the water, a little from above."""
    scene = bpy.context.scene
    xs, zs = [k.x for k in motion.keys], [k.z for k in motion.keys]
    middle = Vector((sum((min(xs), max(xs))) / 2 + 0.15, 0.0, (min(zs) - 1.0 + max(zs) + 1.35) / 2))
    wide = max(max(xs) - min(xs) + 2.3, (max(zs) - min(zs) + 2.6) * 16 / 9, 5.2)
    data = bpy.data.cameras.new("Camera")
    data.lens = 45
    eye = bpy.data.objects.new("Camera", data)
    away = wide * data.lens / data.sensor_width
    eye.location = middle + away * Vector((0.12, -0.97, 0.12)).normalized()
    eye.rotation_euler = (middle - eye.location).to_track_quat("-Z", "Y").to_euler()
    scene.collection.objects.link(eye)
    scene.camera = eye


def light() -> None:
    """Light the set: a low warm sun and an even sky."""
    scene = bpy.context.scene
    data = bpy.data.lights.new("Sun", "SUN")
    data.energy, data.angle, data.color = 3.6, math.radians(3), (1.0, 0.91, 0.78)
    sun = bpy.data.objects.new("Sun", data)
    sun.rotation_euler = (math.radians(48), math.radians(-8), math.radians(33))
    scene.collection.objects.link(sun)
    world = bpy.data.worlds.new("Sky")
    if world.node_tree is None:  # before Blender 5.0
        world.use_nodes = True
    sky = next(node for node in world.node_tree.nodes if node.type == "BACKGROUND")
    sky.inputs["Color"].default_value = (*linear(COLORS["sky"]), 1.0)
    sky.inputs["Strength"].default_value = 0.8
    scene.world = world
    scene.view_settings.view_transform = "Standard"


def _quay(shape: Shape) -> None:
    shape.box((-10.0, MIDDLE + 0.5, QUAY / 2 - 0.56), (20.0, DEPTH + 1, QUAY + 0.9), "stone")
    for i in range(20):
        tone = ("stone", "stone dark")[i % 2]
        shape.box((-19.5 + i, MIDDLE + 0.45, QUAY - 0.06), (0.98, DEPTH + 1.1, 0.12), tone)
    for row, z in enumerate((0.02, 0.55, 1.08)):
        for i in range(12):
            x = -0.55 - 1.15 * i - 0.5 * (row % 2)
            shape.box((x, FRONT - 0.01, z), (1.08, 0.08, 0.46), "stone dark")
        for i in range(3):
            shape.box((0.0, FRONT + 0.8 + 1.15 * i, z), (0.08, 1.08, 0.46), "stone dark")
    for z in (0.2, 0.5, 0.8, 1.1, 1.4):
        shape.box((-1.75, FRONT - 0.12, z), (0.42, 0.06, 0.05), "iron")
    for x in (-1.98, -1.52):
        shape.box((x, FRONT - 0.12, 0.8), (0.05, 0.06, 1.7), "iron")
    for x in (-2.2, -7.4):
        shape.limb((x, 1.5, QUAY), (x, 1.5, QUAY + 0.42), (0.17, 0.13), "iron", sides=8)
        shape.limb((x, 1.5, QUAY + 0.40), (x, 1.5, QUAY + 0.52), (0.20, 0.20), "iron", sides=8)
    _lamp(shape, -5.2)
    for x, y, s in ((-8.2, 1.6, 0.7), (-7.6, 2.2, 0.55), (-8.1, 1.7, 1.3), (-3.4, 2.4, 0.6)):
        z = QUAY + (0.3 if s < 1 else 0.92)
        shape.box((x, y, z), (0.6, 0.6, 0.6 if s < 1 else 0.5), "planks dark")


def _lamp(shape: Shape, x: float) -> None:
    shape.limb((x, 2.2, QUAY), (x, 2.2, QUAY + 2.9), (0.09, 0.06), "iron", sides=7)
    shape.limb((x, 2.2, QUAY + 2.9), (x, 2.2, QUAY + 3.2), (0.13, 0.19), "lamp", sides=6)
    shape.limb((x, 2.2, QUAY + 3.2), (x, 2.2, QUAY + 3.38), (0.25, 0.04), "iron", sides=6)


def _barge(shape: Shape, hull: str, first: float, last: float) -> None:
    middle, length, low = (first + last) / 2, last - first, BARGE - 0.12
    shape.box((middle, MIDDLE, low / 2 - 0.1), (length - 0.3, DEPTH - 0.3, low + 0.2), hull, taper=1.07)
    shape.box((middle, MIDDLE, low - 0.03), (length, DEPTH, 0.15), "trim")
    planks = round(length / 0.42)
    for i in range(planks):
        x = first + (i + 0.5) * length / planks
        tone = ("planks", "planks dark")[i % 2]
        shape.box((x, MIDDLE, BARGE - 0.03), (length / planks - 0.012, DEPTH - 0.1, 0.06), tone)
    for x in (first + 0.7, middle, last - 0.7):
        shape.limb((x, FRONT - 0.14, 0.36), (x, FRONT + 0.06, 0.36), (0.21, 0.21), "iron", sides=10)
        shape.limb((x, FRONT, 0.36), (x, FRONT, 0.8), (0.025, 0.025), "rope", sides=5)
    if hull == "hull green":
        shape.box((last - 1.15, 1.15, BARGE + 0.55), (1.7, 1.3, 1.1), "wall")
        shape.box((last - 1.15, 1.12, BARGE + 1.16), (1.95, 1.6, 0.14), "roof")
        for x in (last - 1.55, last - 0.75):
            shape.box((x, 0.49, BARGE + 0.65), (0.42, 0.03, 0.42), "string")
    else:
        for x, y, h in ((first + 0.75, 1.5, 0.5), (first + 1.35, 1.6, 0.5), (first + 1.05, 1.5, 0.95)):
            shape.box((x, y, BARGE + h - 0.25), (0.54, 0.54, 0.46), "planks dark")
        shape.limb((first + 2.3, 1.5, BARGE), (first + 2.3, 1.5, BARGE + 0.6), (0.24, 0.24), "hull green", sides=9)


def _shore(shape: Shape) -> None:
    hills = ((-34.0, 60.0, 30.0, 7.0, "hills"), (6.0, 74.0, 34.0, 9.5, "hills far"))
    for x, y, r, h, tone in (*hills, (44.0, 62.0, 28.0, 6.0, "hills")):
        shape.limb((x, y, -0.5), (x, y, h), (r, r * 0.25), tone, sides=9)
    for i, (w, h) in enumerate(((3.2, 3.0), (2.6, 4.2), (3.6, 2.6), (2.8, 3.6), (3.4, 2.8))):
        x = -16.0 + 4.6 * i
        shape.box((x, 38.0, h / 2), (w, 3.0, h), "wall")
        shape.box((x, 38.0, h + 0.45), (w + 0.4, 3.3, 0.9), "roof", taper=0.35)
    shape.limb((19.0, 36.0, 0.0), (19.0, 36.0, 6.0), (1.0, 0.7), "trim", sides=9)
    shape.limb((19.0, 36.0, 2.0), (19.0, 36.0, 3.4), (0.96, 0.86), "scarf", sides=9)
    shape.limb((19.0, 36.0, 6.0), (19.0, 36.0, 7.0), (0.6, 0.6), "lamp", sides=8)
    shape.limb((19.0, 36.0, 7.0), (19.0, 36.0, 7.9), (0.9, 0.1), "roof", sides=8)
