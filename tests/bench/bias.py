"""Jumps by random forces: signed mean errors of contacts, whether ± holds them, and of the heights."""

import itertools

import numpy as np

from tests.truth.integrated import NOISES, RATES, WAYS, make

from .table import lines, say
from .tally import CONTACTS, SETTINGS, Tally, found_on, match

TRIES = 40


def scored(way: str, fps: float, noise: float, tries: int, *, start: int = 0) -> tuple[Tally, list[float]]:
    """Return the tally of this many seeds, and the relative errors of the jump heights."""
    tally, heights = Tally(), []
    for seed in range(start, start + tries):
        motion = make(way, fps, noise, seed)
        tally.add(motion)
        (truth,) = motion.truth
        phases = match(truth, found_on(motion.track, SETTINGS))
        if phases is not None:
            heights.append((phases.apex.height - phases.takeoff.height) / truth.jump_height - 1.0)
    return tally, heights


def run(*, tries: int | None = None, kinds: str = "") -> dict:
    """Print a row a way, rate and noise: frames later (+) or earlier (−) in the mean, and heights in %."""
    rows, figures = [], {}
    for way, fps, noise in itertools.product(WAYS, RATES, NOISES):
        kind = f"{way}, {fps:g} fps, {1000 * noise:g} mm"
        if kinds not in kind:
            continue
        say(f"{kind} …")
        figures[kind] = summary(*scored(way, fps, noise, tries or TRIES))
        rows.append(_row(kind, figures[kind]))
    means, spreads = (f"mean {name}" for name in CONTACTS), (f"{name} median/p95" for name in CONTACTS)
    held = (f"± {name}" for name in CONTACTS)
    print("\n".join(lines(("kind", "found", *means, *spreads, *held, "height"), rows)))
    return figures


def _row(kind: str, one: dict) -> list[str]:
    if not one["found"]:
        return [kind, f"0/{one['jumps']}", *["-"] * 7]
    cells = [f"{one[name]['mean']:+.3f}" for name in CONTACTS]
    cells += ["{:.2f}/{:.2f}".format(*one[name]["spread"]) for name in CONTACTS]
    cells += [f"{100 * one[name]['holds']:.0f} %" for name in CONTACTS]
    return [kind, f"{one['found']}/{one['jumps']}", *cells, f"{100 * one['height']:+.1f} %"]


def summary(tally: Tally, heights: list[float]) -> dict:
    """Return means, spreads and coverage of a tally; None where nothing was found."""
    contacts = {
        name: {"mean": tally.mean(name), "spread": tally.spread(name), "holds": tally.holds(name)} for name in CONTACTS
    }
    return {
        "found": tally.found,
        "jumps": tally.truths,
        **contacts,
        "height": float(np.mean(heights)) if heights else None,
    }
