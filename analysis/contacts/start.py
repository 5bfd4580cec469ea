"""Where a push starts, and how unsure its end can be at most. Frames and meters, seen back in time from a takeoff.

Where the samples follow a power law, that law gives the start. Of any other push the families of `drive` tell the end
better than the beginning, so we average its start over the ways in which forces set in (`onset`).
"""

import math
from dataclasses import replace

import numpy as np

from .bottom import Bottom
from .drive import LEAST_RESIDUAL
from .knot import Knot
from .onset import Seen, evidence
from .side import NOISY, Side
from .start_errors import factor

USUAL_FORCE = 3.0
"""Ground force that we expect at a contact, in body weights: landings average 2.1 to 2.9 in five plate records (BMC
laboratory), and pushes integrated from random forces end with 2.2."""
UNLIKE_START = 0.2
"""Standard error of the start of a push that begins in a hold, where only its end is known, as a share of the push
(pushes integrated from random forces: two in three begin within 0.2 of it, 95 in 100 within 0.3)."""
MISFIT = 1e-3
"""How far a path under a smooth force lies off that under straight stretches of force (`onset.KNOTS`), as a share of
the push distance (both integrated); so far its height and its speed at the end are unsure at least."""
RISE_MISFIT, LEAST_MISFIT, MOST_MISFIT = 0.2, 1e-5, 2e-3
"""How far a sample lies off so: a share of what it has risen, between the least and the most share of the push distance
(integrated: half or twice the first and the last widen the intervals of a start by a tenth at most, of the second by a
fifth). In a hold that creeps it is no less than MISFIT: what moves it is none of our forces."""
APART = 5.0
"""How many samples of a push are off independently of each other; more of them tell no more (integrated: without it, 84
in 100 starts lie within two errors at 60 frames a second, not 89)."""
EARLIER, LATER = (1.0, 0.6), 0.45
"""How far before and after the start that the drives give we look for the start, as shares of the push. The first: of a
drawn curve, whose force may set in as slowly as a reach. The second: of a measured one, where noise hides so slow an
onset, and what comes before would be believed without a sample that speaks for it (least intervals, integrated)."""
LOW_DIP_SHARE = 0.15
"""Height over the bottom up to which we look at the dip, as a share of the push distance: samples farther up tell
nothing of the start."""
HELD_MOVE_SHARE = 1e-6
"""Move from sample to sample, as a share of the push distance, below which the body still holds, on a track that nobody
measured (no noise)."""
STIRS, LATE_REST = 0.06, 0.3
"""Shares of the push. During the first, a force that sets in smoothly moves the body by less than HELD_MOVE_SHARE. A
rest may last until the second after the start that the drives give, since forces set in more smoothly than any drive
(integrated)."""
STARTS_AT_ONCE, NARROWINGS, FAINT_START_SHARE = 13, 6, 1e-4
"""How many starts we try at once, how often at most we narrow them, and the share of the likelihood below which we
leave an outer start out then. Three narrowings do as well as six; half or twice the share moves a start by a fifth of
its error. More starts at once tell a force better that sets in at once under little noise, and take as much longer."""


def shows(side: Side, noise: float) -> float:
    """Return the largest standard error of a contact, frames: it lies anywhere between two samples, or within the time
    τ that the ground needs to move the body off its arc by twice the noise: n g τ² / 2, with n = USUAL_FORCE.
    """
    falls = -2.0 * side.parabola.c2
    if falls <= 0.0:  # few keys far off their parabola bend it either way
        return math.inf
    return (side.beat + math.sqrt(4.0 * noise / (USUAL_FORCE * falls))) / math.sqrt(12.0)


def start_of(low: Bottom, side: Side, end: Knot, *, noise: float) -> Bottom:
    """Return the start of a push that follows no power law, averaged over the ways in which its force may set in.

    low: the bottom as the drives give it, or as seen from the air; end: of the push; noise: meters.
    """
    push = max(end.frame - low.frame, 1.5 * side.beat)
    least = HELD_MOVE_SHARE * max(end.height - low.height, 0.0)
    still = None if noise > NOISY else _still(side, low.frame, push, least)
    seen = _seen(side, low, end, noise, MISFIT if low.held and still is None else LEAST_MISFIT)
    if len(seen.frames) < 2:
        return low
    least = max(end.frame - (1.0 + EARLIER[noise > NOISY]) * push, float(seen.frames[0]) - 0.5 * side.beat)
    most = min(end.frame - (1.0 - LATER) * push, end.frame - 0.3 * side.beat)
    if still is not None:
        least, most = max(least, still[0] - STIRS * push), min(most, still[1])
    if most <= least:
        return low
    for _ in range(NARROWINGS):
        starts = np.linspace(least, most, STARTS_AT_ONCE)
        likely, heights = evidence(seen, starts)
        weights = np.exp(likely - likely.max())
        weights /= weights.sum()
        told = weights.sum(axis=0)
        kept = np.flatnonzero(told > FAINT_START_SHARE)
        first, last = max(int(kept[0]) - 1, 0), min(int(kept[-1]) + 1, STARTS_AT_ONCE - 1)
        if last - first > STARTS_AT_ONCE // 2:
            break
        least, most = float(starts[first]), float(starts[last])
    frame = float(told @ starts)
    spread = math.sqrt(float(told @ (starts - frame) ** 2) + (starts[1] - starts[0]) ** 2 / 12.0)
    spread *= factor(float(weights[-1].sum()), noise / seen.distance)
    return replace(low, frame=frame, error=spread, height=float((weights * heights).sum()), along=0.0)


def _seen(side: Side, low: Bottom, end: Knot, noise: float, misfit: float) -> Seen:
    """Return what is seen of a push, to its end, from the first sample of the low stretch before its start.

    misfit: least one of a sample, as a share of the push distance.
    """
    f, z = side.frames, side.heights
    last = int(f.searchsorted(end.frame))
    c = min(max(int(f.searchsorted(low.frame)), 0), max(last - 1, 0))
    bottom = float(z[max(c - 2, 0) : min(c + 3, last)].min(initial=low.height))
    distance = max(end.height - bottom, 4.0 * noise, LEAST_RESIDUAL)
    push = max(end.frame - low.frame, 1.5 * side.beat)
    high, early = bottom + LOW_DIP_SHARE * distance + 3.0 * noise, f[c] - push if last else 0.0
    first = c
    while first > 0 and z[first - 1] < high and f[first] > early:
        first -= 1
    force = -2.0 * USUAL_FORCE * side.parabola.c2
    alike = RISE_MISFIT * math.sqrt(max(push / (side.beat * APART), 1.0))
    return Seen(
        f[first:last],
        z[first:last],
        np.hypot(noise, np.clip(alike * (z[first:last] - bottom), misfit * distance, MOST_MISFIT * distance)),
        (end.frame, end.height, end.ground),
        (
            math.hypot(MISFIT * distance, 0.5 * force * end.error**2),
            math.hypot(MISFIT * distance / push, force * end.error),
        ),
        distance,
    )


def _still(side: Side, start: float, push: float, least: float) -> tuple[float, float] | None:
    """Return two frames: of the last sample before the push that lies within `least` meters of the two before it, and
    of the sample after it. None where there is no such sample near the start.
    """
    f = side.frames
    last = int(f.searchsorted(start + LATE_REST * push))
    moves = np.abs(np.diff(side.heights[:last])) <= least
    rests = np.flatnonzero(moves[1:] & moves[:-1])
    if not len(rests) or f[rests[-1] + 2] < start - LATER * push:
        return None
    at = int(rests[-1]) + 2
    return float(f[at]), float(f[min(at + 1, len(f) - 1)])
