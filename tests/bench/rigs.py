"""Cost of following one generated human rig among several, as ratios to setting every frame of the user's scene.

The rigs are the host's own generator's, each with a skinned, subdivided body. Read: heads and tails of the bones
that carry body segments, then the audit of their center, with no reading kept. Bare: that whole rig's evaluation
alone, in a scene set up before the clock starts, nothing read.
"""

import io
import os
import tempfile
import time
from contextlib import redirect_stdout

import numpy as np

from .table import lines, say

SEGMENTS = (
    "DEF-spine", "DEF-spine.001", "DEF-spine.002", "DEF-spine.003", "DEF-spine.006",
    *(f"DEF-{part}.{side}" for side in "LR"
      for part in ("upper_arm", "forearm", "hand", "thigh", "shin", "foot", "toe", "shoulder")),
)  # fmt: skip
CROWDS = (1, 5, 20)
FRAMES = range(1, 97)
POSES = ((1, 0.0), (8, -0.25), (13, 0.0), (19, 0.45), (25, 0.0), (30, -0.2), (40, 0.0), (48, 0.0))


def generated_rig():
    """Generate the host's human rig with its body, in the current scene; return (rig, body)."""
    import addon_utils
    import bpy

    addon_utils.enable("rigify", default_set=True)
    bpy.ops.object.armature_human_metarig_add()
    plan = bpy.context.object
    with redirect_stdout(io.StringIO()):
        bpy.ops.pose.rigify_generate()
    rig = next(thing for thing in bpy.context.scene.objects if thing.type == "ARMATURE" and thing != plan)
    bpy.data.objects.remove(plan)
    for control, path in (("torso", "location"), ("hand_ik.L", "location"), ("foot_ik.R", "location")):
        bone = rig.pose.bones[control]
        for frame, height in POSES:
            bone.location = (0.05 * np.sin(frame), 0.0, height if control == "torso" else 0.2 * height)
            bone.keyframe_insert(path, frame=frame)
    return rig, _body(rig)


def _body(rig):
    """Return a tube around every deforming bone, bound to it, subdivided once."""
    import bpy

    turns = np.linspace(0.0, 2.0 * np.pi, 25)[:-1]
    ring = 0.04 * np.column_stack((np.cos(turns), 0 * turns, np.sin(turns)))
    points, faces, groups = [], [], {}
    for bone in (bone for bone in rig.data.bones if bone.use_deform and bone.length > 0.02):
        place = np.array(bone.matrix_local)
        start = len(points)
        for step in np.linspace(0.0, bone.length, 8):
            points.extend((ring + step * np.eye(3)[1]) @ place[:3, :3].T + place[:3, 3])
        groups[bone.name] = list(range(start, len(points)))
        faces += [(start + row * 24 + i, start + row * 24 + (i + 1) % 24, start + (row + 1) * 24 + (i + 1) % 24,
                   start + (row + 1) * 24 + i) for row in range(7) for i in range(24)]  # fmt: skip
    mesh = bpy.data.meshes.new("Body")
    mesh.from_pydata(np.array(points).tolist(), [], faces)
    body = bpy.data.objects.new("Body", mesh)
    bpy.context.scene.collection.objects.link(body)
    for name, rows in groups.items():
        body.vertex_groups.new(name=name).add(rows, 1.0, "REPLACE")
    body.modifiers.new("Skin", "ARMATURE").object = rig
    body.modifiers.new("Smooth", "SUBSURF").levels = 1
    return body


def crowd_to(count, rig, body):
    """Add copies of rig and body until the scene holds this many."""
    import bpy

    scene = bpy.context.scene
    while sum(thing.type == "ARMATURE" for thing in scene.objects) < count:
        twin, skin = rig.copy(), body.copy()
        twin.data, skin.data = rig.data.copy(), body.data.copy()
        for thing in (twin, skin):
            scene.collection.objects.link(thing)
        skin.modifiers["Skin"].object = twin
        twin.location.x = 1.0 * len(scene.objects)


def plain_loop(rig, frames):
    """Do it plainly: set each frame of the scene and read each bone."""
    import bpy

    scene, rows = bpy.context.scene, []
    for frame in frames:
        scene.frame_set(frame)
        shown = rig.evaluated_get(bpy.context.evaluated_depsgraph_get())
        place = shown.matrix_world
        bones = shown.pose.bones
        rows.append([[(place @ bones[name].head)[:], (place @ bones[name].tail)[:]] for name in SEGMENTS])
    return np.array(rows)


def bare(rig, frames):
    """Evaluate that rig alone, whole, and read nothing; return the seconds that the frames took."""
    import bpy
    from leapwright.addon.reading.private_scene import private_scene

    with private_scene(bpy.context.scene, rig) as private:
        private.show(frames[0])
        began = time.perf_counter()
        for frame in frames:
            private.show(frame)
    return time.perf_counter() - began


def audited(rig, frames):
    """Read the rig's segments evaluated, as an audit does, and audit their center."""
    import bpy
    from leapwright.addon.reading.evaluated import evaluated_points
    from leapwright.analysis import Track, audit_track

    points = evaluated_points(bpy.context.scene, rig, SEGMENTS, frames)
    audit_track(Track("center", 24.0, frames, points.mean(axis=(1, 2))))
    return points


def _timed(call, *arguments):
    began = time.perf_counter()
    answer = call(*arguments)
    return time.perf_counter() - began, answer


def run(*, tries=None, kinds=""):
    """Print audit ÷ plain loop and audit ÷ bare evaluation, for one rig of each crowd; medians of a whole shot."""
    os.environ.setdefault("BLENDER_USER_RESOURCES", tempfile.mkdtemp(prefix="leapwright-bench-"))
    import bpy
    from leapwright.addon.reading import sample_cache

    bpy.ops.wm.read_homefile(use_factory_startup=True, use_empty=True)
    say("generating the rig")
    rig, body = generated_rig()
    rows, figures = [], {}
    for count in CROWDS:
        crowd_to(count, rig, body)
        spent = {"plain": [], "audit": [], "bare": [], "again": []}
        for turn in range(tries or 5):
            say(f"{count} rigs, turn {turn + 1}")
            if turn < 3:
                seconds, expected = _timed(plain_loop, rig, FRAMES)
                spent["plain"].append(seconds)
            sample_cache.forget()
            for name in ("audit", "again"):
                seconds, points = _timed(audited, rig, FRAMES)
                spent[name].append(seconds)
            spent["bare"].append(bare(rig, FRAMES))
            assert np.abs(points - expected).max() < 1e-5
        plain, audit, alone, again = (np.median(spent[name]) for name in ("plain", "audit", "bare", "again"))
        figures[count] = {"of_plain": audit / plain, "of_bare": audit / alone, "again": again / audit}
        rows.append([f"1 of {count}", *(f"{figure:.3f}" for figure in figures[count].values())])
    head = ("rigs", "audit / plain loop", "audit / bare evaluation", "second audit / first")
    print("\n".join(lines(head, rows)))
    return figures
