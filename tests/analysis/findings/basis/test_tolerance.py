"""No verdict is tighter than the rounding of whole frames and the stated error allow."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from leapwright.analysis import Followed, Limits
from leapwright.analysis.findings.basis.tolerance import beyond, gravity_off, push_off, travel_band

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
