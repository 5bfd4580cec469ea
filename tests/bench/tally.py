"""Compare the jumps found on a motion with its truth: found or not, how surely, how far off, which findings."""

from collections import Counter
from dataclasses import dataclass, field

import numpy as np
from leapwright.analysis import Settings, Track
from leapwright.analysis.audit import judge
from leapwright.analysis.certainty import Certainty, certainty_of
from leapwright.analysis.events import find_phases
from leapwright.analysis.jump import measure
from leapwright.analysis.phases import Phases

from tests.truth.answer import Motion, Truth

CONTACTS = ("takeoff", "landing")
COMMON = 0.5
"""Share of the frames of both flights, found and true, that they must have in common to be the same jump."""
ARITHMETIC = 1e-3
"""Frames of an error that are ignored, since host curves have single precision."""
SETTINGS = Settings()


def found_on(track: Track, settings: Settings = SETTINGS) -> tuple[Phases, ...]:
    """Return the jumps of a track."""
    return find_phases(track, settings.world, settings.limits).phases


def match(truth: Truth, found: tuple[Phases, ...]) -> Phases | None:
    """Return the jump found that is this one, if any: the flight most in common, and at least half."""
    best, most = None, COMMON
    for phases in found:
        start, end = phases.takeoff.frame, phases.landing.frame
        both = min(end, truth.landing) - max(start, truth.takeoff)
        share = both / (max(end, truth.landing) - min(start, truth.takeoff))
        if share >= most:
            best, most = phases, share
    return best


@dataclass
class Tally:
    """Counts and errors of one kind. errors, stated: frames, by contact; open: frames that a drawing leaves open."""

    truths: int = 0
    high: int = 0
    """Jumps that rise by more than a quarter of the track's standing height."""
    found: int = 0
    found_high: int = 0
    extra: int = 0
    words: Counter = field(default_factory=Counter)
    errors: dict[str, list[float]] = field(default_factory=lambda: {name: [] for name in CONTACTS})
    stated: dict[str, list[float]] = field(default_factory=lambda: {name: [] for name in CONTACTS})
    open: dict[str, list[float]] = field(default_factory=lambda: {name: [] for name in CONTACTS})
    asked: int = 0
    told: int = 0
    missed: list[int] = field(default_factory=list)
    untold: list[int] = field(default_factory=list)

    def add(self, motion: Motion, *, code: str | None = None, settings: Settings = SETTINGS) -> None:
        """Audit a motion; code: the finding that each of its jumps should have."""
        found = found_on(motion.track, settings)
        stand = motion.track.heights[0]
        matched = 0
        for truth in motion.truth:
            high = truth.jump_height > 0.25 * abs(stand)
            self.truths += 1
            self.high += high
            phases = match(truth, found)
            if phases is None:
                self.missed.append(motion.seed)
                continue
            matched += 1
            self.found += 1
            self.found_high += high
            self.words[certainty_of(phases.certainty)] += 1
            self._contacts(truth, phases)
            if code:
                self._ask(motion, phases, code, settings)
        self.extra += len(found) - matched

    def _contacts(self, truth: Truth, phases: Phases) -> None:
        for name in CONTACTS:
            event = getattr(phases, name)
            self.errors[name].append(event.frame - getattr(truth, name))
            self.stated[name].append(event.frame_error)
            self.open[name].append(truth.open_by)

    def _ask(self, motion: Motion, phases: Phases, code: str, settings: Settings) -> None:
        jump = judge(measure(motion.track, phases, settings.world), settings)
        self.asked += 1
        self.told += code in {finding.code for finding in jump.findings}
        if code not in {finding.code for finding in jump.findings}:
            self.untold.append(motion.seed)

    def share(self, word: Certainty) -> float:
        """Of the jumps found, how many are told by this word."""
        return self.words[word] / max(self.found, 1)

    def spread(self, name: str) -> tuple[float, float] | None:
        """Median and 95th percentile of the absolute error of a contact, frames, past what is left open."""
        sizes = np.maximum(np.abs(self.errors[name]) - self.open[name], 0.0)
        return (float(np.median(sizes)), float(np.percentile(sizes, 95))) if len(sizes) else None

    def holds(self, name: str, times: float = 1.96) -> float | None:
        """Return the share of contacts that lie within so many stated errors of the truth."""
        sizes = np.maximum(np.abs(self.errors[name]) - self.open[name], 0.0)
        stated = np.array(self.stated[name])
        return float(np.mean(sizes <= times * stated + ARITHMETIC)) if len(sizes) else None

    def mean(self, name: str) -> float | None:
        """Return mean signed error, frames; later is positive."""
        return float(np.mean(self.errors[name])) if self.errors[name] else None
