"""Cost of reading a keyed root from its F-curves, as ratios to setting every frame of the scene, in the same run."""

import os
import tempfile

import numpy as np

from .rigs import crowd_to, generated_rig
from .speed import side_by_side
from .table import lines, say

LENGTHS = (300, 1000, 2500, 8000)
CROWD = 5


def keyed_root(length, spacing=6):
    """Key an object's three location channels every few frames; return it."""
    import bpy

    thing = bpy.data.objects.new("Crate", None)
    bpy.context.scene.collection.objects.link(thing)
    for frame in range(1, length + 1, spacing):
        thing.location = (np.cos(0.01 * frame), 0.1 * np.sin(frame), np.abs(np.sin(0.1 * frame)))
        thing.keyframe_insert("location", frame=frame)
    return thing


def plain_loop(thing, frames):
    """Do it plainly: set each frame and read the matrix."""
    import bpy

    scene, rows = bpy.context.scene, []
    for frame in frames:
        scene.frame_set(int(frame))
        rows.append(thing.matrix_world.translation[:])
    return np.array(rows)


def ratio(length, rounds):
    """Return sampling ÷ plain loop for a root of this length in the scene as it is."""
    import bpy
    from leapwright.addon.reading.sampling import sample_object

    thing, scene = keyed_root(length), bpy.context.scene
    track = sample_object(scene, thing)
    assert track.notes == () and np.abs(track.positions - plain_loop(thing, track.frames)).max() < 1e-5
    ours, plain = side_by_side(
        lambda: sample_object(scene, thing), lambda: plain_loop(thing, track.frames), least=0.0, rounds=rounds
    )
    bpy.data.objects.remove(thing)
    return ours / plain


def run(*, tries=None, kinds=""):
    """Print sampling ÷ plain loop, in an empty scene by length and in one of generated, skinned rigs."""
    os.environ.setdefault("BLENDER_USER_RESOURCES", tempfile.mkdtemp(prefix="leapwright-bench-"))
    import bpy

    bpy.ops.wm.read_homefile(use_factory_startup=True, use_empty=True)
    figures = {f"empty scene, {length} frames": ratio(length, tries or 9) for length in LENGTHS}
    say("generating the rigs")
    crowd_to(CROWD, *generated_rig())
    figures[f"{CROWD} skinned rigs, {LENGTHS[0]} frames"] = ratio(LENGTHS[0], 1)
    rows = [[scene, f"{figure:.3g}"] for scene, figure in figures.items()]
    print("\n".join(lines(("a keyed root", "sampling / plain loop"), rows)))
    return figures
