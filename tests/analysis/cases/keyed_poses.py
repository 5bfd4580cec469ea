"""Poses as an animator keys them, each held to the next, and the jumps that are read of them."""

import numpy as np
from leapwright.analysis import Limits, Track, World
from leapwright.analysis.events import find_phases

G = 9.80665
"""Standard acceleration, m/s² (3rd CGPM 1901, Resolution 2)."""
FPS = 24.0
KEYS = [(1, 1.0), (8, 0.6), (13, 1.0), (20, 1.41), (27, 1.0), (34, 0.7), (45, 1.0)]
"""Stand, crouch, takeoff, apex, landing, absorbed, stand: ½ g (7/24)² = 0.417 m high, at real time."""

STAND_HELD = [(1, 1.0), (13, 1.0), (20, 1.41), (27, 1.0), (38, 1.0)]
"""A stand, held; apex; the stand again: no crouch, no absorb. ½ g (7/24)² = 0.417 m high, at real time."""


def read(keys, *, step=1, limits=None):
    """Return the jumps of these poses, each held to the next."""
    at, heights = np.array(keys, dtype=float).T
    frames = np.arange(at[0], at[-1] + 1)
    z = heights[np.searchsorted(at, frames, side="right") - 1]
    track = Track("Moss", FPS, frames, np.stack((0 * z, 0 * z, z), 1), key_frames=at, interpolation="constant")
    return list(find_phases(track, World(gravity=G, step=step), limits or Limits()).phases)


def frames_of(phases):
    events = (phases.crouch, phases.takeoff, phases.apex, phases.landing, phases.absorbed)
    return [None if event is None else event.frame for event in events]
