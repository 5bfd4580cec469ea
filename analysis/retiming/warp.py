"""Warp: a track as it would run after its keys are moved by a TimeMap. Frames and meters."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from ..arrays import Array
from ..jump import Jump
from ..time_map import TimeMap
from ..track import Marks, Track

LAYS = ("none", "rounded", "all")
"""Which keys in the air are laid onto the arc: none, those that whole frames move out of proportion, all."""
WARP_DEGREE = 3
"""Degree of the polynomial through the samples around a moment: Blender's curves are cubics between keys."""
JUST = 1e-6
"""Frames within which two times are one: what arithmetic leaves."""


@dataclass(frozen=True, slots=True)
class Air:
    """The flight whose keys are laid: new frames and heights (meters) of its ends, and how it bends.

    rise   meters that the parabola stands above the line between the ends, at its middle; None: the drawn
           path is kept instead
    """

    takeoff: float
    landing: float
    start: float
    end: float
    rise: float | None

    def inside(self, frames: Array) -> Array:
        """(n,) whether new frames lie strictly within the flight."""
        return (frames > self.takeoff + JUST) & (frames < self.landing - JUST)

    def heights(self, frames: Array) -> Array:
        """(n,) meters of the parabola at new frames."""
        u = (frames - self.takeoff) / (self.landing - self.takeoff)
        return self.start + (self.end - self.start) * u + 4.0 * (self.rise or 0.0) * u * (1.0 - u)


def air_of(jump: Jump, time_map: TimeMap, *, lay: str) -> Air | None:
    """Return the flight of a jump as its keys are to be laid; None when no values change.

    The parabola keeps the heights of takeoff and landing and, since g T² is kept, its own.
    """
    if lay == "none":
        return None
    # The keys of takeoff and landing stay out of it, a fraction of a frame off the events as they may lie.
    new = np.asarray(time_map.new)
    wanted = time_map.at([jump.takeoff.frame, jump.landing.frame]).tolist()
    takeoff, landing = (float(new[np.abs(new - frame).argmin()]) for frame in wanted)
    rise = None
    if lay == "all" and jump.flight.gravity:
        rise = jump.flight.gravity.value * (jump.flight.airtime.value / jump.fps) ** 2 / 8.0
    return Air(takeoff, landing, jump.takeoff.height, jump.landing.height, rise)


def warp(track: Track, time_map: TimeMap, *, air: Air | None = None) -> Track:
    """Return the track with its time warped, one sample a frame; keys land as they would in the scene.

    Between keys the path is read by the polynomial through the four samples around, never across a key or an
    anchor, where curves may have corners; stepped poses are held. air: the flight whose keys are laid.
    Raises RetimeError where stepped poses would never be seen.
    """
    if time_map.is_identity and (air is None or air.rise is None):
        return track
    keys, old, new = _knots(track, time_map, air)
    first, last = time_map.at(track.frames[[0, -1]])
    frames = np.arange(np.ceil(first - JUST), np.floor(last + JUST) + 1.0)
    asked = np.clip(np.interp(frames, new, old), track.frames[0], track.frames[-1])
    if track.interpolation == "constant":
        positions = _held(track, track.positions, asked)
        feet = None if track.feet is None else _held(track, track.feet, asked)
        if air is not None:
            posed = frames if keys is None else keys[np.searchsorted(keys, frames + JUST, side="right") - 1]
            inside = air.inside(posed)
            positions[inside] = laid(track, time_map, air, posed[inside])
    else:
        positions = _read(track.frames, track.positions, asked, old)
        feet = None if track.feet is None else _read(track.frames, track.feet, asked, old)
        if air is not None and air.rise is not None:
            inside = air.inside(frames)
            positions[inside, 2] = air.heights(frames[inside])
    return replace(
        track, frames=frames, positions=positions, feet=feet, key_frames=keys,
        marks=moved_marks(track.marks, time_map),
    )  # fmt: skip


