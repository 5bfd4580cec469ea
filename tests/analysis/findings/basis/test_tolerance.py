"""No verdict is tighter than the rounding of whole frames and the stated error allow."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from leapwright.analysis import Followed, Limits
from leapwright.analysis.findings.basis.tolerance import beyond, course_of, gravity_off, push_off, travel_band
from leapwright.analysis.quantity import as_ratio, in_frames

from tests.analysis.closed_form import G, Leap, measured, pinned


@given(off=st.floats(-10, 10), band=st.floats(0.01, 5), error=st.floats(0, 5))
def test_what_is_told_leaves_its_band_and_two_errors(off: float, band: float, error: float) -> None:
    if beyond(off, band=band, error=error):
        assert abs(off) > band
        assert abs(off) > 2 * error


@given(off=st.floats(0, 10), band=st.floats(0.01, 5))
def test_without_an_error_the_band_is_the_edge(off: float, band: float) -> None:
    assert beyond(off, band=band, error=0.0) is (off > band)


def test_half_as_heavy_is_as_far_off_as_twice() -> None:
    limits = Limits()
    for ratio in (1.1, 1.2, 1.24, 1.26, 1.5, 2.0):
        heavy, light = (gravity_off(measured(Leap(height=2.0, gravity=G * r)), limits) for r in (ratio, 1 / ratio))
        assert (heavy == 1.0) == (light == 1.0)
        if heavy != 1.0:
            assert heavy * light == pytest.approx(1, rel=1e-4)


def test_unknown_is_not_within() -> None:
    assert push_off(pinned(Leap(), crouch=None), Limits()) is None
    assert push_off(measured(), Limits()) == 0.0


@pytest.mark.parametrize("follows", [Followed.CENTER_OF_MASS, Followed.THING])
def test_what_no_limb_moves_has_the_narrow_band(follows: Followed) -> None:
    assert travel_band(measured(Leap(follows=follows)), Limits()) == Limits().travel_band
    assert travel_band(measured(Leap(follows=Followed.BODY)), Limits()) == Limits().travel_band_root


@pytest.mark.parametrize(("lasts", "told"), [(5.9, False), (5.7, True)])
def test_a_rebound_may_be_as_short_as_the_release_of_a_spring(lasts: float, told: bool) -> None:
    # As deep as high: k = ½ sqrt(½) (π/2 + asin(1/3)) = 0.6755 of the 10 frames asked, and a frame less.
    jump = measured()
    short = {"frames": in_frames(lasts, 0.0), "expected": in_frames(10.0, 0.0), "excess": in_frames(lasts - 10.0, 0.0)}
    push = replace(jump.push, rebounds=True, ratio=as_ratio(1.0, 0.0), **short)
    assert (push_off(replace(jump, push=push), Limits()) != 0.0) is told


@pytest.mark.parametrize(
    ("airtime", "step", "gravity", "told"),
    # 2 steps over n air frames: a third of 6 on ones, and of 12 on twos. 1 / 0.77 is 0.299 over 1, 1 / 0.74 is 0.351.
    [(6.0, 1, 0.77, False), (6.0, 1, 0.74, True), (12.0, 2, 0.77, False), (12.0, 2, 0.74, True)],
)
def test_few_frames_in_the_air_have_a_band_of_two_steps_over_them(
    airtime: float, step: int, gravity: float, told: bool
) -> None:
    # A house that allows half a step of airtime; within a whole one both ends' rounding alone would leave no more.
    jump = measured()
    each = in_frames(0.44 * airtime, 0.0)
    flight = replace(jump.flight, airtime=in_frames(airtime, 0.0), rise_expected=each, fall_expected=each)
    flight = replace(flight, gravity=replace(flight.gravity, value=gravity * jump.gravity, error=0.0))
    off = gravity_off(replace(jump, flight=flight, step=step), Limits(frames_band=0.5))
    assert (off != 1.0) is told


@pytest.mark.parametrize(("error", "told"), [(0.15, True), (0.25, False)])
def test_a_gravity_known_too_loosely_is_not_off(error: float, told: bool) -> None:
    # 0.7 of g is 0.429 off: its band of 0.25 and one error, and two errors, reach 0.4 at 15 % and 0.5 at 25 %.
    jump = measured(Leap(height=2.0))
    flight = replace(jump.flight, airtime=in_frames(40.0, 0.0), gravity=replace(jump.flight.gravity, value=0.7 * G))
    flight = replace(flight, gravity=replace(flight.gravity, error=error * 0.7 * G))
    assert (gravity_off(replace(jump, flight=flight), Limits()) != 1.0) is told


@pytest.mark.parametrize(("distance", "goes"), [(0.19, False), (0.21, True)])
def test_a_jump_goes_somewhere_from_a_tenth_of_its_height_on(distance: float, goes: bool) -> None:
    # 2 m high: 0.2 m; less is sway.
    assert (course_of(measured(Leap(height=2.0, distance=distance)), Limits()) is not None) is goes
