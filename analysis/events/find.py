"""find_phases: all jumps of a track, from its curve where it has one, from its poses where they tell more."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from ..feet import Feet, feet_of
from ..limits import Limits
from ..phases import Event, Found, Phases
from ..track import EVENTS, Track
from ..world import World
from .arcs import FEWEST, apex_of, arc_of
from .ballistic import longest
from .blocking import FEW, jumps_in_poses
from .by_feet import jumps_by_feet
from .curve import BOB, CUT, LOW, Refusal, jumps_on_curve, overlap
from .falls import falls_on_curve
from .marks import marked
from .poses import Poses, poses_of
from .settle import settle, vouched

AGREED = 0.02
"""Frames: what is left to doubt of an event that lies on its key."""
EVEN_HOP = 1.6
"""Smallest hops that a jump must rise where few even poses and no keys tell it: a calf raise looks alike (ours)."""
LISTED = 5
"""Frames that a note names at most."""
SENTENCES = {
    CUT: "left out: flight{s} around frame{s} {frames}, cut off by an end of the track",
    LOW: "left out: flight{s} around frame{s} {frames}, lower than the smallest hop of {hop:g} cm",
    BOB: "left out: rise{s} and fall{s} around frame{s} {frames}, perhaps a bob; a foot or marks by hand would tell",
}


def find_phases(track: Track, world: World, limits: Limits, *, feet: Feet | None = None) -> Found:
    """Find every jump of a track, in order of time.

    Keyed poses win over the curve through them, feet weigh in on the contacts, marks by hand have the last
    word. Raises nothing: a track without a jump gives none, and a note that says so.

    feet: as `feet_of` reads them from the track; read here where they are not given.
    """
    feet = feet_of(track) if feet is None else feet
    poses = poses_of(track)
    found = _blocked(track, poses, world, limits)
    refused: list[Refusal] = []
    if poses.even:
        drawn, refused = jumps_on_curve(poses, track.fps, world.gravity, limits)
        doubtful = [refusal.doubtful for refusal in refused if refusal.doubtful is not None]
        drawn += vouched(doubtful, track, feet, limits.smallest_hop)
        for phases in drawn:
            if not any(overlap(phases, other) for other in found):
                found.append(phases)
        found += jumps_by_feet(track, feet, poses, found, world.gravity, limits)
        found += falls_on_curve(track, poses, world.gravity, limits, found)
    found.sort(key=lambda phases: phases.takeoff.frame)
    notes = (*_repeats(poses), *_notes(refused, found, limits))
    settled = settle(Found(tuple(found), notes), track, feet)
    result = marked(settled, track)
    return result if result.phases else replace(result, notes=("no jump found", *result.notes))


def _notes(refused: list[Refusal], found: list[Phases], limits: Limits) -> tuple[str, ...]:
    """What was seen and not reported, one sentence a reason."""
    notes = []
    for why, sentence in SENTENCES.items():
        frames = [
            round(refusal.frame)
            for refusal in refused
            if refusal.why == why and not any(p.takeoff.frame < refusal.frame < p.landing.frame for p in found)
        ]
        if frames:
            plural = "s" if len(frames) > 1 else ""
            notes.append(sentence.format(s=plural, frames=_listed(frames), hop=limits.smallest_hop * 100))
    return tuple(notes)


def _repeats(poses: Poses) -> tuple[str, ...]:
    """That frames were dropped and filled."""
    frames = poses.repeated
    if not frames:
        return ()
    plural = len(frames) > 1
    what = f"frame{'s' * plural} {_listed(frames)} only repeat{'s' * (not plural)} the one{'s' * plural}"
    return (f"{what} before: taken as dropped, and drawn through",)


def _listed(frames: Sequence[float]) -> str:
    return ", ".join(f"{frame:.10g}" for frame in frames[:LISTED]) + (" …" if len(frames) > LISTED else "")


def _blocked(track: Track, poses: Poses, world: World, limits: Limits) -> list[Phases]:
    if poses.held:
        frames, heights = poses.frames, poses.heights
        step = poses.step if poses.even else max(world.step, 1)
    elif track.key_frames is not None:
        inside = (track.key_frames >= track.frames[0]) & (track.key_frames <= track.frames[-1])
        frames = track.key_frames[inside]
        heights = np.interp(frames, track.frames, track.heights)
        step = max(world.step, 1)
    else:
        return []
    if len(frames) < FEW + 1:
        return []
    if poses.held and poses.even and track.key_frames is None:
        limits = replace(limits, smallest_hop=EVEN_HOP * limits.smallest_hop)
    found = jumps_in_poses(frames, heights, track.fps, world.gravity, limits, step=step, held=poses.held)
    return found if poses.held else [_with_arc(phases, poses, track.fps) for phases in found]


def _with_arc(phases: Phases, poses: Poses, fps: float) -> Phases:
    """The keyed jump as a curve, where the curve drawn between its takeoff and landing is a parabola."""
    f, z = poses.frames, poses.heights
    a = int(np.searchsorted(f, phases.takeoff.frame, side="right"))
    b = int(np.searchsorted(f, phases.landing.frame)) - 1
    if b - a < FEWEST:
        return phases
    stretch = longest(f, z, np.array([a]), np.array([b]), noise=poses.noise, fewest=FEWEST)
    if stretch is None:
        return phases
    arc = arc_of(f, z, phases.takeoff.frame, phases.landing.frame, fps, poses.noise, stretch)
    if abs(arc.apex_frame - phases.apex.frame) > 1:
        return phases
    events = {name: _keyed(getattr(phases, name)) for name in EVENTS}
    if abs(arc.apex_frame - phases.apex.frame) > AGREED:
        events["apex"] = apex_of(arc, fps)  # between two keys
    return replace(phases, arc=arc, method="curve", **events)


def _keyed(event: Event | None) -> Event | None:
    """An event that curve and key agree on is known far better than to the frame."""
    return None if event is None else replace(event, frame_error=AGREED)
