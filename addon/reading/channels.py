"""Where the three location channels of an object or a pose bone get their values from, and when.

A channel is read from the curve that has the last word over it: the active action's, else that of the
topmost NLA clip. Frames are those of the timeline before time remapping; values are in Blender units of
the curve's own space.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

import numpy as np
from bpy.types import ID, AnimData, FCurve, NlaStrip

from ...analysis.arrays import Array
from .. import host
from .curves import Keys, read_keys

AXES = "XYZ"
Curves = dict[str, list[FCurve]]


@dataclass(frozen=True, slots=True)
class Clock:
    """Timeline frames to an action's own: action = offset + slope × timeline, within first to last."""

    offset: float = 0.0
    slope: float = 1.0
    first: float = -np.inf
    last: float = np.inf

    def to_action(self, frames: Array) -> Array:
        """Turn timeline frames into the action's frames."""
        return frames if self is REAL else self.offset + self.slope * np.clip(frames, self.first, self.last)

    def to_timeline(self, frames: Array) -> Array:
        """Turn the action's frames, rising, into timeline frames, rising, without those that never play."""
        if self is REAL:
            return frames
        played = np.sort((frames - self.offset) / self.slope)
        return played[(played >= self.first - 1e-6) & (played <= self.last + 1e-6)]


REAL = Clock()
"""An action that plays by itself: its frames are the timeline's."""


@dataclass(frozen=True, slots=True, eq=False)
class Channel:
    """One curve, its keys and the clock it runs by."""

    curve: FCurve
    clock: Clock
    shape: Keys

    def asked(self, frames: Array) -> tuple[FCurve, Keys, Array]:
        """Return what `curves.values_of` takes to read it at timeline frames."""
        return self.curve, self.shape, self.clock.to_action(frames)

    def keys(self) -> tuple[bytes, bytes]:
        """Return (k,) timeline frames of the keys that play, and (k,) interpolation numbers, as bytes."""
        frames, (_, kinds) = self.shape.frames, self.shape.times
        return self.clock.to_timeline(frames).tobytes(), kinds

    def span(self) -> tuple[float, float]:
        """Return the first and last timeline frame of the curve's keys, or of its baked samples."""
        ends = self.shape.ends or self.curve.range()
        if self.clock is REAL:
            return min(ends), max(ends)
        first, last = sorted((end - self.clock.offset) / self.clock.slope for end in ends)
        return max(first, self.clock.first), min(last, self.clock.last)

    def is_flat(self) -> bool:
        """Say whether the curve holds one value throughout, so that it is there but moves nothing."""
        return self.shape.is_flat and bool(len(self.shape.kinds)) and not len(self.curve.modifiers)


@dataclass(frozen=True, slots=True)
class Channels:
    """The channels x, y, z of one location; None for one that no curve moves. notes: what was left out."""

    axes: tuple[Channel | None, Channel | None, Channel | None]
    notes: tuple[str, ...] = ()

    @property
    def moving(self) -> list[Channel]:
        """Those whose curve changes."""
        return [channel for channel in self.axes if channel is not None and not channel.is_flat()]

    def __iter__(self) -> Iterator[Channel]:
        return iter([channel for channel in self.axes if channel is not None])


STILL = Channels((None, None, None))
"""Those of a location that nothing moves."""


