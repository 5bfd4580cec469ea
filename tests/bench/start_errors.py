"""Fit the table of analysis/contacts/start_errors.py anew, on integrated forces.

A factor is the least with which 68 in 100 starts (crouches and absorbs) lie within one error and 95 in 100 within
1.96, and their intervals score no worse than without it; it is 1 at most. Prints the table as fitted on all; and,
fitted on one half of the kinds of force, how it fares on the other.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from unittest.mock import patch

import numpy as np
from leapwright.analysis import audit_track
from leapwright.analysis.contacts import by_drive, by_knot, start
from leapwright.analysis.contacts.bottom import Bottom
from leapwright.analysis.contacts.start_errors import NOISY_SHARE, THROUGH

from tests.truth import integrated, onsets
from tests.truth.answer import Motion

from .table import lines, say

TRIES, FIRST_SEED = 25, 20000
"""Seeds of each setting; no test has any as high."""
RATES, NOISE = (24.0, 60.0), (0.0, 0.0015, 0.005)
RATIOS = ((0.5, 1.0), (1.0, 2.0), (2.0, 4.0))
HALF = ("drawn", "any", "constant", "short ramp", "quarter sine", "minimum jerk")
"""Kinds of force that the table is fitted on, when it is tried on the others."""
ONE, TWO = 0.6827, 0.95
FEWEST = 20
"""Starts that a knot needs."""
TRIED = np.geomspace(0.2, 1.0, 41)
"""Factors whose intervals are scored."""
WITHIN = {ONE: 1.0, TWO: 1.96}
"""Shares of normal errors, and how many standard errors hold them."""


@dataclass(frozen=True)
class Start:
    """A start: its kind of force, how likely it goes through, noise as a share of the distance, its spread in seconds,
    and |miss| ÷ spread.
    """

    kind: str
    through: float
    noise: float
    spread: float
    off: float


def motions(tries: int) -> Iterator[tuple[str, Motion]]:
    """Yield jumps by random forces and by each onset."""
    seeds = range(FIRST_SEED, FIRST_SEED + tries)
    for fps in RATES:
        for noise in NOISE:
            say(f"{fps:g} fps, {1000 * noise:g} mm …")
            for way in integrated.WAYS:
                for ratio in RATIOS:
                    yield from ((way, integrated.make(way, fps, noise, seed, ratio=ratio)) for seed in seeds)
            for onset in onsets.ONSETS:
                yield from ((onset, onsets.make(onset, fps, noise, seed)) for seed in seeds)


def starts(kind: str, motion: Motion) -> Iterator[Start]:
    """Audit a motion with factors of one, and yield what its crouch and its absorb were told by."""
    told: dict[float, tuple[float, float]] = {}
    last: list[tuple[float, float]] = []

    def one(through: float, noise: float) -> float:
        last.append((through, noise))
        return 1.0

    def start_of(*given: object, **named: float) -> Bottom:
        last.clear()
        found = start.start_of(*given, **named)
        if last:
            told[abs(found.frame)] = last[-1]
        return found

    with (
        patch.object(start, "factor", one),
        patch.object(by_drive, "start_of", start_of),
        patch.object(by_knot, "start_of", start_of),
    ):
        jumps = audit_track(motion.track).jumps
    (truth,) = motion.truth
    for jump in jumps:
        if truth.takeoff < jump.apex.frame < truth.landing:
            for event, true in ((jump.crouch, truth.crouch), (jump.absorbed, truth.absorbed)):
                if event is not None and event.frame_error > 0.0 and event.frame in told:
                    error = event.frame_error
                    yield Start(kind, *told[event.frame], error / motion.track.fps, abs(event.frame - true) / error)


def _cells(seen: list[Start]) -> Iterator[tuple[int, list[Start]]]:
    """Yield the index of each knot of the table, and the clean starts that lie nearest to it."""
    clean = [one for one in seen if one.noise <= NOISY_SHARE / 2]
    knots = np.abs(np.array([one.through for one in clean])[:, None] - THROUGH).argmin(axis=1)
    for i in range(len(THROUGH)):
        yield i, [clean[k] for k in np.flatnonzero(knots == i)]


def table(seen: list[Start]) -> np.ndarray:
    """Return the factors, (len(THROUGH),)."""
    factors = np.ones(len(THROUGH))
    for i, mine in _cells(seen):
        if len(mine) >= FEWEST:
            off = np.array([one.off for one in mine])
            asked = [float(np.quantile(off, share)) / within for share, within in WITHIN.items()]
            scores = np.array([score(mine, by) for by in TRIED])
            factors[i] = min(max(*asked, float(TRIED[scores <= score(mine, 1.0)][0])), 1.0)
    return factors


def score(mine: list[Start], by: float) -> float:
    """Return the mean score of the 95 % intervals, seconds, with spreads times this (Gneiting and Raftery 2007, J. Am.
    Stat. Assoc. 102:359, equation 43).
    """
    off, spread = np.array([(one.off, one.spread) for one in mine]).T
    two = WITHIN[TWO] * by
    return float(np.mean(spread * (2.0 * two + 2.0 / (1.0 - TWO) * np.maximum(off - two, 0.0))))


def _scored(seen: list[Start], factors: np.ndarray) -> list[list[str]]:
    """Return a row for each knot: said ÷ observed, and how many two errors hold, before and after."""
    cells = []
    for i, mine in _cells(seen):
        if len(mine) >= FEWEST:
            each = [np.array([one.off for one in mine]) / by for by in (1.0, factors[i])]
            figures = [f"{1.0 / np.quantile(z, ONE):.2f}" for z in each]
            figures += [f"{100 * np.mean(z <= WITHIN[TWO]):.0f}" for z in each]
            cells.append([f"{THROUGH[i]:g}", str(len(mine)), *figures])
    return cells


def run(*, tries: int | None = None, kinds: str = "") -> dict:
    """Print the table, and how one fitted on half of the kinds of force fares on the others."""
    seen = [one for kind, motion in motions(tries or TRIES) if kinds in kind for one in starts(kind, motion)]
    factors = table(seen)
    print(f"FACTORS = ({', '.join(f'{value:.2f}' for value in factors)})")
    halves = [one for one in seen if one.kind in HALF], [one for one in seen if one.kind not in HALF]
    if all(halves):
        head = ("through", "starts", "said ÷ observed", "after", "two errors hold %", "after")
        print("On the kinds it was not fitted on:", *lines(head, _scored(halves[1], table(halves[0]))), sep="\n")
    return {"factors": np.round(factors, 2).tolist()}
