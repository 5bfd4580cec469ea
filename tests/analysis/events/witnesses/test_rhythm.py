"""The rhythm as a witness: low bounces of equal height and beat are strides; few, high or uneven ones are not."""

import numpy as np
import pytest
from leapwright.analysis import Limits, Track, World
from leapwright.analysis.cases.collect import cases_of
from leapwright.analysis.events.weights import nats
from leapwright.analysis.events.witnesses import rhythm
from leapwright.analysis.samples.poses import poses_of

FPS = 24.0
BEAT = 8
"""Frames from step to step: three a second, a runner's cadence (common practice, no source)."""


def bounces(*rises: float, beat: int = BEAT) -> list[rhythm.Testimony | None]:
    """Return what is said of each of these rises (meters), one after the other: cosines, each one beat long."""
    phase = np.arange(beat) / beat
    heights = np.concatenate([[0.0], *(rise * 0.5 * (1.0 - np.cos(2.0 * np.pi * phase)) for rise in rises), [0.0] * 2])
    track = Track("Brindle", FPS, np.arange(float(len(heights))), np.stack((0 * heights, 0 * heights, heights), axis=1))
    return [rhythm.hear(case) for case in cases_of(track, poses_of(track), None, World(), Limits())]


def test_each_of_many_low_ones_is_a_stride() -> None:
    said = bounces(*[0.09] * 6)
    assert len(said) == 6
    for one in said:
        assert one is not None
        assert one.nats == nats({"strides": 1.0}) < 0.0
        assert one.takeoff == one.landing == ()


@pytest.mark.parametrize("count", [1, 2, rhythm.FEWEST_STRIDES - 1])
def test_few_are_no_rhythm(count: int) -> None:
    assert bounces(*[0.09] * count) == [None] * count


@pytest.mark.parametrize(("rise", "is_stride"), [(0.12, True), (0.145, False)])
def test_a_person_who_rises_by_more_than_13_centimeters_hops_however_often(rise: float, is_stride: bool) -> None:
    # Steps raise the center of mass by 4 to 13 cm (from memory).
    assert [one is not None for one in bounces(*[rise] * 8)] == [is_stride] * 8


def test_strides_that_differ_by_a_fifth_are_still_strides() -> None:
    assert None not in bounces(*[0.1, 0.08] * 4)


def test_one_that_stands_out_of_the_strides_is_none() -> None:
    said = bounces(0.08, 0.08, 0.08, 0.08, 0.08, 0.125, 0.08, 0.08, 0.08, 0.08, 0.08)
    assert [one is None for one in said] == [False] * 5 + [True] + [False] * 5
