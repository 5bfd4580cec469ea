"""Noise moves the contacts to neither side, and the stated errors hold them: jumps by random forces.

Half of them end their push at once, as drawings do, half as recorded people do: a height alone does not tell
which, so the mean of both is what can be without bias.
"""

from functools import cache

import numpy as np
import pytest

from tests.bench.bias import scored
from tests.bench.tally import CONTACTS, Tally

from .integrated import NOISES, RATES

TRIES = 7
"""Seeds of each way, rate and noise."""
WAYS = ("drawn", "recorded")
MOST = {24.0: 0.1, 30.0: 0.1, 60.0: 0.25}
"""Frames, by rate: the mean error of takeoff and landing over all noises, some 4 ms (ours)."""
HEIGHT = 0.02
"""Mean relative error of the jump height (ours)."""
FOUND = 0.96
"""Share of the jumps that are found (ours)."""
NOISY = tuple(noise for noise in NOISES if noise)


@cache
def seen(way: str, fps: float, noise: float) -> tuple[Tally, list[float]]:
    return scored(way, fps, noise, TRIES)


def pooled(fps: float, name: str) -> tuple[np.ndarray, np.ndarray]:
    """Errors and stated errors at a rate, over all noises and both ways."""
    tallies = [seen(way, fps, noise)[0] for way in WAYS for noise in NOISY]
    return tuple(np.concatenate([getattr(one, what)[name] for one in tallies]) for what in ("errors", "stated"))


@pytest.mark.parametrize("fps", RATES)
def test_the_mean_error_of_takeoff_is_near_zero(fps: float) -> None:
    assert near_zero(fps, "takeoff")


@pytest.mark.parametrize("fps", RATES)
def test_the_mean_error_of_landing_is_near_zero(fps: float) -> None:
    assert near_zero(fps, "landing")


def near_zero(fps: float, name: str) -> bool:
    """Tell whether the mean error keeps its bound; the mean of so many is itself known to one standard error."""
    errors, _ = pooled(fps, name)
    return abs(errors.mean()) <= MOST[fps] + errors.std() / np.sqrt(len(errors))


@pytest.mark.parametrize("fps", RATES)
def test_heights_are_neither_high_nor_low(fps: float) -> None:
    heights = np.concatenate([seen(way, fps, noise)[1] for way in WAYS for noise in NOISY])
    assert abs(heights.mean()) <= HEIGHT + heights.std() / np.sqrt(len(heights))


@pytest.mark.parametrize("name", CONTACTS)
def test_the_stated_errors_hold_contacts_under_noise(name: str) -> None:
    errors, stated = (np.concatenate(parts) for parts in zip(*(pooled(fps, name) for fps in RATES), strict=True))
    # 95 % intervals: 90 % at least, and 99 at most with the deviation of a share of so many.
    held, slack = np.mean(np.abs(errors) <= 1.96 * stated), np.sqrt(0.99 * 0.01 / len(errors))
    assert 0.90 <= held <= 0.99 + slack


@pytest.mark.parametrize("fps", RATES)
def test_jumps_are_found_under_noise(fps: float) -> None:
    tallies = [seen(way, fps, noise)[0] for way in WAYS for noise in NOISES]
    assert sum(one.found for one in tallies) >= FOUND * sum(one.truths for one in tallies)
