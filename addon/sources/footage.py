"""A marker followed in a movie clip: where it is in the picture, in meters by a known length.

y of the picture is up, x of it is along; what the picture does not show, depth, is nothing.
"""

import bpy
from bpy.types import MovieClip, PropertyGroup, Scene

from ...analysis.errors import SourceError
from ...analysis.track import Track
from ..footage.marker import sample_marker
from ..footage.settings import own_rate, scale_of
from ..source import Among, Source


def poll(clip: MovieClip, marker: str = "") -> bool:
    """Say whether the clip has a marker of this name that is followed over some frames."""
    tracks = getattr(getattr(clip, "tracking", None), "tracks", None)
    return tracks is not None and marker in tracks and len(tracks[marker].markers) > 1


def sample(scene: Scene, clip: MovieClip, marker: str = "") -> Track:
    """Read the marker's path. Raises SourceError when it cannot be had, or no length is known."""
    return sample_marker(scene, clip, marker, scale_of(scene), own_rate=own_rate(scene))


def choose(scene: Scene) -> tuple[MovieClip, str]:
    """Return the clip and the marker chosen under Footage. Raises SourceError with what to do when none is."""
    said = scene.leapwright_footage
    if said.clip is None:
        raise SourceError("Choose a movie clip under Footage")
    if not said.marker:
        raise SourceError("Choose a marker under Footage")
    return said.clip, said.marker


def check(_clip: MovieClip, _marker: str) -> None:
    """Ask nothing: nothing keys a marker, and nothing has to."""


def has(clip: MovieClip, marker: str) -> bool:
    """Say whether the clip still has the marker."""
    return marker in clip.tracking.tracks


def among(_scene: Scene) -> Among[MovieClip]:
    """Return the clips of the file."""
    return bpy.data.movieclips


def told(scene: Scene, _clip: MovieClip) -> tuple[PropertyGroup]:
    """Return the settings of the scene's footage."""
    return (scene.leapwright_footage,)


SOURCE = Source(
    "Footage", "TRACKER", poll, sample, fields=(), choose=choose, check=check, has=has, among=among, told=told,
    in_space=False,
)  # fmt: skip