class Motion:
    """Every curve that moves one object and its bones, by data path. Lives for one reading only."""

    def __init__(self, owner: ID) -> None:
        data: AnimData | None = getattr(owner, "animation_data", None)
        self._mixed = False
        self._own: Curves = {}
        self._clips: list[tuple[NlaStrip, Curves]] = []
        self._drivers: Curves = {}
        if data is None:
            return
        self._drivers = _by_path(data.drivers)
        layered = data.use_nla and len(data.nla_tracks) > 0
        if layered:
            self._clips = [(clip, _by_path(host.curves_of(clip))) for clip in host.clips_of(data)]
        solo = layered and any(track.is_solo for track in data.nla_tracks)
        if not data.use_tweak_mode and not solo:
            self._own = _by_path(host.curves_of(data))
        self._mixed = bool(self._clips) and (data.action_blend_type != "REPLACE" or data.action_influence < 1.0)

    def __iter__(self) -> Iterator[str]:
        """Return data paths of all curves, each once, in the order of the action and then of the clips."""
        return iter(dict.fromkeys(path for curves in self._layers() for path in curves))

    def moves(self, path: str) -> bool:
        """Say whether a curve changes anything at this data path, or a driver sets it."""
        if any(not curve.mute for curve in self._drivers.get(path, ())):
            return True
        found = (curve for curves in self._layers() for curve in curves.get(path, ()))
        return any(not _channel(curve).is_flat() for curve in found if not host.is_silent(curve))

    def channels(self, path: str) -> Channels:
        """Find what moves the three channels at this data path."""
        if path not in self._own and not self._clips and path not in self._drivers:
            return STILL
        axes: list[Channel | None] = [None, None, None]
        for axis, curve in _heard(self._own, path).items():
            axes[axis] = _channel(curve)
        notes: list[str] = []
        if self._mixed and any(axes):
            notes.append("read from its action alone, without the NLA strips it is mixed with")
        used: list[NlaStrip] = []
        open_axes = [axis for axis in range(3) if axes[axis] is None]
        for clip, curves in self._clips:
            heard = _heard(curves, path)
            if not heard.keys().isdisjoint(open_axes):
                used.append(clip)
            for axis in open_axes:
                if axis in heard and axes[axis] is None:
                    axes[axis] = _channel(heard[axis], _clock(clip))
        notes.extend(_left_out(used))
        driven = [curve for curve in self._drivers.get(path, ()) if not curve.mute]
        if driven:
            names = ", ".join(AXES[curve.array_index] for curve in driven)
            notes.append(f"read without the driver of its location {names}")
        x, y, z = axes
        return Channels((x, y, z), tuple(notes))

    def _layers(self) -> list[Curves]:
        return [self._own, *(curves for _, curves in self._clips)]


def _channel(curve: FCurve, clock: Clock = REAL) -> Channel:
    return Channel(curve, clock, read_keys(curve))


def _by_path(curves: Iterable[FCurve]) -> Curves:
    found: Curves = {}
    for curve in curves:
        found.setdefault(curve.data_path, []).append(curve)
    return found


def _heard(curves: Curves, path: str) -> dict[int, FCurve]:
    return {curve.array_index: curve for curve in curves.get(path, ()) if not host.is_silent(curve)}


def _clock(strip: NlaStrip) -> Clock:
    slope = 1.0 / (strip.scale or 1.0)
    start = strip.frame_start
    last = min(strip.frame_end, start + (strip.action_frame_end - strip.action_frame_start) / slope)
    if strip.use_reverse:
        return Clock(strip.action_frame_end + start * slope, -slope, start, last)
    return Clock(strip.action_frame_start - start * slope, slope, start, last)


def _left_out(clips: list[NlaStrip]) -> Iterator[str]:
    """Say in what the topmost clip, read alone, is not what Blender plays."""
    if not clips:
        return
    top, *others = clips
    if others:
        names = ", ".join(f'"{clip.name}"' for clip in others)
        yield f'read from the NLA strip "{top.name}" alone, without {names}'
    elif top.blend_type not in ("REPLACE", "ADD", "COMBINE"):
        yield f'read as if the NLA strip "{top.name}" replaced what lies under it'
    one_pass = (top.action_frame_end - top.action_frame_start) * top.scale
    if top.repeat != 1.0 or top.frame_end - top.frame_start > one_pass + 1e-3:
        yield f'read once through the NLA strip "{top.name}", without its repeats'
    if top.use_animated_influence or top.blend_in or top.blend_out:
        yield f'read with the NLA strip "{top.name}" at full influence, without its fades'
    if top.use_animated_time or len(top.modifiers):
        yield f'read without the strip time and modifiers of the NLA strip "{top.name}"'
