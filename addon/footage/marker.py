"""A marker followed in a movie clip as a Track: pixels become meters by a known length.

Meters, z up in the picture, x along it, y (depth) nothing. Frames are those at which the scene shows the clip.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

import numpy as np
from bpy.types import MovieClip, MovieTrackingTrack, Scene

from ...analysis.arrays import Array
from ...analysis.cases.ground import FOOTAGE
from ...analysis.errors import SourceError
from ...analysis.track import FEWEST_FRAMES, Track
from ..scene import frame_rate

MARKER = "marker:"
"""What `--track` begins with to name a marker."""
SHORT_GAP = 3
"""Longest gap in a marker's track that is drawn through, by a cubic, in frames (ours)."""
LENGTH_CHANGE_SHARE = 0.03
"""Most that a known length may change in the picture before a note says so, as a share of it (ours)."""
PROJECTION = (
    "read from footage, a projection: what goes toward the camera or away from it does not show, the lens is not "
    "corrected, and up in the picture is taken for up"
)
FILMED_CAUTION = "of people who are filmed it says what to draw: not for training, medical or safety decisions"


@dataclass(frozen=True, slots=True)
class FootageScale:
    """A known length, meters: between two markers of the clip, or over so many pixels."""

    length: float
    between: tuple[str, str] | None = None
    pixels: float | None = None


def sample_marker(scene: Scene, clip: MovieClip, marker: str, scale: FootageScale, *, own_rate: bool = True) -> Track:
    """Read a marker's path. own_rate: at the frames per second of the clip, where it has its own; else the scene's.

    A gap of up to SHORT_GAP frames is drawn through, of longer ones the longest stretch between them is taken;
    notes say so. Raises SourceError for a marker that is not there or too short, a clip whose size is not known,
    and a known length that is nothing.
    """
    if not all(clip.size):
        raise SourceError(f'the clip "{clip.name}" is missing ({clip.filepath}), and its size is not known')
    frames, pixels = _path(clip, _track_named(clip, marker))
    if len(frames) < FEWEST_FRAMES:
        raise SourceError(f'the marker "{marker}" is followed over {len(frames)} frames only: {FEWEST_FRAMES} at least')
    meter, notes = _meters_a_pixel(clip, scale)
    frames, pixels, gaps = _without_gaps(marker, frames, pixels)
    rate = clip.fps if own_rate and clip.fps > 0.0 else frame_rate(scene)
    places = pixels * meter
    return Track(
        name=f"{clip.name}/{marker}",
        fps=rate,
        frames=frames + clip.frame_start - 1,
        positions=np.stack((places[:, 0], np.zeros(len(places)), places[:, 1]), axis=1),
        source=FOOTAGE,
        notes=(PROJECTION, FILMED_CAUTION, *notes, *gaps),
    )


def clip_and_marker(clips: Iterable[MovieClip], name: str) -> tuple[MovieClip, str]:
    """Find what `--track marker:NAME` means: NAME is a marker's, or CLIP/MARKER.

    Raises SourceError when no clip has it, or several do.
    """
    clips = tuple(clips)
    if not clips:
        raise SourceError(f'the file has no movie clip, so no marker "{name}"')
    found = [
        (clip, marker)
        for clip in clips
        for marker in dict.fromkeys((name, name.removeprefix(f"{clip.name}/")))
        if any(track.name == marker for track in _tracks(clip))
    ]
    if not found:
        have = ", ".join(f'"{clip.name}/{track.name}"' for clip in clips for track in _tracks(clip)) or "none"
        raise SourceError(f'no movie clip has a marker "{name}"; the markers are: {have}')
    if len(found) > 1:
        choices = ", ".join(f'"{MARKER}{clip.name}/{marker}"' for clip, marker in found)
        raise SourceError(f'"{MARKER}{name}" could be {choices}: name one of them')
    return found[0]


def _tracks(clip: MovieClip) -> Iterator[MovieTrackingTrack]:
    for tracked in clip.tracking.objects:
        yield from tracked.tracks


def _track_named(clip: MovieClip, marker: str) -> MovieTrackingTrack:
    found = next((track for track in _tracks(clip) if track.name == marker), None)
    if found is None:
        raise SourceError(f'the clip "{clip.name}" has no marker "{marker}"')
    return found


