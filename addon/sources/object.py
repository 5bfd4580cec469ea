"""An object whose location is keyed: its origin is followed."""

from bpy.types import Object, Scene

from ...analysis.track import Track
from ..marks.marks import with_marks
from ..reading.channels import Motion
from ..reading.sampling import sample_object

LABEL = "Object"
ICON = "OBJECT_DATA"


def poll(thing: Object, _bone: str = "") -> bool:
    """Say whether the object's location changes."""
    motion = Motion(thing)
    return any(motion.channels(path).moving for path in ("location", "delta_location"))


def sample(scene: Scene, thing: Object, _bone: str = "") -> Track:
    """Read the object's path. Raises SourceError when it cannot be had."""
    return with_marks(scene, sample_object(scene, thing))
