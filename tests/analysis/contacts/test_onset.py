"""Evidence for starts of a push: against dense normal densities (scipy), and what each hypothesis holds."""

import numpy as np
import pytest
from leapwright.analysis.contacts.onset import (
    BELIEVED,
    BENDS,
    BRAKES,
    DIP_KNOTS,
    DIPS,
    FADES,
    FLOWS,
    FORCE_WANDERS,
    GRID,
    KNOTS,
    MEAN_FORCE,
    MEAN_FORCE_SPREAD,
    ONSETS,
    PUSH_TABLE,
    RESTS,
    Seen,
    evidence,
)
from scipy.integrate import cumulative_trapezoid
from scipy.stats import multivariate_normal

END, DISTANCE, NOISE = 20.0, 0.4, 0.002
LOOSE = (0.003, 0.0004)
STARTS = np.array([6.0, 8.3, 9.1])
ANY_LEVEL = 3.0
"""Push distances by which the bottom may lie off: so many that its height is left to the samples."""


def seen(force: float = 2.0) -> Seen:
    """Return noisy samples of a rest of 8 frames and a push by a force that changes evenly, and its end."""
    frames = np.arange(0.0, END)
    share = np.clip((frames - 8.0) / (END - 8.0), 0.0, 1.0)
    heights = DISTANCE * (0.5 * force * share**2 + (1.0 - 0.5 * force) * share**3)
    speed = DISTANCE * (force + 3.0 * (1.0 - 0.5 * force)) / (END - 8.0)
    spread = NOISE * (1.0 + 0.5 * share)
    noise = spread * np.random.default_rng(7).normal(size=len(frames))
    return Seen(frames, heights + noise, spread, (END, DISTANCE, speed), LOOSE, DISTANCE)


