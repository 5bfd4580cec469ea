"""Tops and bottoms are where the height turns by more than the swing asked for; small wobbles are none."""

import numpy as np
import pytest
from leapwright.analysis.samples.turns import Descent, Turn, descents, tops

ZIGZAG = np.array([0.0, 1.0, 2.0, 1.0, 0.5, 1.5, 3.0, 2.0, 0.0])
"""Bottoms at 0, 4 and 8, tops at 2 and 6."""


def test_each_top_lies_between_the_lowest_samples_around_it():
    assert tops(ZIGZAG, 0.2) == [Turn(0, 2, 4), Turn(4, 6, 8)]


def test_a_top_lower_than_the_swing_on_one_side_is_part_of_its_neighbor():
    # From 2.0 it falls by 1.5 only before it rises again.
    assert tops(ZIGZAG, 1.6) == [Turn(0, 6, 8)]


def test_each_way_down_runs_from_a_top_to_a_bottom():
    assert descents(ZIGZAG, 0.2) == [Descent(2, 4), Descent(6, 8)]
    assert descents(ZIGZAG, 2.0) == [Descent(6, 8)]


def test_a_wobble_under_the_swing_does_not_split_a_top():
    seconds = np.arange(241) / 24
    slow, wobble = np.sin(np.pi * seconds / 10), 0.01 * np.sin(2 * np.pi * 3 * seconds)
    assert len(tops(slow + wobble, 0.05)) == 1
    assert len(tops(slow + wobble, 0.005)) > 1


def test_a_sine_has_a_top_in_each_of_its_periods():
    # sin(2πt/24) tops at 6, 30, 54, … and bottoms at 18, 42, …: exactly, on whole samples.
    found = tops(np.sin(2 * np.pi * np.arange(97) / 24), 0.1)
    assert [top.top for top in found] == [6, 30, 54, 78]
    assert [top.before for top in found][1:] == [18, 42, 66]
    assert [top.after for top in found][:-1] == [18, 42, 66]


@pytest.mark.parametrize(
    "heights",
    [np.zeros(9), np.arange(9.0), -np.arange(9.0), np.array([1.0, 0, 0, 0, 2]), np.zeros(1)],
    ids=["constant", "rising", "falling", "ends only", "one sample"],
)
def test_what_does_not_turn_over_has_no_top(heights):
    assert tops(heights, 0.1) == []


def test_a_plateau_is_one_top_and_lies_on_it():
    (top,) = tops(np.array([0.0, 0, 1, 1, 1, 0, 0]), 0.5)
    assert top.top in (2, 3, 4)
    # Lowest sample on either side: any of the level ones.
    assert top.before <= 1 and top.after >= 5


def test_no_swing_at_all_is_asked_for_by_one_sample_of_difference():
    assert [top.top for top in tops(np.array([0.0, 1e-6, 0.0]), 1e-6)] == [1]


def test_tops_are_mirrored_when_time_is():
    heights = np.cumsum(np.random.default_rng(4).normal(size=200))
    last = len(heights) - 1
    backward = [Turn(last - top.after, last - top.top, last - top.before) for top in tops(heights[::-1], 1.0)]
    assert backward[::-1] == tops(heights, 1.0)