def laid(track: Track, time_map: TimeMap, air: Air, frames: Array) -> Array:
    """Return world positions (n, 3) of poses at new frames in the air: on the drawn path, or at the parabola's
    heights.
    """
    nodes, values = track.frames, track.positions
    if track.interpolation == "constant" and track.key_frames is not None:
        # A stepped track is known at its poses only; the path runs through them.
        at = np.searchsorted(nodes, track.key_frames + JUST, side="right") - 1
        at = np.unique(at[(at >= 0) & (at < len(nodes))])
        nodes, values = nodes[at], values[at]
    ends = time_map.back([air.takeoff, air.landing])  # where the path has corners
    positions = _read(nodes, values, time_map.back(frames), np.array([nodes[0], *ends, nodes[-1]]))
    if air.rise is not None:
        positions[:, 2] = air.heights(frames)
    return positions


def _knots(track: Track, time_map: TimeMap, air: Air | None) -> tuple[Array | None, Array, Array]:
    """Return the new key frames, and where the warp bends: old and new frames of ends, anchors and poses."""
    old = np.concatenate((track.frames[[0, -1]], time_map.old))
    new = np.concatenate((time_map.at(track.frames[[0, -1]]), time_map.new))
    keys = track.key_frames
    if keys is not None and len(keys):
        held = np.full(len(keys), track.interpolation == "constant")
        run = time_map.runs(keys, np.zeros(len(keys)), held)
        time_map.check_room(keys[held])
        placed = time_map.at(keys)
        placed[~run] = time_map.place(keys[~run])
        # Poses laid back onto the path do not bend it.
        bends = np.ones(len(keys), bool) if air is None or held.any() else ~air.inside(placed)
        old, new, keys = np.append(old, keys[bends]), np.append(new, placed[bends]), placed
    old, first = np.unique(old, return_index=True)
    return keys, old, new[first]


def _held(track: Track, values: Array, frames: Array) -> Array:
    """Return values of a stepped track: those of the sample before."""
    return values[np.maximum(np.searchsorted(track.frames, frames + JUST, side="right") - 1, 0)].copy()


def _read(own: Array, values: Array, frames: Array, knots: Array) -> Array:
    """Return values (n, …) at any frames, of samples at their own frames, not reaching across a knot."""
    knots = np.unique(knots)
    stretch = np.clip(np.searchsorted(knots, frames - JUST, side="left") - 1, 0, len(knots) - 2)
    low = np.searchsorted(own, knots[stretch] - JUST)
    high = np.searchsorted(own, knots[stretch + 1] + JUST, side="right") - 1
    degree = np.clip(high - low, 1, WARP_DEGREE)
    start = np.searchsorted(own, frames, side="right") - 1 - degree // 2
    start = np.clip(start, low, np.maximum(high - degree, low))
    start = np.clip(start, 0, len(own) - 1 - degree)
    nodes = np.minimum(start[:, None] + np.arange(WARP_DEGREE + 1), len(own) - 1)
    return np.einsum("nk,nk...->n...", _weights(own[nodes], frames, degree), values[nodes])


def _weights(nodes: Array, frames: Array, degree: Array) -> Array:
    """(n, 4) Lagrange weights of the first degree + 1 nodes of each row."""
    used = np.arange(WARP_DEGREE + 1) <= degree[:, None]
    weights = used.astype(np.float64)
    for i in range(WARP_DEGREE + 1):
        for j in range(WARP_DEGREE + 1):
            if i != j:
                both = used[:, i] & used[:, j]
                gap = np.where(both, nodes[:, i] - nodes[:, j], 1.0)
                weights[:, i] *= np.where(both, (frames - nodes[:, j]) / gap, 1.0)
    return weights


def moved_marks(marks: Iterable[Marks], time_map: TimeMap) -> tuple[Marks, ...]:
    """Return marks by hand, gone along with the keys."""

    def at(frame: float) -> float:
        return float(time_map.at([frame])[0])

    return tuple(
        Marks(no_jump=(at(mark.no_jump[0]), at(mark.no_jump[1])))
        if mark.no_jump is not None
        else replace(mark, **dict[str, Any]({name: at(frame) for name, frame in mark.pinned.items()}))
        for mark in marks
    )
