"""Jumps as animators draw them, each mend followed: keys moved, redrawn by the host, and audited again."""

from collections import Counter

import numpy as np
from leapwright.analysis import Audit, Jump, Track, audit_track
from leapwright.analysis.mend import Mend

from tests.analysis.mending.followed import KIND
from tests.truth.drawn import make
from tests.truth.drawn.host import drawn

from .table import lines, say

TRIES = 30
FAMILIES = (
    "poses", "floaty", "snappy", "cartoon", "pace a third", "pace threefold", "breakdowns", "holds drift", "off a box",
)  # fmt: skip
NEAR = 3.0
"""Frames around the new place of the takeoff within which the jump is looked for afterward."""
CHECK = 1
"""Rank from which a new finding is a fault."""


def followed(track: Track, jump: Jump, mend: Mend) -> tuple[str, ...]:
    """Return the findings that a mend leaves or brings and should not, once its keys and those between have been moved.
    """
    keys = np.asarray(track.key_frames, dtype=float)
    moved = placed(keys, mend)
    places = np.column_stack([np.interp(keys, track.frames, axis) for axis in track.positions.T])
    frames = np.arange(moved[0], moved[-1] + 1)
    shown = drawn(moved, places, frames, joined=track.interpolation or "bezier")
    then = Track(track.name, track.fps, frames, shown, key_frames=moved, interpolation=track.interpolation)
    after = near(audit_track(then), dict(mend.frames)["takeoff"])
    if after is None:
        return ("no jump",)
    ranks = {finding.code: finding.rank for finding in jump.findings}
    return tuple(
        f"{finding.code} {'left' if finding.code in KIND[mend.way] else 'new'}"
        for finding in after.findings
        if finding.code in KIND[mend.way] or finding.rank >= max(CHECK, ranks.get(finding.code, -1) + 1)
    )


def placed(keys: np.ndarray, mend: Mend) -> np.ndarray:
    """Tell where keys go: events to the mend's frames, what lies between in proportion, what lies outside along with
    the nearest; on whole frames, each after the one before."""
    old, new = (np.array([frame for _, frame in side]) for side in (mend.was, mend.frames))
    inside = np.interp(keys, old, new)
    along = np.where(keys < old[0], keys + new[0] - old[0], np.where(keys > old[-1], keys + new[-1] - old[-1], inside))
    whole = np.round(along)
    for index in range(1, len(whole)):
        whole[index] = max(whole[index], whole[index - 1] + 1.0)
    return whole


def near(audit: Audit, frame: float) -> Jump | None:
    """Return the jump that takes off there, or close by."""
    there = [jump for jump in audit.jumps if abs(jump.takeoff.frame - frame) <= NEAR]
    return min(there, key=lambda jump: abs(jump.takeoff.frame - frame), default=None)


def faults(family: str, seed: int) -> list[tuple[str, tuple[str, ...]]]:
    """Return each mend of a motion that moves keys: its way, and the findings that it leaves or brings."""
    track = make(family, seed).track
    found = []
    for jump in audit_track(track).jumps:
        named = [mend for mend in jump.mends if mend.keep is not None and mend.moves]
        found += [(mend.way.value, followed(track, jump, mend)) for mend in named]
    return found


def run(*, tries: int | None = None, kinds: str = "") -> dict:
    """Print a row a family and way: mends followed, and how many leave or bring a finding."""
    rows, figures = [], {}
    for family in FAMILIES:
        if kinds not in family:
            continue
        say(f"{family} …")
        seen = [(seed, *one) for seed in range(tries or TRIES) for one in faults(family, seed)]
        for way in sorted({way for _, way, _ in seen}):
            bad = [(seed, fault) for seed, other, fault in seen if other == way and fault]
            count, what = sum(other == way for _, other, _ in seen), Counter(code for _, all_ in bad for code in all_)
            figures[f"{family}, {way}"] = {"followed": count, "faults": bad}
            told = ", ".join(f"{code} {times}" for code, times in what.most_common(3))
            rows.append([f"{family}, {way}", str(count), str(len(bad)), told])
    print("\n".join(lines(("family and way", "followed", "leaves or brings", "what"), rows)))
    return figures
