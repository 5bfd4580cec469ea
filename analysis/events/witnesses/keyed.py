"""The keys: an animator keys the poses in which the body leaves the ground and meets it.

Keys that lie at a regular beat say nothing: there one lies everywhere. Breakdowns lie on the arc too, so each key
between bottom and top may be the contact; which one, the others must say. A top between two neighboring keys of one
height is mostly a hold that the curve overshoots; it may be an arc drawn by its handles, and then follows a parabola.
"""

import math

import numpy as np

from ...arrays import Array
from ...cases.case import Case
from ...cases.flank import Flank
from ...contacts.arcs import AGREED
from ...contacts.flights import WORTH
from ..testimony import TRUST, ContactReading, Testimony
from ..weights import nats

ON_THE_LEVEL = 0.5
"""Share of jumps that leave and meet level ground, so that both contacts are keyed at one height (ours)."""
EYE_LEVEL = 0.03
"""Standard deviation of the difference between those heights, as a share of the rise: set by eye (ours)."""


def hear(case: Case) -> Testimony | None:
    """Offer the keyed frames of each side as places of its contact."""
    if case.keys is None or case.posed is not None:
        return None
    there = seen(case)
    up, down = _inside(case.keys, case.rising), _inside(-case.keys[::-1], case.falling)
    weights = _alike(case, up, down)
    takeoff, landing = _readings(up, weights.sum(axis=1)), _readings(-down, weights.sum(axis=0))
    return Testimony(nats(there), takeoff, landing, there)


def seen(case: Case) -> dict[str, float]:
    """Return what there is to see, by the name of its table: two keys of one height hold the top, and there is no
    parabola that their handles could have drawn.
    """
    if case.keys is None or case.posed is not None:
        return {}
    if case.flight is not None and case.flight.reach >= WORTH:
        return {}
    top = case.turn.top
    held = any(rest.keyed and rest.first < top < rest.last for rest in case.course.rests)
    return {"held by keys": 1.0} if held else {}


def _inside(keys: Array, side: Flank) -> Array:
    return keys[(keys > side.samples.frames[0]) & (keys < side.samples.frames[-1])]


def _alike(case: Case, up: Array, down: Array) -> Array:
    """Return how likely each pair of keys is the contacts, (m, n), but for a factor: on level ground, one height."""
    rising, falling = case.rising.samples, case.falling.samples
    rise = rising.top - max(rising.bottom, falling.bottom)
    off = np.interp(up, rising.frames, rising.heights)[:, None] - np.interp(down, falling.frames, falling.heights)
    spread = EYE_LEVEL * rise
    normal = np.exp(-0.5 * (off / spread) ** 2) / (spread * math.sqrt(2.0 * math.pi))
    return ON_THE_LEVEL * normal + (1.0 - ON_THE_LEVEL) / rise


def _readings(frames: Array, weights: Array) -> tuple[ContactReading, ...]:
    if not weights.any():  # the other side has no key to be compared with
        weights = np.ones(len(frames))
    pairs = zip(frames.tolist(), (TRUST * weights / weights.sum()).tolist(), strict=True)
    return tuple(ContactReading(frame, AGREED, share) for frame, share in pairs)
