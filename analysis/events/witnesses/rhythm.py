"""The rhythm: low rises and falls that come one after the other, alike and in step, are strides, not jumps.

A runner flies at each of them, if only by a few centimeters. Which of a run's strides is meant as a jump no height
tells: only one that stands out of them is one, or one whose feet are seen to leave the ground.
"""

from ...cases.case import Case
from ..testimony import Testimony
from ..weights import nats

MOST_STRIDE_RISE = 2.6
"""Most rise of a stride, in smallest hops: 13 cm of a person, whose steps raise the center of mass by 4 to 13 cm
(from memory)."""
FEWEST_STRIDES = 4
"""Fewest strides in a row that make a rhythm: two steps of each foot (ours)."""
STRIDE_SPREAD = 0.3
"""Share by which strides, and the times between them, may differ from each other (ours)."""


def hear(case: Case) -> Testimony | None:
    """Say that the case is one stride of many."""
    there = seen(case)
    return Testimony(nats(there), seen=there) if there else None


def seen(case: Case) -> dict[str, float]:
    """Return what there is to see, by the name of its table."""
    return (
        {"strides": 1.0}
        if _rise(case, case.index) <= MOST_STRIDE_RISE * case.limits.smallest_hop and _in_step(case)
        else {}
    )


def _in_step(case: Case) -> bool:
    """Tell whether enough turns beside it, itself among them, are as high and as far apart as it is."""
    f, turns, me = case.poses.frames, case.course.turns, case.index
    count = 1
    for way in (-1, 1):
        i, beat = me, 0.0
        while 0 <= i + way < len(turns) and _alike(_rise(case, i + way), _rise(case, me)):
            gap = abs(float(f[turns[i + way].top] - f[turns[i].top]))
            if beat and not _alike(gap, beat):
                break
            i, beat, count = i + way, gap, count + 1
    return count >= FEWEST_STRIDES


def _rise(case: Case, index: int) -> float:
    """Return the meters that a turn stands out by."""
    z, turn = case.poses.heights, case.course.turns[index]
    return float(z[turn.top] - max(z[turn.before], z[turn.after]))


def _alike(one: float, other: float) -> bool:
    return abs(one - other) <= STRIDE_SPREAD * max(one, other)
