"""Skeletons: bones with names and parents, those of a person, and one that sways in a motion file."""

from pathlib import Path

import bpy
import numpy as np

PEOPLE = (
    ("Hips", None), ("Spine", "Hips"), ("Neck", "Spine"), ("Head", "Neck"),
    *((f"{side}{bone}", f"{side}{above}" if above not in ("Hips", "Spine") else above)
      for side in ("Left", "Right")
      for bone, above in (("UpLeg", "Hips"), ("Leg", "UpLeg"), ("Foot", "Leg"), ("Arm", "Spine"), ("ForeArm", "Arm"),
                          ("Hand", "ForeArm"))),
)  # fmt: skip


def shown(data: bpy.types.ID | None = None, name: str = "Crate") -> bpy.types.Object:
    thing = bpy.data.objects.new(name, data)
    bpy.context.scene.collection.objects.link(thing)
    return thing


def rig(name: str = "Brindle", bones: tuple = (("root", None), ("hips", "root"), ("foot", None))):
    thing = shown(bpy.data.armatures.new(name), name)
    bpy.context.view_layer.objects.active = thing
    bpy.ops.object.mode_set(mode="EDIT")
    for bone, parent in bones:
        edit = thing.data.edit_bones.new(bone)
        edit.head, edit.tail = (0, 0, 0), (0, 0, 1)
        edit.parent = thing.data.edit_bones.get(parent or "")
    bpy.ops.object.mode_set(mode="OBJECT")
    return thing


def person():
    """Return a skeleton named as .bvh files are; its bones stand side by side, so every segment has a length."""
    thing = rig("Harbourer", PEOPLE)
    bpy.ops.object.mode_set(mode="EDIT")
    for n, bone in enumerate(thing.data.edit_bones):
        bone.head, bone.tail = (0.1 * n, 0.0, 1.0), (0.1 * n, 0.0, 0.5 + 0.01 * n)
    bpy.ops.object.mode_set(mode="OBJECT")
    return thing


def recording(path: Path, size: float, tall: int = 1) -> Path:
    """Write a stick figure at 120 fps whose hips move by a tenth of its height; tall: the axis that it stands along."""

    def offset(amount: float) -> str:
        return " ".join(str(amount if axis == tall else 0.0) for axis in range(3))

    axes = "Xposition Yposition Zposition Zrotation Xrotation Yrotation"
    rows = [" ".join(f"{v:.6f}" for v in (*(size * (0.5 + 0.1 * np.sin(0.3 * row)) if axis == tall else 0.0
                                            for axis in range(3)), 0, 0, 0)) for row in range(40)]  # fmt: skip
    path.write_text(
        f"HIERARCHY\nROOT Hips\n{{\n OFFSET 0 0 0\n CHANNELS 6 {axes}\n"
        f" JOINT Head\n {{\n  OFFSET {offset(0.4 * size)}\n  CHANNELS 0\n  End Site\n  {{\n"
        f"   OFFSET {offset(0.1 * size)}\n  }}\n }}\n"
        f" JOINT Foot\n {{\n  OFFSET {offset(-0.4 * size)}\n  CHANNELS 0\n  End Site\n  {{\n"
        f"   OFFSET {offset(-0.1 * size)}\n  }}\n }}\n}}\n"
        f"MOTION\nFrames: 40\nFrame Time: 0.008333\n" + "\n".join(rows) + "\n"
    )
    return path
