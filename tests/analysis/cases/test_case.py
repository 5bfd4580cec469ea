"""Where a body stands beside a jump: between its neighbors, beyond them, and no crouch that is held."""

import numpy as np
import pytest
from leapwright.analysis import Limits, Track, World
from leapwright.analysis.cases.case import Case
from leapwright.analysis.cases.collect import cases_of
from leapwright.analysis.samples.poses import poses_of
from scipy.interpolate import PchipInterpolator

LOW, HIGH = 1.0, 1.2
CROUCH, TOP = 0.6, 1.7
HOLD, MOVE = 12, 6
"""Frames that a level is held, and that it takes to the next: half and a quarter of a second."""


def through(*levels: float) -> list[Case]:
    """Go from level to level, meters, at 24 frames a second, and hold each; one with its sign turned is passed."""
    frames, heights = [-float(MOVE)], [abs(levels[0])]
    for level in levels:
        frames.append(frames[-1] + MOVE)
        heights.append(abs(level))
        if level > 0.0:
            frames.append(frames[-1] + HOLD)
            heights.append(level)
    every = np.arange(frames[-1] + 1)
    z = np.interp(every, frames, heights)
    track = Track("Harbourer", 24.0, every, np.column_stack([0 * z, 0 * z, z]))
    return cases_of(track, poses_of(track), None, World(), Limits())


def test_a_body_stands_at_the_level_it_holds_before_and_after_the_jump() -> None:
    (case,) = through(LOW, -CROUCH, -TOP, -CROUCH, HIGH)
    assert case.rising.stand == pytest.approx(LOW) and case.falling.stand == pytest.approx(HIGH)


def test_between_two_jumps_that_flow_it_may_stand_as_before_or_as_after_them() -> None:
    """From the ground onto a box, and from there onto the next: who can tell on which jump it came how high?"""
    first, second = through(LOW, -CROUCH, -TOP, -CROUCH, -TOP, -CROUCH, HIGH)
    assert (first.rising.stand, first.falling.stand) == (pytest.approx(LOW), None)
    assert (second.rising.stand, second.falling.stand) == (None, pytest.approx(HIGH))
    for side in (first.falling, second.rising):
        assert sorted(side.levels) == pytest.approx([LOW, HIGH])


def test_a_crouch_that_is_held_is_no_stand() -> None:
    (case,) = through(CROUCH, -TOP, -CROUCH, HIGH)
    assert case.rising.stand is None
    assert case.rising.levels[0] == pytest.approx(HIGH)


def test_a_stand_before_a_held_crouch_is_the_stand() -> None:
    (case,) = through(LOW, CROUCH, -TOP, -CROUCH, HIGH)
    assert case.rising.stand == pytest.approx(LOW)


def test_a_track_that_begins_slowly_on_its_way_down_may_begin_at_a_stand() -> None:
    (case,) = through(-LOW, -0.9, -CROUCH, -TOP, -CROUCH, HIGH)
    assert case.rising.stand is None and case.rising.levels[0] == pytest.approx(LOW)


def test_a_track_that_begins_a_third_as_fast_as_the_jump_begins_at_no_stand() -> None:
    """It sinks by 0.4 m in the time in which it then rises by 1.1 m."""
    (case,) = through(-LOW, -CROUCH, -TOP, -CROUCH, HIGH)
    assert case.rising.levels == pytest.approx([HIGH])


def test_a_seat_that_is_left_is_no_stand_where_the_body_is_fastest_about_another() -> None:
    """From a seat of 0.6 m it rises slowly, then faster and faster until it leaves the ground at about 1.2 m."""
    (case,) = through(CROUCH, -0.58, -0.7, -1.2, -TOP, -CROUCH, HIGH)
    assert case.rising.stand is None and case.rising.levels == pytest.approx([HIGH])


def test_hips_that_stay_over_the_stand_as_they_land_met_the_ground_at_their_lowest() -> None:
    """They land at 1.05 m and sink to the stand of 1 m from there: 5 cm of a fall of 0.65 m, which limbs may carry."""
    case, _ = through(LOW, -CROUCH, -TOP, -1.05, -1.12, LOW)
    assert case.falling.levels[0] == pytest.approx(1.05)
    higher, _ = through(LOW, -CROUCH, -TOP, -1.1, -1.2, LOW)  # 10 cm of a fall of 0.6 m are more than limbs carry
    assert higher.falling.levels == ()


def test_a_height_that_was_stood_at_before_is_no_apex() -> None:
    """From a stand it squats, comes up to it, and squats again: where it stands in between is seen nowhere else."""
    case = through(HIGH, CROUCH, -HIGH, CROUCH)[0]
    assert not case.rising.levels and not case.falling.levels and case.stays_under


def test_a_track_that_begins_slowly_at_the_height_of_the_top_begins_at_a_stand() -> None:
    (case,) = through(-HIGH, -1.18, -CROUCH, -HIGH, -CROUCH)[:1]
    assert case.rising.stand is None and case.falling.stand is None and case.stays_under


def test_who_squats_for_long_stays_under_the_height_last_stood_at() -> None:
    """Five squats, 1 s apart, after a stand: the last one is over 3 s from it."""
    down = (-CROUCH, -CROUCH, -LOW, -LOW)
    cases = through(LOW, *(down * 5), -CROUCH)
    assert len(cases) == 5
    assert cases[-1].stays_under


