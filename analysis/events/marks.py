"""Marks by hand: pinned events take the place of found ones, and a jump may be made or denied by hand."""

from dataclasses import replace

import numpy as np

from ..beat import ROUNDING
from ..contacts.arcs import apex_of, arc_between
from ..notes import Note, Said
from ..phases import Arc, Event, Found, Phases, Unpushed
from ..track import EVENTS, Marks, Track

MARK_SECONDS = 0.5
"""Seconds beyond a jump's own events within which its marks may lie (ours)."""


def marked(found: Found, track: Track) -> Found:
    """Apply the track's marks to what was found; what cannot be applied is said in a note."""
    if not track.marks:
        return found
    phases, notes = list(found.phases), list(found.notes)
    for marks in track.marks:
        if marks.no_jump is not None:
            first, last = marks.no_jump
            phases = [p for p in phases if not first <= p.apex.frame <= last]
            continue
        index = _meant(phases, marks, track.fps)
        made = _pinned(phases[index], marks, track) if index is not None else _by_hand(marks, track)
        if isinstance(made, Note):
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
    before, after = MARK_SECONDS * fps * (event in EVENTS[:2]), MARK_SECONDS * fps * (event in EVENTS[-2:])
    return start - before <= frame <= end + after


def _meant(phases: list[Phases], marks: Marks, fps: float) -> int | None:
    """Return the jump that can have all the marks; of several, the one whose own events lie nearest to them."""
    spans = [((p.crouch or p.takeoff).frame, (p.absorbed or p.landing).frame) for p in phases]
    able = [
        i
        for i, span in enumerate(spans)
        if all(reaches(*span, name, frame, fps=fps) for name, frame in marks.pinned.items())
    ]
    return min(able, key=lambda i: _distance(phases[i], marks), default=None)


def _distance(phases: Phases, marks: Marks) -> float:
    """Tell how far the marks lie from the jump's events of the same names, frames in all."""
    stand_in = {"crouch": phases.takeoff, "absorbed": phases.landing}
    return sum(abs(frame - (getattr(phases, name) or stand_in[name]).frame) for name, frame in marks.pinned.items())


def _pinned(phases: Phases, marks: Marks, track: Track) -> Phases | Note:
    """Return the jump with its pinned events in place, the arc fitted anew between the contacts; it is one, then."""
    events = {name: getattr(phases, name) for name in EVENTS}
    events |= {name: _event(track, frame) for name, frame in marks.pinned.items()}
    order = [event.frame for event in events.values() if event is not None]
    if any(b <= a for a, b in zip(order, order[1:], strict=False)) and order[0] != order[1]:
        return Note(Said.MARKS_ORDER, {"marks": _listed(marks)})
    arc = phases.arc
    if arc is not None and ("takeoff" in marks.pinned or "landing" in marks.pinned):
        arc = _arc(track, events["takeoff"], events["landing"])
    if arc is not None and "apex" not in marks.pinned and phases.arc is not None:
        events["apex"] = apex_of(arc, track.fps)
    unpushed = Unpushed.FALL if "crouch" in marks.pinned else phases.unpushed
    return replace(phases, **events, arc=arc, certainty=1.0, unpushed=unpushed)


def _by_hand(marks: Marks, track: Track) -> Phases | Note:
    """Return a jump where none was found, from takeoff and landing at least; its apex is the top between them."""
    missing = [name for name in ("takeoff", "landing") if name not in marks.pinned]
    if missing:
        return Note(Said.MARKS_MISSING, {"marks": _listed(marks), "missing": " and ".join(missing)})
    first, last = float(track.frames[0]), float(track.frames[-1])
    outside = [name for name, frame in marks.pinned.items() if not first <= frame <= last]
    if outside:
        return Note(Said.MARKS_OUTSIDE, {"marks": " and ".join(outside), "first": first, "last": last})
    takeoff, landing = (_event(track, marks.pinned[name]) for name in ("takeoff", "landing"))
    crouch, absorbed = (
        _event(track, marks.pinned[name]) if name in marks.pinned else None for name in ("crouch", "absorbed")
    )
    pinned = "apex" in marks.pinned
    apex = _event(track, marks.pinned["apex"]) if pinned else _top(track, takeoff.frame, landing.frame)
    if apex is None or apex.height <= max(takeoff.height, landing.height):
        return Note(Said.MARKS_LOW, {"apex": takeoff.frame if apex is None else apex.frame})
    arc = _arc(track, takeoff, landing)
    return Phases(crouch, takeoff, apex, landing, absorbed, arc, "keys" if arc is None else "curve")


def _top(track: Track, takeoff: float, landing: float) -> Event | None:
    """Return the highest sample between two frames, known to half of what lies between samples."""
    inside = np.flatnonzero((track.frames > takeoff) & (track.frames < landing))
    if not len(inside):
        return None
    at = int(inside[np.argmax(track.heights[inside])])
    beat = float(np.min(np.diff(track.frames)))
    return Event(float(track.frames[at]), ROUNDING * beat, float(track.heights[at]))


def _arc(track: Track, takeoff: Event, landing: Event) -> Arc | None:
    return arc_between(track.frames, track.heights, takeoff.frame, landing.frame, fps=track.fps)


def _listed(marks: Marks) -> str:
    return ", ".join(f"{name} {frame:g}" for name, frame in marks.pinned.items())


def _event(track: Track, frame: float) -> Event:
    return Event(float(frame), 0.0, float(np.interp(frame, track.frames, track.heights)), pinned=True)
