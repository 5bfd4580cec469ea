"""The five events of a rise and fall, once its contacts are known."""

import math
from dataclasses import replace
from itertools import repeat

import numpy as np

from ..beat import ROUNDING
from ..cases.blocking import BY_EYE, Posed
from ..cases.case import Case
from ..cases.flank import Flank
from ..cases.ground import is_ground
from ..contacts.arcs import AGREED, apex_of, arc_between, is_followed
from ..contacts.bottom import HOLD_DRIFT_SHARE, Bottom, bottom
from ..contacts.knot import Knot
from ..contacts.side import NOISY, Contact
from ..contacts.start import UNLIKE_START
from ..notes import Note, Said
from ..phases import Arc, Event, Phases, Unpushed
from ..track import Followed
from .testimony import SAME_CONTACT_ERRORS, ContactReading

ARC_HOLDS_SHARE = 0.03
"""Largest residual of a flight's arc, as a share of its height, for the arc to say where the apex is; past it, all that
lies this close under the top counts as the apex (ours)."""
LIMB_TIME_SHARE = 0.052
"""Share of the time from a contact to the apex by which it is unsure, where hips stand for the body: limbs that swing
carry them by about a tenth of the jump's height (calibrated on drawn hips whose limbs swing, nine of ten contacts of
which then lie within what is said: `python -m tests.bench drawn`)."""
FEWEST_AIR_FRAMES = 2.0
"""Frames under which a flight is one sample that sticks out (ours)."""
POSED = 1 / 12
"""Seconds from a crouch within which the key at the bottom of the way up poses it: two frames of film (ours)."""


def built(case: Case, takeoff: ContactReading | None, landing: ContactReading | None) -> Phases | None:
    """Put the events together; None where a contact is not on the track, or they do not rise in time."""
    phases = _put_together(case, takeoff, landing)
    if phases is None or not _is_on_ground(case, phases):
        return phases
    return replace(phases, crouch=None, absorbed=None, unpushed=Unpushed.ON_GROUND)


def _is_on_ground(case: Case, phases: Phases) -> bool:
    """Tell whether a point of a body lies on the ground before it leaves: no crouch is so deep."""
    left = is_ground(phases.takeoff.height, phases.apex.height)
    return left and case.rising.is_grounded and case.follows is Followed.BODY


def _put_together(case: Case, takeoff: ContactReading | None, landing: ContactReading | None) -> Phases | None:
    if takeoff is None or landing is None:
        return None
    if case.posed is not None:
        return posed_phases(case, case.posed, takeoff, landing)
    poses = case.poses
    f, z = poses.frames, poses.heights
    if not f[case.turn.before] <= takeoff.frame < landing.frame <= f[case.turn.after]:
        return None
    if landing.frame - takeoff.frame < FEWEST_AIR_FRAMES:
        return None
    arc = arc_between(f, z, takeoff.frame, landing.frame, fps=case.fps, noise=poses.noise)
    kept = arc if arc is not None and is_followed(arc, noise=poses.noise, fps=case.fps, loose=ARC_HOLDS_SHARE) else None
    apex = _top(case, takeoff, landing) if kept is None else apex_of(kept, case.fps)
    if not takeoff.frame < apex.frame < landing.frame:
        return None
    own = case.flight
    start, end = (_placed(case, _swung(case, one, apex), kept) for one in (takeoff, landing))
    before = _bottom(case, case.rising, start, own.takeoff if own else None, sign=1.0)
    after = _bottom(case, case.falling, end, own.landing if own else None, sign=-1.0)
    before = before and _on_key(case, before, start)
    # A contact known to a frame or so may lie beyond a bottom as near to it.
    before = None if before is not None and before.frame >= start.frame else before
    after = None if after is not None and -after.frame <= end.frame else after
    cut = before is not None and before.cut
    return Phases(
        crouch=None if before is None or cut else before.event,
        takeoff=start,
        apex=apex,
        landing=end,
        absorbed=None if after is None or after.cut else after.backward.event,
        arc=arc,
        method="curve",
        step=poses.step,
        held=poses.held,
        notes=(Note(Said.PUSH_CUT),) if cut else (),
    )


def posed_phases(case: Case, posed: Posed, takeoff: ContactReading, landing: ContactReading) -> Phases:
    """Return the events on their keys: as a curve, where the one drawn between takeoff and landing is a parabola."""
    poses = case.poses
    off, on = _nearest(posed.takeoffs, takeoff.frame), _nearest(posed.landings, landing.frame)
    arc = None if poses.held else _drawn_arc(case, posed, off, on)
    error = ROUNDING * case.step if arc is None else AGREED
    told = [posed.crouch, off, posed.apex, on, posed.absorbed]
    heights = np.interp(told, poses.frames, poses.heights).tolist()
    event = dict(zip(told, map(Event, told, repeat(error), heights), strict=True))
    between_keys = arc is not None and abs(arc.apex_frame - posed.apex) > AGREED
    return Phases(
        crouch=event[posed.crouch] if posed.crouch < off else None,
        takeoff=event[off],
        apex=apex_of(arc, case.fps) if arc is not None and between_keys else event[posed.apex],
        landing=event[on],
        absorbed=event[posed.absorbed] if posed.absorbed > on else None,
        arc=arc,
        method="keys" if arc is None else "curve",
        step=case.step,
        held=poses.held,
        unpushed=Unpushed.FALL if posed.crouch < off else Unpushed.STAND,
    )