@pytest.mark.parametrize("seed", range(40))
def test_a_squat_that_is_held_under_noise_is_no_stand(seed: int) -> None:
    """White noise of 5 mm; the lowest of some 40 samples at rest then lies 2.2 σ under their mean (Tippett 1925).

    From a squat of 0.5 m up to 1 m and back, in five sixths of a second each way: what is held is the bottom.
    """
    frames = np.arange(241.0)
    z = np.interp(frames, [0, 60, 100, 140, 240], [0.5, 0.5, 1.0, 0.5, 0.5])
    z += np.random.default_rng(seed).normal(0.0, 0.005, len(z))
    track = Track("Harbourer", 48.0, frames, np.column_stack([0 * z, 0 * z, z]))
    (case,) = [one for one in cases_of(track, poses_of(track), None, World(), Limits()) if one.rising.samples.top > 0.9]
    for side in (case.rising, case.falling):
        assert side.stand is None and side.is_held


@pytest.mark.parametrize("seed", range(8))
def test_a_stand_ten_deviations_over_a_dip_is_one(seed: int) -> None:
    """A hop from the ankles, 5 cm down and 0.5 m up, under noise of 5 mm."""
    frames = np.arange(241.0)
    z = np.interp(frames, [0, 60, 72, 92, 112, 124, 240], [1.0, 1.0, 0.95, 1.5, 0.95, 1.0, 1.0])
    z += np.random.default_rng(seed).normal(0.0, 0.005, len(z))
    track = Track("Harbourer", 48.0, frames, np.column_stack([0 * z, 0 * z, z]))
    (case,) = [one for one in cases_of(track, poses_of(track), None, World(), Limits()) if one.rising.samples.top > 1.4]
    for side in (case.rising, case.falling):
        assert side.stand == pytest.approx(1.0, abs=0.02) and not side.is_held


def test_a_pose_that_is_held_from_the_first_is_a_stand() -> None:
    """Poses of 7 frames and fewer, none of them held for longer: a stand of 1 m, a crouch, the takeoff, the apex."""
    keys, levels = np.array([1, 8, 13, 20, 27, 34, 41]), np.array([1.0, 0.7, 1.0, 1.4, 1.0, 0.7, 1.0])
    frames = np.arange(1.0, 48.0)
    z = levels[np.searchsorted(keys, frames, side="right") - 1]
    track = Track("Harbourer", 24.0, frames, np.column_stack([0 * z, 0 * z, z]), keys, interpolation="constant")
    (case,) = cases_of(track, poses_of(track), None, World(), Limits())
    assert case.rising.levels[0] == pytest.approx(1.0)


@pytest.mark.parametrize(("beat", "are_sparse"), [(2, False), (3, True), (4, True)])
def test_keys_on_a_beat_tell_more_than_the_curve_where_an_arc_sags_between_them(beat: int, are_sparse: bool) -> None:
    # A jump of 0.64 m out of a crouch of 0.4: keys of 1.04 m in all are off by 0.003 of that, 3 mm, when set by hand
    # (samples/poses.py), and four times as much is 12.5 mm. Between keys 2, 3 and 4 frames apart an arc sags by
    # 9.8 (n / 24)² / 8: 8.5, 19 and 34 mm. They are off by 1 mm here, to and fro, so no curve was drawn as an arc.
    frames = np.arange(0.0, 97.0)
    keys = frames[::beat]
    poses = [(0, 1.0), (24, 1.0), (32, 0.6), (38, 1.0), *[(38 + n, 1.0 + 0.5 * 9.8 * n * (17.33 - n) / 576)
             for n in range(1, 18)], (62, 0.65), (74, 1.0), (96, 1.0)]  # fmt: skip
    set_by_hand = np.interp(keys, *np.array(poses, dtype=float).T) + 0.001 * (-1.0) ** np.arange(len(keys))
    z = PchipInterpolator(keys, set_by_hand)(frames)
    places = np.column_stack([0 * z, 0 * z, z])
    track = Track("Harbourer", 24.0, frames, places, key_frames=keys, interpolation="bezier")
    (case,) = cases_of(track, poses_of(track), None, World(), Limits())
    there = case.rising.samples.keys
    assert (there is not None) is are_sparse
    if there is not None:
        assert there[0][0] >= 28.0 and there[0][-1] <= 66.0 and np.all(np.isin(there[0], keys))
        assert (-there[0][::-1]).tolist() == case.falling.samples.keys[0].tolist()


def test_a_squat_after_a_rest_is_no_landing_however_fast_it_is() -> None:
    # It lands from 1.3 m on straight legs at 1 m, 6 frames a level, rests, and drops into a squat at twice the speed.
    (case,) = through(LOW, -CROUCH, -1.3, LOW, -0.4)
    rested = case.falling.samples.rested
    assert rested and case.falling.samples.heights[rested] == pytest.approx(LOW)
    first, last = case.falling.samples.fast
    assert -first < -case.falling.samples.frames[rested] + 1.0 and case.falling.samples.height_at(last) > LOW
    # A rest beyond the bottom is none on the way, and neither is a held top.
    assert case.rising.samples.rested == 0
