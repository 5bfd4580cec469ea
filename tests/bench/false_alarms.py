"""Jumps reported on motion that holds none, by kind; and what is made of a fall."""

from leapwright.analysis import Limits, World
from leapwright.analysis.events import find_phases

from tests.truth.still_life import FALLS, STILL, UNPUSHED, make

from .table import lines, say

TRIES = 100


def alarms(kind: str, tries: int) -> dict[int, list[tuple[float, float]]]:
    """Takeoff and landing of each false jump, by seed. A fall or slide: only with a crouch."""
    found = {}
    for seed in range(tries):
        phases = find_phases(make(kind, seed).track, World(), Limits()).phases
        false = [p for p in phases if kind not in UNPUSHED or p.crouch is not None]
        if false:
            found[seed] = [(round(p.takeoff.frame, 2), round(p.landing.frame, 2)) for p in false]
    return found


def run(*, tries: int | None = None, kinds: str = "") -> dict:
    """Print tries and false jumps by kind, with the first seeds that fail."""
    tries = tries or TRIES
    results = {}
    for kind in (*STILL, *FALLS):
        if kinds in kind:
            say(f"{kind} …")
            results[kind] = alarms(kind, tries)
    rows = [
        [kind, str(tries), str(len(bad)), str(sum(map(len, bad.values()))), " ".join(map(str, list(bad)[:8]))]
        for kind, bad in results.items()
    ]
    rows.append(["all", str(tries * len(results)), *(str(sum(int(r[i]) for r in rows)) for i in (2, 3)), ""])
    print("\n".join(lines(("kind", "tries", "tracks with a false jump", "false jumps", "first seeds"), rows)))
    return {kind: {"tries": tries, "false": bad} for kind, bad in results.items()}
