"""Rests: the levels that a track holds, drawn here by hand."""

import numpy as np
import pytest
from leapwright.analysis.samples.rests import LASTING, held_between, rests_of

STAND, CROUCH = 1.0, 0.6


def held(*parts: tuple[float, int]) -> np.ndarray:
    """Return levels, each held for so many samples, with a jump from one to the next."""
    return np.concatenate([np.full(count, level) for level, count in parts])


def rests(heights: np.ndarray, *, fps: float = 24.0, within: float = 0.02):
    return rests_of(np.arange(len(heights), dtype=float), heights, fps=fps, within=within)


def test_each_level_held_is_a_rest_with_its_height() -> None:
    found = rests(held((STAND, 20), (CROUCH, 12), (STAND, 9)))
    assert [(rest.first, rest.last) for rest in found] == [(0, 19), (20, 31), (32, 40)]
    assert [rest.end for rest in found] == [STAND, CROUCH, STAND]


@pytest.mark.parametrize("fps", [12.0, 24.0, 60.0, 120.0])
def test_what_is_held_for_less_than_its_time_is_none(fps: float) -> None:
    long = int(np.ceil(LASTING * fps)) + 1
    assert len(rests(held((STAND, long), (CROUCH, long - 1)), fps=fps)) == 1


def test_a_slow_drift_is_one_rest_that_ends_elsewhere() -> None:
    # 2 cm in 0.3 s are allowed: 4 cm a second drifts on and on.
    (rest,) = rests(1.0 + 0.04 * np.arange(48) / 24)
    assert rest.end - rest.start == pytest.approx(0.04 * (48 - 9) / 24, abs=1e-9)


@pytest.mark.parametrize("count", [0, 1, 2, 5])
def test_a_track_too_short_to_rest_has_none(count: int) -> None:
    assert rests(np.ones(count)) == []


def test_keys_of_one_height_hold_it_whatever_lies_between_them() -> None:
    frames = np.arange(1.0, 61.0)
    heights = STAND + 0.06 * np.sin(np.pi * (frames - 1.0) / 29.0)  # overshoots by 6 cm between frames 1 and 30
    (rest,) = held_between(np.array([1.0, 30.0, 45.0, 50.0]), frames, heights, fps=24.0, within=0.02)
    assert (rest.first, rest.last, rest.keyed) == (0, 29, True)
    assert rest.start == rest.end == pytest.approx(STAND)


@pytest.mark.parametrize(("apart", "held"), [(7, 0), (8, 1)])
def test_keys_hold_a_level_for_its_least_time(apart: int, held: int) -> None:
    # 0.3 s at 24 frames a second are 7.2 frames.
    frames = np.arange(0.0, 20.0)
    keys = np.array([2.0, 2.0 + apart])
    assert len(held_between(keys, frames, np.full(20, STAND), fps=24.0, within=0.02)) == held
