"""One bad frame at each place of a clean jump: still found, contacts still right, the frame named."""

import re

import numpy as np
from leapwright.analysis.events import find_phases

from tests.truth.flaws import FLAWS, Flawed, clean, make, places

from .table import lines, say
from .tally import CONTACTS, SETTINGS, Tally

TRIES = 10
STRIDE = 3
"""Places of a track between two that are tried; each track starts at a different one."""


def named(flawed: Flawed) -> bool:
    """Tell whether a note of the track or of a jump names the frame."""
    found = find_phases(flawed.motion.track, SETTINGS.world, SETTINGS.limits)
    notes = [*found.notes, *(note for phases in found.phases for note in phases.notes)]
    return any(re.search(rf"(?<![\d.]){flawed.frame:g}(?![\d.]*\d)", note.text) for note in notes)


def spoiled(flaw: str, tries: int, *, stride: int = STRIDE) -> tuple[Tally, list[bool]]:
    """Return the tally over tracks and places and, for flaws that show in the heights, whether each was named."""
    tally, names = Tally(), []
    for seed in range(tries):
        for at in places(flaw, clean(seed))[seed % stride :: stride]:
            flawed = make(flaw, seed, int(at))
            tally.add(flawed.motion)
            if flawed.asked:
                names.append(named(flawed))
    return tally, names


def run(*, tries: int | None = None, kinds: str = "") -> dict:
    """Print a row a flaw."""
    rows, figures = [], {}
    for flaw in FLAWS:
        if kinds not in flaw:
            continue
        say(f"{flaw} …")
        tally, names = spoiled(flaw, tries or TRIES)
        share = float(np.mean(names)) if names else None
        spreads = [tally.spread(name) for name in CONTACTS]
        figures[flaw] = {"places": tally.truths, "found": tally.found, "named": share, "missed": tally.missed}
        cells = ["-" if pair is None else "{:.2f}/{:.2f}".format(*pair) for pair in spreads]
        told = "-" if share is None else f"{100 * share:.0f} % of {len(names)}"
        rows.append([flaw, str(tally.truths), f"{100 * tally.found / tally.truths:.0f} %", *cells, told])
    print("\n".join(lines(("flaw", "places", "found", *CONTACTS, "named"), rows)))
    return figures
