"""The center of mass of an armature, from the segments of the body its bones stand for."""

import math

import numpy as np
from bpy.types import Context, Object, Scene

from ...analysis.arrays import Array
from ...analysis.errors import SourceError
from ...analysis.track import FEWEST_FRAMES, Followed, Track
from ..marks import marks
from ..mass.keyed_frames import transform_keys
from ..mass.rig import body_of_rig
from ..reading.dependencies import dependencies_of, invalid_drivers, span_of
from ..reading.evaluated import evaluated_frames
from ..reading.sampling import MOST_FRAMES_READ
from ..rigs import is_rig
from ..scene import frame_rate, key_time, unit_scale, upright
from ..source import Source

TRACK_NAME, FORMER_TRACK_NAME = "center of mass", "centre of mass"
"""What its track is called after its armature, and what earlier files and calls call it."""


def poll(thing: Object, _bone: str = "") -> bool:
    """Say whether the armature has a body, and is not in Edit Mode."""
    if not is_rig(thing) or thing.mode == "EDIT":
        return False
    try:
        body_of_rig(thing)
    except SourceError:
        return False
    return True


def sample(scene: Scene, thing: Object, _bone: str = "") -> Track:
    """Read the path of the center of mass over the frames in which the armature, or what moves it, is keyed.

    Raises SourceError when the armature has no body, when too few frames are keyed, and in Edit Mode.
    """
    found = body_of_rig(thing)
    rate, reads = key_time(scene), dependencies_of(scene, thing)
    first, last = (frame / rate for frame in span_of(scene, reads))
    frames = np.arange(math.floor(first + 1e-4), math.ceil(last - 1e-4) + 1, dtype=np.float64)
    if not FEWEST_FRAMES <= len(frames) <= MOST_FRAMES_READ:
        raise SourceError(f'"{thing.name}" is keyed over {len(frames)} frames: too many, or too few for a jump')
    points = evaluated_frames(scene, thing, found.body.bones, frames)
    keys, interpolation = transform_keys(thing)
    notes = [f"{TRACK_NAME} of {found.known}", *filter(None, [found.warning]), *invalid_drivers(reads)]
    track = Track(
        name=name(thing),
        fps=frame_rate(scene),
        frames=frames,
        positions=found.body.center_of_mass(points),
        key_frames=None if keys is None else keys / rate,
        interpolation=interpolation,
        source=TRACK_NAME,
        follows=Followed.CENTER_OF_MASS,
        notes=tuple(notes),
    )
    return marks.with_marks(scene, track)


def place_now(context: Context, thing: Object, _bone: str = "") -> Array:
    """Return the (3,) center of mass in the world on this frame, Blender units, of a rig that need not be keyed yet."""
    found, scene = body_of_rig(thing), context.scene
    points = evaluated_frames(scene, thing, found.body.bones, [scene.frame_current + scene.frame_subframe])
    return upright(scene).T @ found.body.center_of_mass(points)[0] / unit_scale(scene)


def name(thing: Object, _bone: str = "") -> str:
    """Name it as its track is named."""
    return f"{thing.name}/{TRACK_NAME}"


def check(thing: Object, _bone: str = "") -> None:
    """Raise SourceError with what to do where nothing can move it."""
    if thing.animation_data is None and thing.parent is None and not thing.constraints:
        raise SourceError(f'Key the bones of "{thing.name}" first')


SOURCE = Source(
    "Center of Mass", "PIVOT_MEDIAN", poll, sample, name=name, check=check, place_now=place_now, is_weighed=True,
    saved_name="centre_of_mass",
)  # fmt: skip
