"""A time map keeps keys in order, apart, and on whole frames where those hold them."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from leapwright.analysis.errors import RetimeError
from leapwright.analysis.time_map import TimeMap

PUSHED = TimeMap((10, 16, 24), (10, 20, 28))


@st.composite
def maps(draw):
    count = draw(st.integers(2, 6))
    gaps = draw(st.lists(st.integers(1, 30), min_size=2 * count, max_size=2 * count))
    old = np.cumsum(gaps[:count])
    new = old[0] + np.concatenate(([0], np.cumsum(gaps[count:-1])))
    return TimeMap(tuple(old), tuple(new), step=draw(st.sampled_from((1, 1, 2, 3))))


def test_nothing_moves_before_the_first_anchor_and_all_shifts_after_the_last():
    # Six frames from 10 on become ten, so that 13 goes to 15; all after 16 moves by 4.
    assert PUSHED.at([-3.0, 2.5, 10.0, 13.0, 16.0, 24.0, 40.25]).tolist() == [-3.0, 2.5, 10.0, 15.0, 20.0, 28.0, 44.25]
    assert PUSHED.shift == 4.0


def test_poses_between_anchors_go_to_whole_frames_apart_from_each_other():
    # 11 to 15 of six frames in four: 10.67, 11.33 ... 13.33 would be five poses on three whole frames.
    short = TimeMap((10, 16), (10, 14))
    np.testing.assert_allclose(short.place([11, 12, 13, 14, 15]), np.linspace(10, 14, 7)[1:-1])
    # Three poses fit: 11.33 and 12 and 12.67 part for 11, 12 and 13.
    assert short.place([12, 13, 14]).tolist() == [11.0, 12.0, 13.0]


def test_poses_on_twos_stay_on_twos_where_twos_hold_them():
    twos = TimeMap((11, 19, 27), (11, 21, 29), step=2)
    # 13, 15, 17 at 5/4 of their time are 13.5, 16 and 18.5; 16 is as near to 15 as to 17.
    assert twos.place([13, 15, 17, 21, 25]).tolist() in ([13.0, 15.0, 19.0, 23.0, 27.0], [13.0, 17.0, 19.0, 23.0, 27.0])
    tight = TimeMap((11, 19), (11, 15), step=2)
    assert tight.place([13, 15, 17]).tolist() == [12.0, 13.0, 14.0]


def test_a_stretch_that_keeps_its_length_keeps_its_sub_frames():
    assert PUSHED.place([17.3, 20.0, 23.9]).tolist() == pytest.approx([21.3, 24.0, 27.9])


def test_a_key_a_frame_that_draws_a_curve_is_a_run_and_held_poses_are_not():
    frames = np.array([11.0, 12.0, 13.0, 14.0, 15.0, 20.0])
    curve = np.zeros(6, int)
    assert PUSHED.runs(frames, curve, np.zeros(6)).tolist() == [True] * 5 + [False]
    assert not PUSHED.runs(frames, curve, np.ones(6)).any()


@given(maps(), st.lists(st.floats(-20, 220), max_size=60))
def test_a_map_rises_and_its_inverse_undoes_it(time_map, frames):
    frames = np.array(sorted(frames))
    moved = time_map.at(frames)
    assert (np.diff(moved) >= 0).all()
    np.testing.assert_allclose(time_map.back(moved), frames, atol=1e-9)


@given(maps(), st.sets(st.integers(-5, 200), max_size=80))
def test_whole_poses_never_meet_and_anchors_land_exactly(time_map, frames):
    frames = np.array(sorted(frames), float)
    placed = time_map.place(frames)
    assert (np.diff(placed) > 0).all()
    for old, new in zip(time_map.old, time_map.new, strict=True):
        assert (placed[frames == old] == new).all()
        assert ((placed < new) == (frames < old)).all()


@pytest.mark.parametrize(
    ("old", "new", "reason"),
    [
        ((), (), "at least one"),
        ((1, 2), (1,), "as many"),
        ((1, 1), (1, 2), "old frames .* must rise"),
        ((1, 5), (1, 0), "new frames .* must rise"),
        ((1, 5), (2, 5), "leaves its first frame"),
        ((1, float("nan")), (1, 5), "finite"),
    ],
)
def test_a_map_that_would_break_the_order_is_refused(old, new, reason):
    with pytest.raises(RetimeError, match=reason):
        TimeMap(old, new)
