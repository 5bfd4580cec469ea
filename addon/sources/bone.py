"""A pose bone whose location is keyed: its head is followed."""

from bpy.types import Object, Scene

from ...analysis.track import Track
from ..marks.marks import with_marks
from ..reading.channels import Motion
from ..reading.sampling import sample_bone

LABEL = "Bone"
ICON = "BONE_DATA"


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
