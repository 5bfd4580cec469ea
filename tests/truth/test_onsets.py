"""However its force sets in, a push begins within what is said, under noise as without: where the model has no formula.

Forces that are there at once and forces that set in as smoothly as a reach look alike under noise but for when they
begin. What is told is held for each kind by itself: 90 to 99 of 100 true starts within two errors, less what chance
does to so many, and not off to one side by more than an error.
"""

from functools import cache

import numpy as np
import pytest
from leapwright.analysis import audit_track

from .onsets import AT_ONCE, ONSETS, make

SEEDS = 8
NOISES = (0.0005, 0.0015, 0.005)
EVENTS = ("crouch", "absorbed")


@cache
def off(onset: str, noise: float) -> np.ndarray:
    """Return misses of crouch and absorbed in errors, late for the body is positive, and in shares of the push."""
    seen = []
    for fps in (24.0, 30.0, 60.0):
        for seed in range(900, 900 + SEEDS):
            motion = make(onset, fps, noise, seed)
            (truth,) = motion.truth
            jumps = [one for one in audit_track(motion.track).jumps if truth.takeoff < one.apex.frame < truth.landing]
            for name, end, sign in zip(EVENTS, ("takeoff", "landing"), (1.0, -1.0), strict=True):
                event = getattr(jumps[0], name) if jumps else None
                if event is not None:
                    miss = sign * (event.frame - getattr(truth, name))
                    seen.append((miss / event.frame_error, miss / abs(getattr(truth, end) - getattr(truth, name))))
    return np.array(seen)


def every(onset: str, noises: tuple[float, ...] = NOISES) -> np.ndarray:
    return np.concatenate([off(onset, noise) for noise in noises])


@pytest.mark.parametrize("onset", ONSETS)
def test_nine_in_ten_begin_within_two_errors_however_their_force_sets_in(onset: str) -> None:
    errors = every(onset)[:, 0]
    assert len(errors) >= 0.95 * 2 * 3 * SEEDS * len(NOISES)
    # 90 in 100, less two deviations of a share of so many.
    assert np.mean(np.abs(errors) <= 1.96) >= 0.90 - 2.0 * np.sqrt(0.9 * 0.1 / len(errors))
    # What cannot be told leaves each kind to one side, by no more than an error in the middle.
    assert abs(np.median(errors)) <= 1.0


@pytest.mark.parametrize("noise", NOISES)
def test_an_error_is_neither_too_wide_nor_too_narrow_over_all_kinds(noise: float) -> None:
    errors = np.concatenate([off(onset, noise) for onset in ONSETS])[:, 0]
    assert 0.90 <= np.mean(np.abs(errors) <= 1.96) <= 0.99
    assert 0.7 <= 1.0 / np.percentile(np.abs(errors), 68.27) <= 1.4
    assert abs(np.median(errors)) <= 0.5


def test_forces_at_once_are_told_later_than_smooth_ones_by_no_more_than_a_seventh_of_the_push() -> None:
    # One fixed shift for both was off by 0.17 of the push in the middle for those at once.
    sudden = np.concatenate([every(onset) for onset in AT_ONCE])[:, 1]
    smooth = np.concatenate([every(onset) for onset in ONSETS if onset not in AT_ONCE])[:, 1]
    assert abs(np.median(sudden)) <= 0.1
    assert abs(np.median(smooth)) <= 0.04
    assert np.median(smooth) - np.median(sudden) <= 1.0 / 7.0


@pytest.mark.parametrize("onset", ONSETS)
def test_without_noise_the_start_is_known_within_a_tenth_of_the_push(onset: str) -> None:
    errors, shares = off(onset, 0.0).T
    # Six in seven of each kind: what is seen then is so much that no ramp of the model's is quite the one that was.
    assert np.mean(np.abs(errors) <= 1.96) >= 0.86 - 2.0 * np.sqrt(0.86 * 0.14 / len(errors))
    assert np.percentile(np.abs(shares), 68.27) <= 0.1


def test_without_noise_nine_in_ten_of_all_kinds_begin_within_two_errors() -> None:
    assert np.mean(np.abs(np.concatenate([off(onset, 0.0) for onset in ONSETS])[:, 0]) <= 1.96) >= 0.9
