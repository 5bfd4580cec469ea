"""Keyed jumps retimed as told, redrawn by the host and audited again: what is left, and what is new."""

from dataclasses import dataclass, field

import numpy as np
from leapwright.analysis import Audit, Jump, RetimeError, Track, audit_track
from leapwright.analysis.retiming.aim import KEEPS, Aim
from leapwright.analysis.retiming.retime import retime

from tests.truth.drawn import make
from tests.truth.drawn.host import drawn

from .table import lines, say

TRIES = 30
FAMILIES = ("poses", "floaty", "snappy", "cartoon", "pace a third", "pace threefold", "breakdowns")
PUSH = frozenset({"push-long", "push-short", "push-speed"})
AIR = frozenset({"air-floaty", "air-snappy"})
CHECK = 1
"""Rank from which a new finding is harm."""


@dataclass
class Followed:
    """Counts of one family and aim; left, new: the seeds and codes."""

    asked: int = 0
    refused: int = 0
    lost: int = 0
    """Jumps that the audit afterwards does not find."""
    left: list[tuple[int, str]] = field(default_factory=list)
    new: list[tuple[int, str]] = field(default_factory=list)

    def add(self, seed: int, track: Track, before: Audit, number: int, keep: str) -> None:
        """Follow one retiming, where the jump has something that it is to mend."""
        jump, meant = before.jumps[number], PUSH | AIR if keep == "nothing" else PUSH
        if not meant & {finding.code for finding in jump.findings}:
            return
        self.asked += 1
        try:
            forecast = retime(track, number, aim=Aim(keep=keep, lay="none"))
        except RetimeError:
            self.refused += 1
            return
        after = _at(audit_track(redrawn(track, forecast.time_map)), forecast.time_map.at([jump.takeoff.frame])[0])
        if after is None:
            self.lost += 1
            return
        had = {finding.code: finding.rank for finding in jump.findings}
        self.left += [(seed, finding.code) for finding in after.findings if finding.code in meant]
        self.new += [
            (seed, finding.code)
            for finding in after.findings
            if finding.code not in meant and finding.rank >= max(CHECK, had.get(finding.code, -1) + 1)
        ]


def redrawn(track: Track, time_map) -> Track:
    """The track as the host draws it once its keys are moved: handles by default, as they were."""
    keys = np.asarray(track.key_frames)
    places = np.column_stack([np.interp(keys, track.frames, axis) for axis in track.positions.T])
    moved = time_map.at(keys)
    frames = np.arange(moved[0], moved[-1] + 1)
    shown = drawn(moved, places, frames, joined=track.interpolation or "bezier")
    return Track(track.name, track.fps, frames, shown, key_frames=moved, interpolation=track.interpolation)


def _at(audit: Audit, frame: float) -> Jump | None:
    """The jump that takes off there, within three frames."""
    near = [jump for jump in audit.jumps if abs(jump.takeoff.frame - frame) <= 3.0]
    return min(near, key=lambda jump: abs(jump.takeoff.frame - frame), default=None)


def followed(family: str, keep: str, tries: int) -> Followed:
    """Follow this retiming of each jump of so many seeds."""
    result = Followed()
    for seed in range(tries):
        track = make(family, seed).track
        before = audit_track(track)
        for number in range(len(before.jumps)):
            result.add(seed, track, before, number, keep)
    return result


def run(*, tries: int | None = None, kinds: str = "") -> dict:
    """Print a row a family and aim."""
    rows, figures = [], {}
    for family in FAMILIES:
        for keep in KEEPS if kinds in family else ():
            say(f"{family}, keep {keep} …")
            one = followed(family, keep, tries or TRIES)
            name = f"{family}, keep {keep}"
            figures[name] = {"asked": one.asked, "refused": one.refused, "lost": one.lost}
            figures[name] |= {"left": one.left, "new": one.new}
            counts = (one.asked, one.refused, one.lost, len(one.left), len(one.new))
            rows.append(
                [name, *map(str, counts), " ".join(f"{seed}:{code}" for seed, code in one.left[:3] + one.new[:3])]
            )
    print("\n".join(lines(("family", "to mend", "refused", "lost", "left", "new", "seeds"), rows)))
    return figures
