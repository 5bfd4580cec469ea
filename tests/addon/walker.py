"""An armature with a root and two feet, keyed as the closed-form jump with its shoes says."""

import bpy
from leapwright.addon.host import curves_of

from tests.analysis.closed_form import Leap
from tests.analysis.shod import Shoes, shod

SIDES = {"foot.L": 0.1, "foot.R": -0.1}


def walker(shoes: Shoes | None = None, leap: Leap | None = None, name: str = "Brindle") -> bpy.types.Object:
    """Build and key the armature: root and feet move independently, with a key on every frame and straight lines
    between."""
    track, _ = shod(shoes or Shoes(), leap or Leap())
    rig = bpy.data.objects.new(name, bpy.data.armatures.new(name))
    bpy.context.scene.collection.objects.link(rig)
    bpy.context.view_layer.objects.active = rig
    bpy.ops.object.mode_set(mode="EDIT")
    # Bones along y lie as the armature does, so that their location is meters of the world.
    for bone_name, side in {"root": 0.0, **SIDES}.items():
        bone = rig.data.edit_bones.new(bone_name)
        high = 1.0 if bone_name == "root" else 0.0
        bone.head, bone.tail = (0.0, side, high), (0.0, side + 0.15, high)
    bpy.ops.object.mode_set(mode="OBJECT")
    _key(rig, "root", track.frames, track.positions - [0.0, 0.0, 1.0])
    for number, (bone_name, side) in enumerate(SIDES.items()):
        _key(rig, bone_name, track.frames, track.feet[:, number] - [0.0, side, 0.0])
    bpy.context.scene.render.fps = round(track.fps)
    bpy.context.scene.gravity = (0.0, 0.0, -9.80665)
    return rig


def floor(height: float = 0.0, name: str = "Deck", size: float = 5.0) -> bpy.types.Object:
    """Add a square of ground."""
    mesh = bpy.data.meshes.new(name)
    corners = [(x, y, height) for x, y in ((-size, -size), (size, -size), (size, size), (-size, size))]
    mesh.from_pydata(corners, [], [(0, 1, 2, 3)])
    deck = bpy.data.objects.new(name, mesh)
    bpy.context.scene.collection.objects.link(deck)
    return deck


def _key(rig: bpy.types.Object, name: str, frames, places) -> None:
    bone = rig.pose.bones[name]
    bone.keyframe_insert("location", frame=frames[0])
    path = bone.path_from_id("location")
    for curve in curves_of(rig.animation_data):
        if curve.data_path == path:
            curve.keyframe_points.add(len(frames) - 1)
            pairs = [n for pair in zip(frames, places[:, curve.array_index], strict=True) for n in pair]
            curve.keyframe_points.foreach_set("co", pairs)
            for point in curve.keyframe_points:
                point.interpolation = "LINEAR"
            curve.update()
