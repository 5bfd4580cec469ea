"""A marker followed in a movie clip: where it is in the picture, in metres by a known length.

y of the picture is up, x of it is along; what the picture does not show, depth, is nothing.
"""

from bpy.types import MovieClip, Scene

from ...analysis.track import Track
from ..footage.marker import sample_marker
from ..footage.settings import own_rate, scale_of

LABEL = "Footage"
ICON = "TRACKER"


def poll(clip: MovieClip, marker: str = "") -> bool:
    """Say whether the clip has a marker of this name that is followed over some frames."""
    tracks = getattr(getattr(clip, "tracking", None), "tracks", None)
    return tracks is not None and marker in tracks and len(tracks[marker].markers) > 1


def sample(scene: Scene, clip: MovieClip, marker: str = "") -> Track:
    """Read the marker's path. Raises SourceError when it cannot be had, or no length is known."""
    return sample_marker(scene, clip, marker, scale_of(scene), own_rate=own_rate(scene))
