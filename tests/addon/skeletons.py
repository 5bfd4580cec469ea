"""Skeletons without motion: bones with names and parents, and those of a person."""

import bpy

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
    """A skeleton named as .bvh files are; its bones stand side by side, so every segment has a length."""
    thing = rig("Harbourer", PEOPLE)
    bpy.ops.object.mode_set(mode="EDIT")
    for n, bone in enumerate(thing.data.edit_bones):
        bone.head, bone.tail = (0.1 * n, 0.0, 1.0), (0.1 * n, 0.0, 0.5 + 0.01 * n)
    bpy.ops.object.mode_set(mode="OBJECT")
    return thing
