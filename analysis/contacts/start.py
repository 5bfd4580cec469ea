"""The start of a push as its samples leave it, and how sharply its force ends. Frames and meters, looking back in time.

What a power law is, is known to its samples; of any other push the families know the end better than the beginning:
out of a hold smooth forces set in as slowly as they like.
"""

import math
from dataclasses import replace

import numpy as np

from .bottom import Bottom
from .side import MOST, NOISY, Side

USUAL_FORCE, MOST_GROWN = 2.2, 1.5
"""Body weights at the end of a push, with which that is as unsure as `Side.unlike` says (calibrated on pushes
integrated from random forces, of push ratios from 0.5 to 4); and the most times the mean that it is taken for (ours).
"""
SHARPEST = 0.7
"""What a force of any strength leaves of it: a strong one lets go, and sets in, over time as well (hops out of a run:
`python -m tests.bench drawn`)."""
SLOW_START = 4e-3
"""Share of a push by which its start is unsure however many samples it has: it begins at rest (calibrated on seeded
jumps)."""
UNLIKE_START = 0.2
"""The same where no power law is the push and it begins in a hold that drifts, or flows on from a dip (pushes
integrated from random forces: two in three begin within 0.2 of it, 95 in 100 within 0.3)."""
SETS_IN, SMOOTH_START = (0.1, 0.55), 0.07
"""Share of a measured push by which it begins before its samples show it, and by which that is unsure. Smooth forces
need so much, and so many cube roots of noise over push distance: one that sets in evenly moves the body as the cube of
time, and no farther than the noise until then (pushes integrated from random forces)."""
DWELLS_MOST = 2.0
"""Shape past which a drawn push that dwells counts as a body that creeps first (ours; pushes were integrated up to
1.9). Up to it its start is unsure by k² times as much: it sets in more slowly."""
STILL = 2e-6
"""Move from sample to sample, as a share of the push distance, under which an unmeasured hold has not begun to push."""
STIRS = (0.3, 0.04)
"""How unsure the start after such a hold is: samples, and share of the push, in which a force that sets in smoothly
moves less than STILL (integrated likewise)."""
ABOUT = 0.1
"""Samples by which a start may lie beside what they allow, and still be the drives' (ours)."""
MOST_OF_PUSH = 0.3
"""Share of a push that its start is unsure by at most, where few samples let a fit say anything (ours)."""


def force_at_end(side: Side, low: Bottom, end: float) -> float:
    """Tell the body weights at the end of a push, of the flight's gravity.

    The net force averages t / T body weights, with t the time of the rise and T of the push; a power law of shape k has
    2 k - 1 times that at its end.
    """
    falls = -2.0 * side.parabola.c2
    rise_time = max(side.parabola.speed(end), 0.0) / falls if falls > 0.0 else 0.0
    grows = min(max(2.0 * _shape(side, low, end) - 1.0, 0.0), MOST_GROWN)
    return 1.0 + grows * rise_time / max(end - low.frame, 1e-6)


def sharpness(force: float) -> float:
    """Tell how unsure the end of a push of so many body weights is against one of USUAL_FORCE: what is left of a
    stronger force shows sooner.
    """
    return max(USUAL_FORCE / force, SHARPEST)


def shows(side: Side, force: float, noise: float) -> float:
    """Tell how unsure a contact can be at most: evenly spread between two samples, and over the time τ in which a force
    of n body weights takes the body n g τ² / 2 off its arc, past twice the noise.
    """
    falls = -2.0 * side.parabola.c2
    if falls <= 0.0:  # few keys far off their parabola bend it either way
        return math.inf
    return (side.beat + math.sqrt(4.0 * noise / (force * falls))) / math.sqrt(12.0)


def from_rest(low: Bottom, end: float) -> Bottom:
    """Return the start of a push that a power law is, up to `end`."""
    return replace(low, error=math.hypot(low.error, SLOW_START * (end - low.frame)))


def start_of(low: Bottom, foot: Bottom, side: Side, end: float, *, noise: float) -> Bottom:
    """Return the start of a push that no power law is.

    low: as the drives have it, with the error of their fit; foot: as seen from the first sample in the air; end: of the
    push.
    """
    push, rise = end - low.frame, side.parabola.height(end) - low.height
    error = min(low.error, MOST * side.beat, MOST_OF_PUSH * push)
    if not foot.held:
        # A bottom that is turned through has a vertex, which needs no shape of the push.
        error = math.hypot(error, UNLIKE_START * push)
        return replace(foot, height=low.height) if foot.error < error else replace(low, error=error)
    if noise > NOISY:
        unseen = min(noise / max(rise, noise), 1.0) ** (1.0 / 3.0)
        frame = low.frame - (SETS_IN[0] + SETS_IN[1] * unseen) * push
        return replace(low, frame=frame, error=math.hypot(error, SMOOTH_START * push))
    dwells = min(max(_shape(side, low, end), 1.0), DWELLS_MOST) ** 2
    still = _still(side, foot, STILL * rise)
    if still is None or still < low.frame - MOST_OF_PUSH * push - side.beat:
        return replace(low, error=math.hypot(error, UNLIKE_START * push))
    # A start that the samples rule out is that of a force that sets in so smoothly that no drive has it; a rest that is
    # farther off is another one, of a body that creeps.
    slack, smooth = ABOUT * side.beat, still + 0.5 * side.beat - STIRS[1] * push
    frame = low.frame if still - slack <= low.frame <= still + side.beat + slack else smooth
    return replace(low, frame=frame, error=math.hypot(STIRS[0] * side.beat, STIRS[1] * dwells * push), along=0.0)


def _still(side: Side, foot: Bottom, least: float) -> float | None:
    """Return the frame of the last sample before the push that lies where the two before it did, to `least` meters;
    None where none does.
    """
    last = int(np.searchsorted(side.frames, foot.frame + 1e-9))
    moves = np.abs(np.diff(side.heights[:last])) <= least
    rests = np.flatnonzero(moves[1:] & moves[:-1])
    return float(side.frames[rests[-1] + 2]) if len(rests) else None


def _shape(side: Side, low: Bottom, end: float) -> float:
    """Return the shape k = v T / (2 d) of the push."""
    rise = max(side.parabola.height(end) - low.height, 1e-6)
    return side.parabola.speed(end) * (end - low.frame) / (2.0 * rise)
