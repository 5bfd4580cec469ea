"""An object whose location is keyed: its origin is followed."""

import numpy as np
from bpy.types import Context, Object, Scene

from ...analysis.arrays import Array
from ...analysis.track import Track
from ..marks.marks import with_marks
from ..reading.channels import Motion
from ..reading.sampling import sample_object
from ..source import Source


def poll(thing: Object, _bone: str = "") -> bool:
    """Say whether the object's location changes."""
    motion = Motion(thing)
    return any(motion.channels(path).moving for path in ("location", "delta_location"))


def sample(scene: Scene, thing: Object, _bone: str = "") -> Track:
    """Read the object's path. Raises SourceError when it cannot be had."""
    return with_marks(scene, sample_object(scene, thing))


def place_now(context: Context, thing: Object, _bone: str = "") -> Array:
    """Return the (3,) place of its origin in the world, Blender units, as the viewport shows it now."""
    shown = thing.evaluated_get(context.evaluated_depsgraph_get())
    return np.array(shown.matrix_world.translation, dtype=np.float64)


SOURCE = Source("Object", "OBJECT_DATA", poll, sample, place_now=place_now, is_keyed=True, is_whole=True)
