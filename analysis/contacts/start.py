"""The start of a push as its samples leave it, and how long its end is hidden. Frames and meters, looking back in time.

What a power law is, is known to its samples; of any other push the families know the end better than the beginning:
out of a hold smooth forces set in as slowly as they like.
"""

import math
from dataclasses import replace

import numpy as np

from .bottom import Bottom
from .side import MOST, NOISY, Side

USUAL_FORCE = 3.0
"""Body weights with which a foot is held to push, or to be pushed, at a contact: landings average 2.1 to 2.9 in five
plate records (BMC laboratory), pushes integrated from random forces end with 2.2."""
UNLIKE_START = 0.2
"""Share of a push by which its start is unsure where no power law is the push and it begins in a hold that drifts, or
flows on from a dip (pushes integrated from random forces: two in three begin within 0.2 of it, 95 in 100 within 0.3).
"""
SETS_IN, SMOOTH_START = (0.1, 0.55), 0.07
"""Share of a measured push by which it begins before its samples show it, and by which that is unsure. Smooth forces
need so much, and so many cube roots of noise over push distance: one that sets in evenly moves the body as the cube of
time, and no farther than the noise until then (pushes integrated from random forces)."""
STILL = 2e-6
"""Move from sample to sample, as a share of the push distance, under which an unmeasured hold has not begun to push."""
STIRS = (0.3, 0.04)
"""How unsure the start after such a hold is: samples, and share of the push, in which a force that sets in smoothly
moves less than STILL (integrated likewise)."""
MOST_OF_PUSH = 0.3
"""Share of a push that its start is unsure by at most, where few samples let a fit say anything (ours)."""


def shows(side: Side, noise: float) -> float:
    """Tell how unsure a contact can be at most: evenly spread between two samples, and over the time τ in which a usual
    force of n body weights takes the body n g τ² / 2 off its arc, past twice the noise.
    """
    falls = -2.0 * side.parabola.c2
    if falls <= 0.0:  # few keys far off their parabola bend it either way
        return math.inf
    return (side.beat + math.sqrt(4.0 * noise / (USUAL_FORCE * falls))) / math.sqrt(12.0)


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
    still = _still(side, foot, STILL * rise)
    if still is None or still < low.frame - MOST_OF_PUSH * push - side.beat:
        return replace(low, error=math.hypot(error, UNLIKE_START * push))
    # A start that the samples rule out is that of a force that sets in so smoothly that no drive has it; a rest that is
    # farther off is another one, of a body that creeps.
    smooth = still + 0.5 * side.beat - STIRS[1] * push
    slack = STIRS[0] * side.beat
    frame = low.frame if still - slack <= low.frame <= still + side.beat + slack else smooth
    return replace(low, frame=frame, error=math.hypot(STIRS[0] * side.beat, STIRS[1] * push), along=0.0)


def _still(side: Side, foot: Bottom, least: float) -> float | None:
    """Return the frame of the last sample before the push that lies where the two before it did, to `least` meters;
    None where none does.
    """
    last = int(np.searchsorted(side.frames, foot.frame + 1e-9))
    moves = np.abs(np.diff(side.heights[:last])) <= least
    rests = np.flatnonzero(moves[1:] & moves[:-1])
    return float(side.frames[rests[-1] + 2]) if len(rests) else None
