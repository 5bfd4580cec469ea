"""The centre of mass of an armature, from the segments of the body its bones stand for."""

import math

import numpy as np
from bpy.types import Object, Scene

from ...analysis.errors import SourceError
from ...analysis.track import FEWEST_FRAMES, Track
from ..marks import marks
from ..mass.keyed_frames import keys_of
from ..mass.rig import body_of_rig
from ..reading.dependencies import dependencies_of, invalid_drivers, span_of
from ..reading.evaluated import evaluated_frames
from ..reading.sampling import LONGEST
from ..scene import frame_rate, key_time

LABEL = "Center of Mass"
ICON = "PIVOT_MEDIAN"
NAME = "centre of mass"


def poll(thing: Object, _bone: str = "") -> bool:
    """Say whether the armature has a body, and is not in Edit Mode."""
    if thing.pose is None or thing.mode == "EDIT":
        return False
    try:
        body_of_rig(thing)
    except SourceError:
        return False
    return True


def sample(scene: Scene, thing: Object, _bone: str = "") -> Track:
    """Read the path of the centre of mass over the frames in which the armature, or what moves it, is keyed.

    Raises SourceError when the armature has no body, when too few frames are keyed, and in Edit Mode.
    """
    found = body_of_rig(thing)
    rate, reads = key_time(scene), dependencies_of(scene, thing)
    first, last = (frame / rate for frame in span_of(scene, reads))
    frames = np.arange(math.floor(first + 1e-4), math.ceil(last - 1e-4) + 1, dtype=np.float64)
    if not FEWEST_FRAMES <= len(frames) <= LONGEST:
        raise SourceError(f'"{thing.name}" is keyed over {len(frames)} frames: too many, or too few for a jump')
    points = evaluated_frames(scene, thing, found.body.bones, frames)
    keys, interpolation = keys_of(thing)
    notes = [f"{NAME} of {found.known}", *filter(None, [found.warning]), *invalid_drivers(reads)]
    track = Track(
        name=f"{thing.name}/{NAME}",
        fps=frame_rate(scene),
        frames=frames,
        positions=found.body.centre_of_mass(points),
        key_frames=None if keys is None else keys / rate,
        interpolation=interpolation,
        source=NAME,
        notes=tuple(notes),
    )
    return marks.with_marks(scene, track)
