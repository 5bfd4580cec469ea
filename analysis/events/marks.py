"""Marks by hand: pinned events take the place of found ones, and a jump may be made or denied by hand."""

from dataclasses import replace

import numpy as np

from ..phases import Event, Found, Phases
from ..track import EVENTS, Marks, Track
from .arcs import apex_of, arc_between

NEAR = 0.5
"""Seconds beyond a jump's own events within which its marks may lie."""


def marked(found: Found, track: Track) -> Found:
    """Apply the track's marks to what was found; what cannot be applied is said in a note."""
    phases, notes = list(found.phases), list(found.notes)
    for marks in track.marks:
        if marks.no_jump is not None:
            first, last = marks.no_jump
            phases = [p for p in phases if not first <= p.apex.frame <= last]
            continue
        index = _meant(phases, marks, track.fps)
        made = _pinned(phases[index], marks, track) if index is not None else _by_hand(marks, track)
        if isinstance(made, str):
            notes.append(made)
        elif index is None:
            phases.append(made)
        else:
            phases[index] = made
    phases.sort(key=lambda p: p.takeoff.frame)
    return Found(tuple(phases), tuple(notes))


def reaches(start: float, end: float, event: str, frame: float, *, fps: float) -> bool:
    """Tell whether an event of this name at this frame can be one of the jump that lasts from start to end.

    Within the jump any event can; outside only the first two next to its start, and the last two next to its end.
    """
    before, after = NEAR * fps * (event in EVENTS[:2]), NEAR * fps * (event in EVENTS[-2:])
    return start - before <= frame <= end + after


def _meant(phases: list[Phases], marks: Marks, fps: float) -> int | None:
    """The jump that can have all the marks; of several, the one whose own events lie nearest to them."""
    spans = [((p.crouch or p.takeoff).frame, (p.absorbed or p.landing).frame) for p in phases]
    able = [
        i
        for i, span in enumerate(spans)
        if all(reaches(*span, name, frame, fps=fps) for name, frame in marks.pinned.items())
    ]
    return min(able, key=lambda i: _distance(phases[i], marks), default=None)


def _distance(phases: Phases, marks: Marks) -> float:
    """How far the marks lie from the jump's events of the same names, frames in all."""
    stand_in = {"crouch": phases.takeoff, "absorbed": phases.landing}
    return sum(
        abs(frame - (getattr(phases, name) or stand_in[name]).frame) for name, frame in marks.pinned.items()
    )


def _pinned(phases: Phases, marks: Marks, track: Track) -> Phases | str:
    """The jump with its pinned events in place, the arc fitted anew between the contacts."""
    events = {name: getattr(phases, name) for name in EVENTS}
    events |= {name: _event(track, frame) for name, frame in marks.pinned.items()}
    order = [event.frame for event in events.values() if event is not None]
    if any(b <= a for a, b in zip(order, order[1:], strict=False)) and order[0] != order[1]:
        listed = ", ".join(f"{name} {frame:g}" for name, frame in marks.pinned.items())
        return f"marks were left out: with {listed} pinned the events of the jump would not rise in time"
    arc = phases.arc
    if arc is not None and ("takeoff" in marks.pinned or "landing" in marks.pinned):
        arc = arc_between(track, events["takeoff"].frame, events["landing"].frame)
    if arc is not None and "apex" not in marks.pinned:
        events["apex"] = apex_of(arc, track.fps)
    return replace(phases, **events, arc=arc)


def _by_hand(marks: Marks, track: Track) -> Phases | str:
    """A jump where none was found, from takeoff, apex and landing at least."""
    missing = [name for name in ("takeoff", "apex", "landing") if name not in marks.pinned]
    if missing:
        listed = ", ".join(f"{name} {frame:g}" for name, frame in marks.pinned.items())
        return f"no jump was found at the marks {listed}; to make one, pin {' and '.join(missing)} too"
    first, last = track.frames[0], track.frames[-1]
    outside = [name for name, frame in marks.pinned.items() if not first <= frame <= last]
    if outside:
        return f"marks were left out: {' and '.join(outside)} lies outside frames {first:g} to {last:g}"
    events = {name: _event(track, marks.pinned[name]) if name in marks.pinned else None for name in EVENTS}
    if events["apex"].height <= max(events["takeoff"].height, events["landing"].height):
        return f"marks were left out: the apex at {marks.apex:g} is not above its takeoff and landing"
    arc = arc_between(track, marks.takeoff, marks.landing)
    return Phases(**events, arc=arc, method="keys" if arc is None else "curve")


def _event(track: Track, frame: float) -> Event:
    return Event(float(frame), 0.0, float(np.interp(frame, track.frames, track.heights)), pinned=True)