def twice(force: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    fast = cumulative_trapezoid(force, GRID, initial=0.0)
    return fast, cumulative_trapezoid(fast, GRID, initial=0.0)


def wandering(knots: np.ndarray, clock: np.ndarray, spread: float, wanders: float, force: np.ndarray):
    """Return the covariance of a force at its knots, and what each knot does to speed and height over GRID."""
    covariance = spread**2 + wanders**2 * np.minimum(clock[:, None], clock[None, :])
    done = [twice(force * np.interp(GRID, knots, one)) for one in np.eye(len(knots))]
    return covariance, np.array([fast for fast, _ in done]), np.array([high for _, high in done])


def dense(of: Seen, start: float, onset: int, rest: float | None) -> float:
    """Return the log density of samples and end by one hypothesis; rest None: one force through the bottom."""
    over, ramp, _, free = ONSETS[onset]
    force = np.ones_like(GRID) if not over else ramp(np.clip(GRID / over, 0.0, 1.0))
    force = force / (MEAN_FORCE * twice(force)[1][-1])
    span, clock = END - start, KNOTS + FADES * KNOTS**6
    ours, fast, high = wandering(KNOTS, clock, MEAN_FORCE_SPREAD, FORCE_WANDERS, force)
    after = np.clip((of.frames - start) / span, 0.0, 1.0)
    rise = np.array([np.interp(after, GRID, one) for one in high])
    rows = np.vstack([rise.T, high[:, -1], fast[:, -1] / span])
    mean = MEAN_FORCE * rows.sum(axis=1)
    covariance = free**2 * rows @ ours @ rows.T
    if rest != 1.0:
        back = start - of.frames[0]
        wide = back * (1.0 - (rest or 0.0))
        spread = MEAN_FORCE_SPREAD if rest is None else DIPS
        there, _, sunk = wandering(DIP_KNOTS, DIP_KNOTS, spread, BENDS, np.ones_like(GRID))
        into = np.clip((start - of.frames - (back - wide)) / wide, 0.0, 1.0)
        down = np.vstack([np.array([np.interp(into, GRID, one) for one in sunk]).T, np.zeros((2, len(DIP_KNOTS)))])
        down = down * (wide / span) ** 2
        mean = mean + (BRAKES if rest is not None else MEAN_FORCE) * down.sum(axis=1)
        covariance = covariance + down @ there @ down.T
        if rest is None:
            shared = MEAN_FORCE_SPREAD**2 * np.outer(rows.sum(axis=1), down.sum(axis=1))
            covariance = covariance + shared + shared.T
    level = np.append(np.ones(len(of.frames) + 1), 0.0)
    covariance = DISTANCE**2 * (covariance + ANY_LEVEL**2 * np.outer(level, level))
    covariance += np.diag([*of.spread**2, of.loose[0] ** 2, of.loose[1] ** 2])
    got = np.concatenate([of.heights, of.end[1:]])
    return float(multivariate_normal(DISTANCE * mean, covariance, allow_singular=True).logpdf(got))


def hypotheses() -> list[tuple[int, float | None, float]]:
    """Return onset, share of rest and log belief of each, in the order that evidence has them."""
    apart = [(i, rest, BELIEVED[i]) for i in range(len(ONSETS)) for rest in (*RESTS, 1.0)]
    return [*apart, (0, None, np.log(FLOWS))]


def test_what_is_believed_beforehand_adds_up_to_one() -> None:
    assert sum(np.exp(belief) for *_, belief in hypotheses()) == pytest.approx(1.0)


@pytest.mark.parametrize("force", [2.0, 0.2])
def test_evidence_is_that_of_a_dense_normal_density(force: float) -> None:
    # Up to one constant, which is the same for all: bases that evidence leaves out of every density.
    of = seen(force)
    likely, _ = evidence(of, STARTS)
    assert likely.shape == (len(hypotheses()), len(STARTS))
    wanted = [[dense(of, start, onset, rest) + belief for start in STARTS] for onset, rest, belief in hypotheses()]
    off = likely - np.array(wanted)
    best = likely > likely.max() - 30.0
    assert best.any(axis=1).sum() > 10
    assert np.ptp(off[best]) < 0.05


def test_the_mean_of_each_onset_goes_the_whole_way() -> None:
    assert PUSH_TABLE[-1, :, -1] == pytest.approx(np.ones(len(ONSETS)))


def test_the_height_of_the_bottom_is_told_with_the_start() -> None:
    # 8 samples of rest under 2 mm know it to 2 / √8 mm.
    likely, heights = evidence(seen(), np.array([8.0]))
    assert heights[likely[:, 0].argmax(), 0] == pytest.approx(0.0, abs=2.0 * NOISE / np.sqrt(8.0))


def test_a_force_that_is_there_at_once_is_told_from_one_that_is_not() -> None:
    for force, sharp in ((2.0, True), (0.2, False)):
        likely, _ = evidence(seen(force), np.linspace(5.0, 10.0, 26))
        weights = np.exp(likely - likely.max()).sum(axis=1)
        at_once = [onset < 2 for onset, *_ in hypotheses()]
        assert (weights[at_once].sum() > 0.5 * weights.sum()) == sharp


@pytest.mark.parametrize(
    ("place", "force"),
    [
        (2, lambda s: np.minimum(s / 0.1, 1.0)),
        (3, lambda s: np.minimum(s / 0.25, 1.0)),
        (4, lambda s: np.minimum(s / 0.5, 1.0)),
        (5, lambda s: s),
        (6, lambda s: np.where(s < 0.2, 0.5 - 0.5 * np.cos(np.pi * s / 0.2), 1.0)),
        (7, lambda s: np.where(s < 0.4, 0.5 - 0.5 * np.cos(np.pi * s / 0.4), 1.0)),
        (8, lambda s: np.where(s < 0.7, 0.5 - 0.5 * np.cos(np.pi * s / 0.7), 1.0)),
        (11, lambda s: np.minimum((s / 0.7) ** 5, 1.0)),
        (12, lambda s: s**5),
    ],
)
def test_a_force_is_told_by_how_it_sets_in(place: int, force) -> None:
    # Summed twice over a push of 40 samples out of a rest, known to a hundred-thousandth of it: evenly over a tenth to
    # all of it, smoothly, here as half a cosine, and late.
    clock = np.linspace(0.0, 1.0, 4001)
    fast = cumulative_trapezoid(force(clock), clock, initial=0.0)
    high = cumulative_trapezoid(fast, clock, initial=0.0)
    frames = np.arange(60.0)
    heights = DISTANCE * np.interp((frames - 20.0) / 40.0, clock, high) / high[-1]
    spread = np.full(60, 1e-5 * DISTANCE)
    end = (60.0, DISTANCE, DISTANCE / 40.0 * fast[-1] / high[-1])
    likely, _ = evidence(Seen(frames, heights, spread, end, (4e-6, 1e-7), DISTANCE), np.array([20.0]))
    weights = np.exp(likely - likely.max())[:, 0]
    of = [onset for onset, *_ in hypotheses()]
    told = np.bincount(of[:-1], weights[:-1])
    assert told.argmax() == place
