"""Fit the errors of drawn contacts of analysis/contacts/side.py (UNLIKE, LANDING_UNLIKE) anew, on integrated forces.

What a contact is off by beyond what its drives say is taken for normal, with the variance of `Side.doubt`: the four
numbers are those that make the misses likeliest, widened until one error holds 68 in 100. They are fitted on random
forces that end in three ways; the kinds of onset do not differ in how a force ends. Prints them, and how they fare on
either.
"""

from dataclasses import dataclass
from unittest.mock import patch

import numpy as np
from leapwright.analysis import audit_track
from leapwright.analysis.contacts import by_drive
from leapwright.analysis.contacts.side import Contact, Side
from scipy.optimize import minimize

from tests.truth.answer import Motion
from tests.truth.integrated import WAYS

from .start_errors import ONE, TRIES, motions
from .table import lines

FEWEST = 50
"""Contacts that a fit needs."""
GUESS = (0.008, 0.008, 0.2, 20.0)
EVENTS = ("takeoff", "landing")


@dataclass(frozen=True)
class Met:
    """A contact: its event, the kind of force, its push in seconds, the misfit of its drive, its own error and how far
    it is off; all times at the flight's pace.
    """

    event: str
    kind: str
    push: float
    misfit: float
    own: float
    off: float


def contacts(kind: str, motion: Motion) -> list[Met]:
    """Audit a motion with no doubt of shapes, and return what its contacts were told by."""
    told: dict[float, tuple[float, float, float]] = {}
    last: list[tuple[float, float, float]] = []
    averaged = by_drive._averaged

    def doubt(side: Side, push: float, misfit: float) -> float:
        last.append((push / side.second, misfit, side.second))
        return 0.0

    def kept(*given: object, **named: float) -> Contact:
        last.clear()
        found = averaged(*given, **named)
        if last:
            told[abs(found.frame)] = last[0]
        return found

    with patch.object(Side, "doubt", doubt), patch.object(by_drive, "_averaged", kept):
        jumps = audit_track(motion.track).jumps
    (truth,) = motion.truth
    seen = []
    for jump in jumps:
        for name in EVENTS if truth.takeoff < jump.apex.frame < truth.landing else ():
            event = getattr(jump, name)
            if event.frame in told:
                push, misfit, second = told[event.frame]
                seen.append(Met(name, kind, push, misfit, event.frame_error / second,
                                (event.frame - getattr(truth, name)) / second))  # fmt: skip
    return seen


def said(mine: list[Met], numbers: np.ndarray) -> np.ndarray:
    """Return the errors that these four numbers say."""
    push, misfit, own = np.array([(one.push, one.misfit, one.own) for one in mine]).T
    least, turns, usual, misfits = numbers
    doubt = (turns * np.log(np.maximum(push, 1e-2) / abs(usual))) ** 2 + (misfits * misfit * push) ** 2
    return np.sqrt(own**2 + least**2 + doubt)


def fitted(mine: list[Met]) -> np.ndarray:
    """Return the four numbers under which normal misses are likeliest."""
    off = np.array([one.off for one in mine])

    def unlikely(scale: np.ndarray) -> float:
        errors = said(mine, scale * GUESS)
        return float(np.mean(np.log(errors) + 0.5 * (off / errors) ** 2))

    return np.abs(minimize(unlikely, np.ones(4), method="Nelder-Mead", options={"maxiter": 4000}).x * GUESS)


def _off(mine: list[Met], numbers: np.ndarray) -> np.ndarray:
    """Return |miss| ÷ error."""
    misses: np.ndarray = np.abs([one.off for one in mine]) / said(mine, numbers)
    return misses


def _row(name: str, mine: list[Met], numbers: np.ndarray) -> list[str]:
    z = _off(mine, numbers)
    return [name, str(len(mine)), f"{1.0 / np.quantile(z, ONE):.2f}", f"{100 * np.mean(z <= 1.96):.0f}"]


def run(*, tries: int | None = None, kinds: str = "") -> dict:
    """Print the numbers of takeoffs and of landings, and how they fare on short pushes and long ones."""
    seen = [one for kind, motion in motions(tries or TRIES, (0.0,)) if kinds in kind for one in contacts(kind, motion)]
    found, rows = {}, []
    for event in EVENTS:
        mine = [one for one in seen if one.event == event]
        random, others = ([one for one in mine if (one.kind in WAYS) is ours] for ours in (True, False))
        if len(random) < FEWEST:
            continue
        numbers, middle = fitted(random), float(np.median([one.push for one in random]))
        numbers[[0, 1, 3]] *= max(1.0, float(np.quantile(_off(random, numbers), ONE)))
        found[event] = np.round(numbers, 4).tolist()
        print(event, found[event])
        for name, of in (("random", random), ("others", others)):
            short, long = ([one for one in of if (one.push < middle) is less] for less in (True, False))
            rows += [_row(f"{event}, {name}, short", short, numbers)] if short else []
            rows += [_row(f"{event}, {name}, long", long, numbers)] if long else []
    if rows:
        head = ("", "contacts", "said ÷ observed", "two errors hold %")
        print(*lines(head, rows), sep="\n")
    return found