def _nearest(keys: tuple[tuple[float, float], ...], to: float) -> float:
    """Return the frame of the key that lies nearest to a frame."""
    return keys[0][0] if len(keys) == 1 else min(keys, key=lambda key: abs(key[0] - to))[0]


def _drawn_arc(case: Case, posed: Posed, takeoff: float, landing: float) -> Arc | None:
    """Return the parabola that the curve drawn between two keys is; None where it is none, or its top another one."""
    poses = case.poses
    arc = arc_between(poses.frames, poses.heights, takeoff, landing, fps=case.fps, noise=poses.noise)
    if arc is None or not is_followed(arc, noise=poses.noise, fps=case.fps):
        return None
    return arc if abs(arc.apex_frame - posed.apex) <= 1 else None


def _top(case: Case, takeoff: ContactReading, landing: ContactReading) -> Event:
    """Return the apex of a flight that leaves its arc: the middle of what is as high as the top."""
    f, z = case.poses.frames, case.poses.heights
    top = float(z[case.turn.top])
    level = top - ARC_HOLDS_SHARE * (top - float(np.interp(takeoff.frame, f, z)))
    high = f[(f > takeoff.frame) & (f < landing.frame) & (z >= level)]
    first, last = (high[0], high[-1]) if len(high) else (f[case.turn.top],) * 2
    return Event(float(first + last) / 2, ROUNDING * (float(last - first) + case.poses.beat), top)


def _swung(case: Case, contact: ContactReading, apex: Event) -> ContactReading:
    """Add what limbs may do to a contact: nothing to one that was drawn, posed, or is a parabola's end."""
    if case.follows is not Followed.BODY or contact.error <= AGREED or case.poses.held or _is_ballistic(case):
        return contact
    return contact._replace(error=math.hypot(contact.error, LIMB_TIME_SHARE * abs(apex.frame - contact.frame)))


def _is_ballistic(case: Case) -> bool:
    """Tell whether the point keeps to a parabola, closely or up to contacts at its ends: no limbs move the hips."""
    flight = case.flight
    if flight is None or flight.loose or flight.poses.by_hand:
        return False
    ends = (flight.takeoff, flight.landing)
    return flight.is_drawn or all(end is not None and not end.is_lost(flight.poses.beat) for end in ends)


def _placed(case: Case, contact: ContactReading, arc: Arc | None) -> Event:
    """Return a contact at its height: the arc's where the flight keeps to it, else the curve's."""
    if arc is not None:
        height = float(arc.heights(contact.frame, case.fps))
    else:
        height = float(np.interp(contact.frame, case.poses.frames, case.poses.heights))
    return Event(contact.frame, contact.error, height)


def _bottom(case: Case, side: Flank, contact: Event, own: Contact | None, *, sign: float) -> Bottom | None:
    """Return the bottom beyond a contact, time reversed for a landing; the flight's own where the contact still is."""
    frame = sign * contact.frame
    if own is not None and own.bottom is not None and abs(own.frame - frame) <= SAME_CONTACT_ERRORS * own.error:
        return own.bottom
    f, z = case.poses.frames, case.poses.heights
    if sign < 0:
        f, z = -f[::-1], z[::-1]
    i = int(np.clip(f.searchsorted(frame), 1, len(f) - 1))
    speeds = np.diff(z[max(i - 2, 0) : i + 1]) / np.diff(f[max(i - 2, 0) : i + 1])
    knot = Knot(frame, contact.frame_error, contact.height, float(speeds[-1]), max(float(speeds.max()), 1e-9))
    found = bottom(f, z, knot, noise=case.poses.noise, fps=case.fps)
    if found is None:
        return None
    return _widened(replace(found, error=max(found.error, min(contact.frame_error, 1.0))), frame)


def _on_key(case: Case, found: Bottom, takeoff: Event) -> Bottom:
    """Return the crouch on the key that poses it, where an animator keyed poses: the last one at the bottom of the way
    up, as near as the reading can tell.
    """
    if case.keys is None or case.poses.noise > NOISY or found.cut:
        return found
    f, z, low = case.poses.frames, case.poses.heights, case.turn.before
    keys = case.keys[(case.keys >= f[low] - 1.0) & (case.keys < takeoff.frame)]
    heights = np.interp(keys, f, z)
    rise = takeoff.height - z[low]
    if not len(keys) or heights.min() > z[low] + BY_EYE * rise:
        return found
    last = int(np.flatnonzero(heights <= heights.min() + HOLD_DRIFT_SHARE * rise)[-1])
    frame, height = float(keys[last]), float(heights[last])
    if abs(frame - found.frame) > max(2.0 * found.error, POSED * case.fps):
        return found
    return replace(found, frame=frame, error=ROUNDING * case.step, height=height, along=0.0)


def _widened(found: Bottom, contact: float) -> Bottom:
    """Return the bottom of a push whose shape is not known exactly: from a hold it may set in as slowly as it likes."""
    if not found.held:
        return found
    return replace(found, error=math.hypot(found.error, UNLIKE_START * (contact - found.frame)))
