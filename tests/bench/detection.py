"""Errors of the events, the gravity and the push ratio on jumps that know their answer, by kind."""

import importlib.util

from tests.truth import blocked
from tests.truth.motions import JUMPS, make

from .scoring import EVENTS, QUANTITIES, Score
from .table import lines, say

TRIES = 200


def score(kind: str, tries: int) -> Score:
    """Score this many seeds of a kind."""
    result = Score()
    for seed in range(tries):
        result.add(blocked.make(kind, seed) if kind in blocked.KINDS else make(kind, seed))
    return result


def run(*, tries: int | None = None, kinds: str = "") -> dict:
    """Print errors by kind (median/95th percentile), then how often the stated ± holds the truth."""
    scores = {}
    drawn = blocked.KINDS if importlib.util.find_spec("bpy") else ()
    for kind in (*JUMPS, *drawn):
        if kinds in kind:
            say(f"{kind} …")
            scores[kind] = score(kind, tries or TRIES)
    print("absolute errors, median/95th percentile: events in frames, gravity and ratio in %")
    head = ("kind", "jumps", "found", "extra", "unsaid", "lost", *QUANTITIES)
    print("\n".join(lines(head, [_errors(kind, one) for kind, one in scores.items()])))
    print("\nstated ± holds the truth, % of cases: within 1 sigma (68)/within 1.96 (95)")
    print("\n".join(lines(("kind", *QUANTITIES), [_held(kind, one) for kind, one in scores.items()])))
    return {kind: _figures(one) for kind, one in scores.items()}


def _errors(kind: str, one: Score) -> list[str]:
    share = f"{100 * one.found / one.jumps:.0f} %" if one.jumps else "-"
    spreads = [one.spread(name) for name in QUANTITIES]
    cells = ["-" if pair is None else f"{pair[0]:.3f}/{pair[1]:.3f}" for pair in spreads]
    lost = sum(one.lost.values())
    return [kind, str(one.jumps), share, str(one.extra), str(one.unsaid), str(lost), *cells]


def _held(kind: str, one: Score) -> list[str]:
    pairs = [one.holds((name,)) if one.errors[name] else None for name in QUANTITIES]
    return [kind, *("-" if pair is None else f"{100 * pair[0]:.0f}/{100 * pair[1]:.0f}" for pair in pairs)]


def _figures(one: Score) -> dict:
    quantities = {
        name: {
            "median": one.spread(name)[0],
            "percentile_95": one.spread(name)[1],
            "holds": one.holds((name,)),
            "worst": one.worst(name),
        }
        for name in QUANTITIES
        if one.errors[name]
    }
    return {
        "tracks": one.tracks,
        "jumps": one.jumps,
        "found": one.found,
        "extra": one.extra,
        "unsaid": one.unsaid,
        "lost": dict(one.lost),
        "holds_events": one.holds(EVENTS) if any(one.errors[name] for name in EVENTS) else None,
        "quantities": quantities,
        "seeds": {what: seeds[:10] for what, seeds in one.seeds.items() if not what.endswith(" errors")},
    }
