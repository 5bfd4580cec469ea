"""Match the jumps found on a motion to its answer, and keep every error with the stated one."""

from collections import defaultdict
from dataclasses import dataclass, field

import numpy as np
from leapwright.analysis import Limits, World
from leapwright.analysis.events import find_phases
from leapwright.analysis.figures import error_of, value_of
from leapwright.analysis.jump import measure

from tests.truth.answer import Motion, Truth

EVENTS = ("crouch", "takeoff", "apex", "landing", "absorbed")
QUANTITIES = (*EVENTS, "gravity", "ratio")


@dataclass
class Score:
    """Tallies of one kind. errors: signed, frames for events, % for gravity and ratio; stated: 1 sigma."""

    tracks: int = 0
    jumps: int = 0
    found: int = 0
    extra: int = 0
    unsaid: int = 0
    """Jumps that the track cuts off and that are reported as whole, without a note."""
    lost: dict[str, int] = field(default_factory=lambda: defaultdict(int))
    """Quantities of found jumps that could be known and are missing."""
    errors: dict[str, list[float]] = field(default_factory=lambda: defaultdict(list))
    stated: dict[str, list[float]] = field(default_factory=lambda: defaultdict(list))
    seeds: dict[str, list[int]] = field(default_factory=lambda: defaultdict(list))
    """Seeds, by what failed on them and by quantity of each error."""

    def add(self, motion: Motion) -> None:
        """Run the detector on a motion and count."""
        world = World()
        found = find_phases(motion.track, world, Limits())
        spare = list(found.phases)
        self.tracks += 1
        self.jumps += len(motion.truth)
        for truth in motion.truth:
            mine = [p for p in spare if truth.takeoff < p.apex.frame < truth.landing]
            if not mine:
                self.seeds["missed"].append(motion.seed)
                continue
            spare.remove(mine[0])
            self.found += 1
            self._compare(truth, mine[0], measure(motion.track, mine[0], world), motion)
        said = [p for p in spare if motion.partial and (p.notes or found.notes)]
        self.extra += len(spare) - len(said)
        if len(spare) > len(said):
            self.seeds["extra"].append(motion.seed)

    def _compare(self, truth: Truth, phases, jump, motion: Motion) -> None:
        if truth.crouch is None and phases.crouch is not None and not phases.notes:
            self.unsaid += 1
            self.seeds["unsaid"].append(motion.seed)
        for name in EVENTS:
            true, got = getattr(truth, name), getattr(phases, name)
            if true is not None:
                self._keep(name, None if got is None else got.frame - true, got and got.frame_error, motion)
        if truth.gravity is not None:
            got, error = value_of(jump, "fitted_gravity"), error_of(jump, "fitted_gravity")
            scale = 100 / truth.gravity
            wrong = None if got is None else (got - truth.gravity) * scale
            self._keep("gravity", wrong, None if error is None else error * scale, motion)
        if truth.push_ratio is not None:
            got, error = value_of(jump, "push_ratio"), error_of(jump, "push_ratio")
            scale = 100 / truth.push_ratio
            wrong = None if got is None else (got - truth.push_ratio) * scale
            self._keep("ratio", wrong, None if error is None else error * scale, motion)

    def _keep(self, name: str, wrong: float | None, stated: float | None, motion: Motion) -> None:
        if wrong is None:
            self.lost[name] += 1
            self.seeds[f"no {name}"].append(motion.seed)
            return
        self.errors[name].append(wrong)
        self.stated[name].append(np.nan if stated is None else stated)
        self.seeds[f"{name} errors"].append(motion.seed)

    def spread(self, name: str) -> tuple[float, float] | None:
        """Median and 95th percentile of the absolute error."""
        sizes = np.abs(self.errors[name])
        return (float(np.median(sizes)), float(np.percentile(sizes, 95))) if len(sizes) else None

    def holds(self, names: tuple[str, ...]) -> tuple[float, float] | None:
        """Return the share of errors within 1 and within 1.96 of the stated standard error; None: none stated.

        A millionth of a frame or percent is let pass: arithmetic, not measurement.
        """
        sizes = np.concatenate([np.abs(self.errors[name]) for name in names])
        stated = np.concatenate([self.stated[name] for name in names])
        kept = np.isfinite(stated)
        if not kept.any():
            return None
        sizes, stated = sizes[kept], stated[kept]
        return tuple(float(np.mean(sizes <= times * stated + 1e-6)) for times in (1.0, 1.96))

    def worst(self, name: str, count: int = 5) -> list[tuple[int, float]]:
        """Seeds of the largest errors, with the errors."""
        order = np.argsort(-np.abs(self.errors[name]))[:count]
        return [(self.seeds[f"{name} errors"][i], round(self.errors[name][i], 3)) for i in order]
