"""Fit the nats of analysis/events/weights.py anew: a logistic regression on motion that knows whether it jumps.

Jumps: drawn by hand in the host (tests/truth/drawn), and closed forms; the rest: bodies that stay on what carries
them (grounded, still_life). Each family counts alike, jumps as much as the rest. Tables are held smooth and small
by a ridge, so that what a few seeds do not tell stays near zero. Prints the tables, and how the families fare.
"""

from collections.abc import Iterator, Mapping

import numpy as np
from leapwright.analysis import Limits, World
from leapwright.analysis.cases.case import Case
from leapwright.analysis.cases.collect import cases_of
from leapwright.analysis.certainty import certainty_of
from leapwright.analysis.events.find import TOLD
from leapwright.analysis.events.weights import WEIGHTS
from leapwright.analysis.events.witnesses import keyed, parabola, posed, rhythm, stand
from leapwright.analysis.feet import feet_of
from leapwright.analysis.samples.poses import poses_of
from scipy.optimize import minimize

from tests.truth import drawn, grounded, motions, still_life
from tests.truth.answer import Motion

from .table import lines, say

TRIES = 60
FLOWING = ("run", "slide", "random smooth")
"""Still-life kinds that really fly or fall, or that move down faster than gravity: whether they are jumps has no
answer."""
CUT = ("starts in", "ends in", "feet known")
BETWEEN = "between jumps"
"""Name of the family of rises and falls that lie on a track of jumps and are none, such as a body that straightens up.
"""
HEAVIER = {
    "pace a third": 3.0, "floating": 3.0, "crouch to crouch": 4.0,
    **dict.fromkeys(("floaty", "straight legs", "up stairs"), 2.0),
    BETWEEN: 5.0,
    **dict.fromkeys(("still: rope swing", "still: rope swing, noisy", "grounded: climb and down, worked over"), 2.0),
    **dict.fromkeys(("grounded: stand up and sit", "grounded: stand up and sit, worked over"), 2.0),
}
"""Weights of the families that jumps and the rest have least between them, against 1 of any other: slow jumps and those
that show no stand, climbs, swings and seats; and of what a body does between jumps, which many families hold (ours)."""
RIDGE, SMOOTH = 0.1, 2.0
"""Penalty on the squares of a table's nats, and of their second differences (ours)."""


def examples(tries: int) -> Iterator[tuple[str, bool, Motion]]:
    """Yield every motion, with its family and whether it holds jumps."""
    for seed in range(tries):
        for name in drawn.FAMILIES if seed < tries * 2 // 3 else ():
            yield name, True, drawn.make(name, seed)
        for name in motions.JUMPS if seed < tries // 3 else ():
            if not name.startswith(CUT[:2]) and CUT[2] not in name:
                yield f"closed: {name}", True, motions.make(name, seed)
        for name in grounded.NAMES:
            yield f"grounded: {name}", False, grounded.make(name, seed)
        for name in still_life.STILL:
            if not name.startswith(FLOWING):
                yield f"still: {name}", False, still_life.make(name, seed)


def seen(case: Case) -> Mapping[str, float]:
    """Return everything that the calibrated witnesses see of a case."""
    witnesses = (posed, parabola, stand, rhythm, keyed)
    return {"belief": 1.0} | {name: value for one in witnesses for name, value in one.seen(case).items()}


def cases(motion: Motion) -> Iterator[tuple[Case, bool]]:
    """Yield the cases of a motion, each with whether it is a jump."""
    track, world, limits = motion.track, World(), Limits()
    poses = poses_of(track)
    for case in cases_of(track, poses, feet_of(track), world, limits):
        top = float(poses.frames[case.turn.top])
        yield case, any(truth.takeoff < top < truth.landing for truth in motion.truth)


def hats(name: str, value: float) -> np.ndarray:
    """Return the weights by which a value is shared between the knots of its table."""
    return np.array([np.interp(value, WEIGHTS[name].knots, row) for row in np.eye(len(WEIGHTS[name].knots))])


def row(what: Mapping[str, float]) -> np.ndarray:
    """Return one row of the design matrix: the weights of the knots of all tables, one table after the other."""
    none = {name: np.zeros(len(table.knots)) for name, table in WEIGHTS.items()}
    return np.concatenate(list((none | {name: hats(name, value) for name, value in what.items()}).values()))


def penalty() -> np.ndarray:
    """Return the quadratic form that holds tables small and smooth."""
    blocks = []
    for table in WEIGHTS.values():
        bend = np.diff(np.eye(len(table.knots)), 2, axis=0)
        blocks.append(RIDGE * np.eye(len(table.knots)) + SMOOTH * bend.T @ bend)
    size = sum(len(block) for block in blocks)
    whole, at = np.zeros((size, size)), 0
    for block in blocks:
        whole[at : at + len(block), at : at + len(block)] = block
        at += len(block)
    return whole


def fitted(design: np.ndarray, jumps: np.ndarray, weights: np.ndarray) -> np.ndarray:
    """Return the coefficients of the penalized logistic regression."""
    hold = penalty()

    def loss(nats: np.ndarray) -> tuple[float, np.ndarray]:
        score = design @ nats
        chance = 1 / (1 + np.exp(-np.clip(score, -40, 40)))
        fit = weights @ np.logaddexp(0.0, np.where(jumps, -score, score))
        return float(fit + 0.5 * nats @ hold @ nats), design.T @ (weights * (chance - jumps)) + hold @ nats

    return minimize(loss, np.zeros(design.shape[1]), jac=True, method="L-BFGS-B", options={"maxiter": 3000}).x


def run(*, tries: int | None = None, kinds: str = "") -> dict:
    """Print the tables as they stand in the code, and the certainty of each family under them."""
    rows, jumps, families = [], [], []
    for family, jumping, motion in examples(tries or TRIES):
        if motion.seed == 0 or family == drawn.FAMILIES[0]:
            say(f"seed {motion.seed} …")
        for case, is_jump in cases(motion):
            rows.append(row(seen(case)))
            jumps.append(is_jump)
            families.append(family if is_jump == jumping else BETWEEN)
    design, truth, names = np.array(rows), np.array(jumps), np.array(families)
    weight = {name: HEAVIER.get(name, 1.0) / np.count_nonzero(names == name) for name in set(names)}
    share = np.array([weight[name] for name in names])
    for kind in (True, False):
        share[truth == kind] *= 0.5 * len(names) / share[truth == kind].sum()
    nats = fitted(design, truth, share)
    at, tables = 0, {}
    for name, table in WEIGHTS.items():
        tables[name] = [round(float(value), 2) + 0.0 for value in nats[at : at + len(table.knots)]]
        print(f"    {name!r}: WeightTable({table.knots}, {tuple(tables[name])}),".replace("'", '"'))
        at += len(table.knots)
    _print_families(1 / (1 + np.exp(-design @ nats)), truth, names)
    return {"tables": tables}


def _print_families(chance: np.ndarray, truth: np.ndarray, names: np.ndarray) -> None:
    table = []
    for name in dict.fromkeys(names):
        mine = chance[names == name]
        words = [certainty_of(float(value)).value for value in mine]
        shares = [f"{100 * words.count(word) / len(words):.1f}" for word in ("sure", "likely", "doubtful")]
        silent = f"{100 * np.mean(mine < TOLD):.1f}"
        table.append([name, "jump" if truth[names == name][0] else "none", str(len(words)), *shares, silent])
    print("\n".join(lines(("family", "is", "cases", "sure %", "likely %", "doubtful %", "of it silent %"), table)))
