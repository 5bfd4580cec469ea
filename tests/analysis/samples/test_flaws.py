"""Bad frames of a smooth motion: one sample is off, repeated or missing; and motion without a bad frame."""

import numpy as np
import pytest
from leapwright.analysis.samples.flaws import outliers, stumbles, through

FRAMES = np.arange(60.0)


def flight() -> np.ndarray:
    """Return a body in the air for 40 frames at 24 a second, on its hold before and after."""
    t = (FRAMES - 10) / 24
    return np.where((FRAMES > 10) & (FRAMES < 50), 4.905 * t * (40 / 24 - t), 0.0)


@pytest.mark.parametrize("by", [0.009, -0.009, 0.04, -0.06])
@pytest.mark.parametrize("at", [16, 25, 30, 44])
def test_one_sample_off_its_neighbors_is_found_and_where_it_belongs(at: int, by: float) -> None:
    heights = flight()
    true = heights[at]
    heights[at] += by
    assert outliers(heights, 1e-6).tolist() == [at]
    # A cubic passes through a parabola's samples exactly.
    assert through(heights, np.array([at]))[0] == pytest.approx(true, abs=1e-9)


def test_takeoff_and_landing_are_no_bad_frames() -> None:
    assert outliers(flight(), 1e-6).tolist() == []
    assert outliers(np.abs(FRAMES - 30) / 24, 1e-6).tolist() == [], "a bounce is none"


@pytest.mark.parametrize("sigma", [0.001, 0.006])
def test_white_noise_has_hardly_any(sigma: float) -> None:
    rng = np.random.default_rng(5)
    found = sum(len(outliers(flight() + rng.normal(0.0, sigma, 60), sigma)) for _ in range(100))
    assert found <= 1  # of 5400 samples in all; ten times as many held one


def along() -> np.ndarray:
    """Forward at 3 m/s, up and down by a sine."""
    return np.stack((3.0 * FRAMES / 24, 0 * FRAMES, 0.4 * np.sin(FRAMES / 7)), axis=1)


@pytest.mark.parametrize("at", [5, 20, 33, 50])
def test_a_frame_that_repeats_and_one_that_is_missing_are_told_apart(at: int) -> None:
    doubled = np.insert(along(), at, along()[at - 1], axis=0)
    same, missing = stumbles(doubled, 1e-6)
    assert same.tolist() == [at] and missing.tolist() == []
    same, missing = stumbles(np.delete(along(), at, axis=0), 1e-6)
    assert same.tolist() == [] and missing.tolist() == [at]


def test_holds_turns_and_a_push_that_speeds_up_are_no_stumbles() -> None:
    held = along()
    held[20:26] = held[20]
    back = np.stack((np.abs(FRAMES - 30), 0 * FRAMES, 0 * FRAMES), axis=1)
    faster = np.stack((0.002 * FRAMES**2, 0 * FRAMES, 0 * FRAMES), axis=1)
    for positions in (held, back, faster):
        assert [found.tolist() for found in stumbles(positions, 1e-6)] == [[], []]
