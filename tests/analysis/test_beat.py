"""Beat rounds frames for all rooms: onto the poses, to the nearest, a half upwards, to one step at least."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from leapwright.analysis.beat import Beat, frames_said, left_over, nearest, whole

from tests.analysis.closed_form import keyed


def test_on_twos_the_beat_is_counted_from_the_poses() -> None:
    jump = keyed((5, 0.7), (11, 1.0), (19, 1.5), (27, 1.0), step=2)
    assert [jump.beat.at(frame) for frame in (10.2, 11.8, 12.3, 14.1)] == [11, 11, 13, 15]


@given(frame=st.floats(-500.0, 500.0), start=st.integers(-50, 50), step=st.integers(1, 4))
def test_no_pose_lies_nearer_than_the_one_that_is_given(frame: float, start: int, step: int) -> None:
    at = Beat(float(start), step).at(frame)
    assert (at - start) % step == 0
    assert abs(at - frame) <= 0.5 * step + 1e-9
    assert at in Beat(float(start), step).near(frame)


def test_a_half_goes_up_whatever_stands_before_it() -> None:
    # The same half from frame to frame: rounding to even would give 2, 4, 4 and tear equal stretches apart.
    assert [whole(frames, step=1) for frames in (1.5, 2.5, 3.5, -0.5)] == [2, 3, 4, 0]
    assert [whole(frames, step=2) for frames in (13.0, 15.0)] == [14, 16]


def test_a_length_is_one_step_at_least() -> None:
    assert [Beat(1.0, 2).length(frames) for frames in (0.2, 2.9, 3.0, 5.4)] == [2, 2, 4, 6]


@given(frames=st.floats(0.1, 60.0), step=st.integers(1, 4))
def test_nearest_is_nearest_in_ratio(frames: float, step: int) -> None:
    got = nearest(frames, step=step)
    assert got % step == 0 and got >= step
    off = max(got / frames, frames / got)
    for other in range(step, 80, step):
        assert off <= max(other / frames, frames / other) * (1.0 + 1e-12)


@pytest.mark.parametrize(
    ("frames", "text"), [(0.0, "exact"), (0.04, "exact"), (0.31, "0.3 frames over"), (-1.0, "1 frame short")]
)
def test_what_is_left_over_is_said(frames: float, text: str) -> None:
    assert left_over(frames) == text


def test_one_frame_is_no_frames() -> None:
    assert [frames_said(frames) for frames in (1.0, 1.04, 2.0, 0.5)] == ["1 frame", "1 frame", "2 frames", "0.5 frames"]
