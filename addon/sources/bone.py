"""A pose bone whose location is keyed: its head is followed."""

import numpy as np
from bpy.types import Context, Object, Scene

from ...analysis.arrays import Array
from ...analysis.errors import SourceError
from ...analysis.track import Track
from ..marks.marks import with_marks
from ..reading.channels import Motion
from ..reading.sampling import sample_bone
from ..source import Source, named


def poll(thing: Object, bone: str = "") -> bool:
    """Say whether the bone's location changes, in an armature that is not in Edit Mode."""
    pose_bone = thing.pose.bones.get(bone) if thing.pose else None
    if pose_bone is None or thing.mode == "EDIT":
        return False
    if pose_bone.bone.use_connect and pose_bone.parent is not None:
        return False
    return bool(Motion(thing).channels(pose_bone.path_from_id("location")).moving)


def sample(scene: Scene, thing: Object, bone: str = "") -> Track:
    """Read the bone's path. Raises SourceError when it cannot be had."""
    return with_marks(scene, sample_bone(scene, thing, bone))


def place_now(context: Context, thing: Object, bone: str = "") -> Array:
    """Return the (3,) place of its head in the world, Blender units, as the viewport shows it now.

    Raises SourceError for a bone that is not there, and in Edit Mode.
    """
    shown = thing.evaluated_get(context.evaluated_depsgraph_get())
    pose_bone = shown.pose.bones.get(bone) if shown.pose else None
    if pose_bone is None:
        raise SourceError(f'"{thing.name}" has no bone "{bone}"')
    if thing.mode == "EDIT":
        raise SourceError(f'"{named(thing, bone)}" has no pose in Edit Mode: leave it first')
    return np.array(shown.matrix_world @ pose_bone.head, dtype=np.float64)


SOURCE = Source("Bone", "BONE_DATA", poll, sample, fields=("thing", "bone"), place_now=place_now, is_keyed=True)