def _path(clip: MovieClip, track: MovieTrackingTrack) -> tuple[Array, Array]:
    """Return frames (n,) of the clip and pixels (n, 2) from its lower left corner; where the marker is off, nothing."""
    seen = [(marker.frame, *marker.co) for marker in track.markers if not marker.mute]
    table = np.array(sorted(seen), dtype=np.float64).reshape(-1, 3)
    square = np.array([clip.size[0] * clip.tracking.camera.pixel_aspect, clip.size[1]])
    return table[:, 0], table[:, 1:] * square


def _meters_a_pixel(clip: MovieClip, scale: FootageScale) -> tuple[float, tuple[str, ...]]:
    if not scale.length > 0.0:
        raise SourceError("the known length is nothing: type how long it is")
    if scale.between is None:
        if not scale.pixels or scale.pixels <= 0.0:
            raise SourceError("the known length takes up no pixels: type how many, or choose two markers")
        return scale.length / scale.pixels, (f"{scale.length:.3g} m taken for {scale.pixels:.4g} pixels",)
    (f1, p1), (f2, p2) = (_path(clip, _track_named(clip, name)) for name in scale.between)
    both, i, j = np.intersect1d(f1, f2, return_indices=True)
    names = '" and "'.join(scale.between)
    if not len(both):
        raise SourceError(f'"{names}" are never in the picture at once: the length between them is not known')
    apart = np.linalg.norm(p1[i] - p2[j], axis=1)
    size = float(np.median(apart))
    if size <= 0.0:
        raise SourceError(f'"{names}" lie at one place: the length between them is nothing')
    notes = [f'{scale.length:.3g} m from "{scale.between[0]}" to "{scale.between[1]}" taken for {size:.4g} pixels']
    spread = float(np.ptp(apart)) / size
    if spread > LENGTH_CHANGE_SHARE:
        notes.append(
            f"that length changes by {spread:.0%} in the picture: the camera, or what is measured, moves in depth"
        )
    return scale.length / size, tuple(notes)


def _without_gaps(
    marker: str, frames: Array, pixels: Array
) -> tuple[Array, Array, tuple[str, ...]]:
    """Return the path on every frame of its longest stretch: short gaps drawn through, long ones its ends."""
    notes = []
    cuts = np.flatnonzero(np.diff(frames) > SHORT_GAP + 1)
    if len(cuts):
        first, last = max(
            zip((0, *(cuts + 1)), (*cuts, len(frames) - 1), strict=True), key=lambda part: part[1] - part[0]
        )
        lost = ", ".join(f"{frames[cut] + 1:g} to {frames[cut + 1] - 1:g}" for cut in cuts)
        notes.append(
            f'the marker "{marker}" is lost over frames {lost} of the clip: frames {frames[first]:g} to '
            f"{frames[last]:g}, its longest stretch, are read"
        )
        frames, pixels = frames[first : last + 1], pixels[first : last + 1]
        if len(frames) < FEWEST_FRAMES:
            raise SourceError(f'the marker "{marker}" is lost too often: no {FEWEST_FRAMES} frames of it hang together')
    every = np.arange(frames[0], frames[-1] + 1)
    missing = np.setdiff1d(every, frames)
    if len(missing):
        filled = np.stack([_cubic(frames, column, missing) for column in pixels.T], axis=1)
        order = np.argsort(np.concatenate((frames, missing)))
        pixels = np.concatenate((pixels, filled))[order]
        notes.append(f"{len(missing)} frames without the marker are drawn through: {_listed(missing)} of the clip")
    return every, pixels, tuple(notes)


def _cubic(frames: Array, values: Array, at: Array) -> Array:
    """Lagrange's cubic through the two samples on either side, as many as there are."""
    found = []
    for frame in at:
        after = int(np.searchsorted(frames, frame))
        near = slice(max(after - 2, 0), after + 2)
        f, v = frames[near], values[near]
        weights = [np.prod([(frame - other) / (own - other) for other in f if other != own]) for own in f]
        found.append(float(np.dot(weights, v)))
    return np.array(found)


def _listed(frames: Array) -> str:
    return ", ".join(f"{frame:g}" for frame in frames[:6]) + (" …" if len(frames) > 6 else "")
