"""A jump whose position is known at every frame: a body thrown under standard gravity, keyed on every frame.

Crouch 0.3 m under the takeoff, takeoff on frame 21 at 1 m and 3 m/s up, 2 m/s along x, landing at 1 m: by
v t − g t²/2 = 0 after 2 · 3 / 9.80665 = 0.61183 s, 14.684 frames at 24 fps, at a height of 3² / (2 g) = 0.45887 m.
"""

import numpy as np
from leapwright.analysis import Track
from leapwright.analysis.finding import Finding
from leapwright.analysis.jump import measure
from leapwright.analysis.phases import Arc, Event, Phases
from leapwright.analysis.world import STANDARD_GRAVITY, World

FPS, TAKEOFF, UP, ALONG = 24.0, 21.0, 3.0, 2.0
AIRTIME = 2.0 * UP / STANDARD_GRAVITY
RISE = UP**2 / (2.0 * STANDARD_GRAVITY)
PUSH = 0.3
LANDING = TAKEOFF + AIRTIME * FPS


def place(frame):
    """Tell where the body is: it sinks and rises straight, flies, and slides on over level ground."""
    t = (frame - TAKEOFF) / FPS
    if t < 0.0:
        return (0.0, 0.0, 1.0 - PUSH * max(0.0, 1.0 - abs(frame - 15.0) / 6.0))
    if t > AIRTIME:
        return (ALONG * t, 0.0, 1.0)
    return (ALONG * t, 0.0, 1.0 + UP * t - 0.5 * STANDARD_GRAVITY * t * t)


def track(slower=1.0):
    """Return the body's path on whole frames; slower: by how many times as many frames its flight takes."""
    frames = np.arange(1.0, 61.0)
    drawn = np.where(frames > TAKEOFF, TAKEOFF + (frames - TAKEOFF) / slower, frames)
    return Track("Moss", FPS, frames, [place(frame) for frame in drawn], key_frames=frames)


def jump(slower=1.0, crouch=True, findings=()):
    """Return the jump of that path, its events given and not found."""
    apex = TAKEOFF + 0.5 * AIRTIME * FPS * slower
    landing = TAKEOFF + AIRTIME * FPS * slower
    arc = Arc(apex, 1.0 + RISE, STANDARD_GRAVITY / slower**2, 0.0, TAKEOFF + 1, landing - 1, 12, 0.0)
    events = Phases(
        crouch=Event(15.0, 0.0, 1.0 - PUSH) if crouch else None,
        takeoff=Event(TAKEOFF, 0.0, 1.0),
        apex=Event(apex, 0.0, 1.0 + RISE),
        landing=Event(landing, 0.0, 1.0),
        absorbed=None,
        arc=arc,
        method="curve",
        step=1,
        held=False,
    )
    return measure(track(slower), events, World())


FINDING = Finding("arc-broken", "check", (24.0, 28.0), "the arc is broken")
