"""The host's human: its meta-rig and the rig it generates from it, built by `python -m tests.addon.human FILE`.

It runs in its own process: the add-on that generates the rig leaves properties with callbacks behind, and these make
Blender 4.2, as a module, crash at exit.
"""

import os
import sys

import bpy
import numpy as np

METARIG, RIG = "metarig", "rig"


def build(path: str) -> None:
    """Build both rigs into a file."""
    bpy.ops.preferences.addon_enable(module="rigify")
    bpy.ops.wm.read_homefile(use_factory_startup=True, use_empty=True)
    bpy.ops.object.armature_human_metarig_add()
    bpy.ops.pose.rigify_generate()
    bpy.ops.wm.save_as_mainfile(filepath=path, check_existing=False)


def shown(path, name: str) -> bpy.types.Object:
    """Open the file and return one of its rigs, active, its bones in Euler angles."""
    bpy.ops.wm.open_mainfile(filepath=str(path), load_ui=False)
    rig = bpy.data.objects[name]
    bpy.context.view_layer.objects.active = rig
    for bone in rig.pose.bones:
        bone.rotation_mode = "XYZ"
    return rig


# de Leva 1996, Table 4, women: mass, and center from the near joint, per cent; the trunk's parts, and the head, from
# above. The values are written down here again, so that the add-on's table and mapping are not checked against
# themselves.
LIMBS = {("upper_arm", "forearm"): (2.55, 57.54), ("forearm", "hand"): (1.38, 45.59), ("hand", ""): (0.56, 74.74),
         ("thigh", "shin"): (14.78, 36.12), ("shin", "foot"): (4.81, 43.52), ("foot", ""): (1.29, 50.0)}  # fmt: skip
BACK = ((15.45, 50.50, 228.0), (14.65, 45.12, 205.3), (12.47, 49.20, 181.5))


def balance(rig: bpy.types.Object, prefix: str = "") -> np.ndarray:
    """Compute where the center of mass of a posed human lies in the world, joint by joint."""

    def end(bone: str, which: str = "head") -> np.ndarray:
        return np.array(rig.matrix_world @ getattr(rig.pose.bones[prefix + bone], which))

    masses, places = [], []
    for (bone, following), (mass, center) in LIMBS.items():
        for side in ".L", ".R":
            far = end(following + side) if following else end(bone + side, "tail")
            masses.append(mass)
            places.append(end(bone + side) + center / 100 * (far - end(bone + side)))
    neck = [end("spine.004"), end("spine.005"), end("spine.006"), end("spine.006", "tail")]
    masses.append(6.68)
    places.append(_down(neck[::-1], 0.4841))
    hips = (end("thigh.L") + end("thigh.R")) / 2
    back = [end("spine.004"), end("spine.003"), end("spine.002"), end("spine.001"), hips]
    above, whole = 0.0, sum(length for *_, length in BACK)
    for mass, center, length in BACK:
        masses.append(mass)
        places.append(_down(back, (above + center / 100 * length) / whole))
        above += length
    return np.average(places, axis=0, weights=masses)


def _down(line: list[np.ndarray], share: float) -> np.ndarray:
    """Return the point at a share of the length of a line."""
    steps = np.linalg.norm(np.diff(line, axis=0), axis=1)
    at = np.concatenate([[0.0], np.cumsum(steps)]) / steps.sum()
    return np.array([np.interp(share, at, axis) for axis in np.array(line).T])


if __name__ == "__main__":
    build(sys.argv[1])
    sys.stdout.flush()
    os._exit(0)
