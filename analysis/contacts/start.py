"""The start of a push as its samples leave it, and how long its end is hidden. Frames and meters, looking back in time.

What a power law is, is known to its samples; of any other push the families know the end better than the beginning, and
its start is averaged over the ways in which forces set in (`onset`).
"""

import math
from dataclasses import replace

import numpy as np

from .bottom import Bottom
from .drive import LEAST_RESIDUAL
from .knot import Knot
from .onset import Seen, evidence
from .side import NOISY, Side

USUAL_FORCE = 3.0
"""Body weights with which a foot is held to push, or to be pushed, at a contact: landings average 2.1 to 2.9 in five
plate records (BMC laboratory), pushes integrated from random forces end with 2.2."""
UNLIKE_START = 0.2
"""Share of a push by which its start is unsure where only its end is known, and it begins in a hold (pushes integrated
from random forces: two in three begin within 0.2 of it, 95 in 100 within 0.3)."""
MISFIT = 1e-3
"""Share of the push distance by which smooth forces lie off what straight stretches make of them (integrated)."""
END_HEIGHT_SHARE, END_SPEED_SHARE = 0.006, 0.03
"""Shares of the push distance and of its mean speed by which height and speed at its end are unsure at least (ours)."""
EARLIER, LATER = 0.6, 0.45
"""Shares of the push by which its start is looked for before and after where the drives have it (ours)."""
LOW_DIP_SHARE = 0.15
"""Share of the push distance over the bottom up to which a dip is looked at: farther up it knows nothing of the start.
"""
HELD_MOVE_SHARE = 1e-6
"""Move from sample to sample, as a share of the push distance, under which an unmeasured hold has not begun to push."""
STIRS, LATE_REST = 0.06, 0.3
"""Shares of the push: within the first, a force that sets in smoothly moves less than HELD_MOVE_SHARE; up to the second
after the start that the drives have a rest may last, since no drive sets in as smoothly as forces do (integrated)."""
STARTS_AT_ONCE, NARROWINGS, FAINT_START_SHARE = 13, 6, 1e-4
"""Number of starts that are tried at once, how often they are drawn closer, and the share of likelihood of a start that
is left out then; finer ones no longer move the result."""


def shows(side: Side, noise: float) -> float:
    """Tell how unsure a contact can be at most: evenly spread between two samples, and over the time τ in which a usual
    force of n body weights takes the body n g τ² / 2 off its arc, past twice the noise.
    """
    falls = -2.0 * side.parabola.c2
    if falls <= 0.0:  # few keys far off their parabola bend it either way
        return math.inf
    return (side.beat + math.sqrt(4.0 * noise / (USUAL_FORCE * falls))) / math.sqrt(12.0)


def start_of(low: Bottom, side: Side, end: Knot, *, noise: float) -> Bottom:
    """Return the start of a push that no power law is, averaged over the ways in which its force may set in.

    low: the bottom as the drives have it, or as seen from the air; end: of the push; noise: meters.
    """
    seen = _seen(side, low, end, noise)
    if len(seen.frames) < 2:
        return low
    push = max(end.frame - low.frame, 1.5 * side.beat)
    least = max(end.frame - (1.0 + EARLIER) * push, float(seen.frames[0]) - 0.5 * side.beat)
    most = min(end.frame - (1.0 - LATER) * push, end.frame - 0.3 * side.beat)
    if noise <= NOISY and (still := _still(side, low.frame, push, HELD_MOVE_SHARE * seen.distance)) is not None:
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
    return replace(low, frame=frame, error=spread, height=float((weights * heights).sum()), along=0.0)


def _seen(side: Side, low: Bottom, end: Knot, noise: float) -> Seen:
    """Return what is seen of a push: from as far before its start as the body lies low, to its end."""
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
    return Seen(
        f[first:last],
        z[first:last],
        math.hypot(noise, MISFIT * distance),
        (end.frame, end.height, end.ground),
        (
            math.hypot(END_HEIGHT_SHARE * distance, 0.5 * force * end.error**2),
            math.hypot(END_SPEED_SHARE * distance / push, force * end.error),
        ),
        distance,
    )


def _still(side: Side, start: float, push: float, least: float) -> tuple[float, float] | None:
    """Return the last sample before the push that lies where the two before it did, to `least` meters, and the next
    one, frames; None where none does near the start.
    """
    f = side.frames
    last = int(f.searchsorted(start + LATE_REST * push))
    moves = np.abs(np.diff(side.heights[:last])) <= least
    rests = np.flatnonzero(moves[1:] & moves[:-1])
    if not len(rests) or f[rests[-1] + 2] < start - LATER * push:
        return None
    at = int(rests[-1]) + 2
    return float(f[at]), float(f[min(at + 1, len(f) - 1)])
