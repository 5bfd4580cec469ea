"""Let the feet settle what a root alone cannot tell: takeoff and landing, and whether there is a jump at all.

They weigh in on a jump that has an arc, and vouch for one that may be a bob; what has none is `by_feet`'s.
"""

import math
from collections.abc import Sequence
from dataclasses import replace

from ..feet import Feet, Gap
from ..phases import Arc, Event, Found, Phases
from ..track import Track

VOUCHED = 0.75
"""Share of a doubtful flight that lies in a gap between the feet's contacts, and of the gap in the flight, for
the feet to vouch for it (ours)."""
AGREE = 2.0
"""Standard errors, and frames, within which an arc and the feet mean the same contact."""
IN_THE_AIR = 0.2
"""Share of a flight that the feet must be off the ground, for it to be one (ours)."""
STRETCH = 1.25
"""Times its height over its feet at takeoff that a body on tiptoe may have at most: more, and the feet do not
belong to it (ours)."""


def settle(found: Found, track: Track, feet: Feet | None) -> Found:
    """Weigh takeoffs and landings with the feet's, and drop what never leaves the ground, with a note.

    Without feet, or where they never stand, nothing changes; nor do events pinned by hand.
    """
    if feet is None or not found.phases:
        return found
    kept, notes = [], [*found.notes]
    for phases in found.phases:
        gap = _gap(feet, phases)
        if gap is not None and _shared(phases, gap) >= IN_THE_AIR:
            kept.append(_settled(phases, gap, track.fps))
        elif _pinned(phases) or not _known(feet, phases) or not _reaches(track, phases):
            kept.append(phases)
        else:
            first, last = round(phases.takeoff.frame), round(phases.landing.frame)
            notes.append(f"a foot stays on the ground from frame {first} to {last}: no jump")
    return Found(tuple(kept), tuple(notes))


def vouched(doubtful: Sequence[Phases], track: Track, feet: Feet | None, smallest_hop: float) -> list[Phases]:
    """Return the rises and falls that are flights by the feet: off the ground for as long, at the same time.

    smallest_hop: metres that they must rise from where the feet leave the ground.
    """
    if feet is None or not doubtful:
        return []
    kept: list[Phases] = []
    for phases in doubtful:
        gap = _gap(feet, phases)
        if gap is None or gap.takeoff is None or gap.landing is None:
            continue
        shared = _shared(phases, gap)
        whole = shared * (phases.landing.frame - phases.takeoff.frame) / (gap.landing - gap.takeoff)
        rise = phases.apex.height - _settled(phases, gap, track.fps).takeoff.height
        if min(shared, whole) >= VOUCHED and rise >= smallest_hop:
            kept.append(phases)
    return kept


def _known(feet: Feet, phases: Phases) -> bool:
    return feet.knows(phases.takeoff.frame, phases.landing.frame)


def _gap(feet: Feet, phases: Phases) -> Gap | None:
    """A flight's gap between the feet's contacts, as its poses are drawn."""
    return feet.gap_over(phases.takeoff.frame, phases.landing.frame, step=phases.step, held=phases.held)


def _shared(phases: Phases, gap: Gap) -> float:
    """Share of the flight that lies in the gap."""
    return gap.shared(phases.takeoff.frame, phases.landing.frame) / (phases.landing.frame - phases.takeoff.frame)


def _settled(phases: Phases, gap: Gap, fps: float) -> Phases:
    if phases.arc is None or phases.method != "curve":
        return phases
    return replace(
        phases,
        takeoff=_weighed(phases.takeoff, gap.takeoff, gap.takeoff_error, phases.arc, fps),
        landing=_weighed(phases.landing, gap.landing, gap.landing_error, phases.arc, fps),
    )


def _weighed(event: Event, foot: float | None, error: float, arc: Arc, fps: float) -> Event:
    """The mean of both, each weighted by 1 / error² (the least variance of unbiased means), where they agree."""
    if foot is None or event.pinned or not event.frame_error:
        return event
    if abs(foot - event.frame) > min(AGREE, AGREE * math.hypot(error, event.frame_error)):
        return event
    weight = event.frame_error**2 / (event.frame_error**2 + error**2)
    frame = event.frame + weight * (foot - event.frame)
    was, now = arc.heights([event.frame, frame], fps)
    return replace(
        event,
        frame=frame,
        frame_error=event.frame_error * math.sqrt(1.0 - weight),
        height=event.height + float(now - was),
    )


def _pinned(phases: Phases) -> bool:
    return any(event.pinned for event in (phases.takeoff, phases.apex, phases.landing))


def _reaches(track: Track, phases: Phases) -> bool:
    """Whether the body at its apex can still have a foot where the feet are."""
    low = track.feet[:, :, 2].min(axis=1)
    at = [int(abs(track.frames - event.frame).argmin()) for event in (phases.takeoff, phases.apex)]
    takeoff, apex = (track.heights[i] - low[i] for i in at)
    return apex <= STRETCH * takeoff
