"""Keyed things to read, and what Blender itself shows of them when each frame is set."""

import bpy
import numpy as np
from leapwright.addon.reading import sampling
from leapwright.addon.scene import unit_scale, upright

KEYS = ((1, (0, 0, 0)), (7.5, (0.1, 0.4, -0.3)), (12, (0.2, 1, 0.2)), (20, (0, 2, 1.1)), (30, (0.5, 3, 0)))
HOP = ((1, 1.0), (8, 0.6), (13, 1.0), (20, 1.6), (27, 1.0), (34, 0.7), (45, 1.0))
"""Frame and height of a jump's poses."""


def key(target, keys=KEYS, path="location"):
    for frame, value in keys:
        setattr(target, path, value)
        target.keyframe_insert(path, frame=frame)
    return target


def empty(name="Crate", parent=None):
    thing = bpy.data.objects.new(name, None)
    bpy.context.scene.collection.objects.link(thing)
    thing.parent = parent
    return thing


def hopping(target):
    return key(target, [(frame, (0.0, 0.05 * frame, height)) for frame, height in HOP])


def armature(name="Brindle", connected=False):
    thing = bpy.data.objects.new(name, bpy.data.armatures.new(name))
    bpy.context.scene.collection.objects.link(thing)
    bpy.context.view_layer.objects.active = thing
    bpy.ops.object.mode_set(mode="EDIT")
    root = thing.data.edit_bones.new("root")
    root.head, root.tail, root.roll = (0.1, 0.2, 0.9), (0.3, 0.9, 1.4), 0.4
    chest = thing.data.edit_bones.new("chest")
    chest.head, chest.tail, chest.parent = (0.3, 0.9, 1.4), (0.2, 1.0, 2.4), root
    chest.use_connect = connected
    bpy.ops.object.mode_set(mode="OBJECT")
    return thing


def read_out(thing, bone=None, *, frames):
    """Return meters, upright, as the host evaluates them."""
    scene = bpy.context.scene
    rows = []
    for frame in frames:
        scene.frame_set(int(frame))
        shown = thing.evaluated_get(bpy.context.evaluated_depsgraph_get())
        place = shown.matrix_world @ shown.pose.bones[bone].matrix if bone else shown.matrix_world
        rows.append(place.translation[:])
    return np.array(rows) @ upright(scene).T * unit_scale(scene)


def assert_evaluated(thing, bone=None):
    return assert_same(thing, bone, notes=(sampling.EVALUATED,))


def assert_same(thing, bone=None, *, notes=()):
    scene = bpy.context.scene
    track = sampling.sample_bone(scene, thing, bone) if bone else sampling.sample_object(scene, thing)
    assert track.notes == notes
    np.testing.assert_allclose(track.positions, read_out(thing, bone, frames=track.frames), atol=1e-5)
    return track


def turn(thing):
    thing.location, thing.rotation_euler, thing.scale = (1, -2, 0.5), (0.3, -0.8, 2.1), (1.5, 0.5, 2)
    return thing
