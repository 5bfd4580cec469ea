"""Brindle with a root that is keyed so that the center of mass of her whole body jumps as planned."""

import bmesh
import bpy
import numpy as np

from tests.quay.brindle import brindle
from tests.quay.motion import at, plan
from tests.quay.moves import Leap, Stand

MOVES = (Stand(7), Leap(push=6, rise=8, fall=8, absorb=6, distance=0.6, hold=2))


def swing(motion, frame):
    """Tell how far the arms are up: hanging in the crouch, up at takeoff, down again by landing."""
    built = motion.jumps[0]
    times = [1, built.crouch - 4, built.crouch, built.takeoff + 1, built.landing + 2, motion.last.frame]
    return float(np.interp(frame, times, [0.0, -0.3, -0.3, 1.0, 0.0, 0.0]))


def frames_of(motion):
    scene = bpy.context.scene
    scene.render.fps, scene.render.fps_base = 24, 1.0
    scene.gravity = (0.0, 0.0, -9.81)
    scene.frame_start, scene.frame_end = 1, int(motion.last.frame)
    return range(1, int(motion.last.frame) + 1)


def mesh_balance(body):
    """Return the center of mass and volume of the mesh as Blender deforms it, by signed tetrahedra."""
    shell = bmesh.new()
    seen = body.evaluated_get(bpy.context.evaluated_depsgraph_get())
    shell.from_mesh(seen.to_mesh())
    shell.transform(seen.matrix_world)
    bmesh.ops.remove_doubles(shell, verts=shell.verts[:], dist=1e-5)
    bmesh.ops.recalc_face_normals(shell, faces=shell.faces[:])
    bmesh.ops.triangulate(shell, faces=shell.faces[:])
    corners = np.array([[vertex.co[:] for vertex in face.verts] for face in shell.faces])
    volume = shell.calc_volume()
    shell.free()
    sixths = np.einsum("ti,ti->t", corners[:, 0], np.cross(corners[:, 1], corners[:, 2])) / 6
    return (sixths[:, None] * corners.sum(axis=1) / 4).sum(axis=0) / sixths.sum(), volume


def goat(weighed=True):
    rig = brindle()
    bpy.context.view_layer.objects.active = rig
    if weighed:
        assert bpy.ops.leapwright.weigh_body() == {"FINISHED"}
    return rig, bpy.data.objects["Brindle body"]


def pose_goat(rig, motion, frame):
    up = swing(motion, frame)
    for side in "LR":
        rig.pose.bones[f"foreleg.{side}"].rotation_euler.z = 2.0 * up
    rig.pose.bones["body"].rotation_euler.z = 0.5 * up - 0.3
    rig.pose.bones["head"].rotation_euler.z = 0.4 * up


def keyed_goat():
    """Return Brindle with her root keyed so that the volume of her mesh jumps as planned."""
    rig, body = goat()
    motion = plan(MOVES, x=0.0, ground=0.0, gravity=9.81)
    posed = ("body", "head", "foreleg.L", "foreleg.R")
    for frame in frames_of(motion):
        pose_goat(rig, motion, frame)
        root = rig.pose.bones["root"]
        root.location = (0.0, 0.0, 0.0)
        bpy.context.view_layer.update()
        x, z = at(motion.keys, frame)
        center, _ = mesh_balance(body)
        turned = rig.data.bones["root"].matrix_local.to_3x3().inverted()
        root.location = turned @ type(root.location)((x - center[0], 0.0, z - center[2]))
        root.keyframe_insert("location", frame=frame)
        for bone in posed:
            rig.pose.bones[bone].keyframe_insert("rotation_euler", frame=frame)
    return rig, body, motion
