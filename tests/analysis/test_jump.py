"""The laws of a jump, on whatever is measured: physics that must hold for every height, push and style."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from leapwright.analysis import World
from leapwright.analysis.figures import error_of, value_of

from tests.analysis.closed_form import G, Leap, eased, keyed, measured

HEIGHTS = st.floats(0.15, 3.0)
RATIOS = st.floats(0.3, 6.0)
SHAPES = st.floats(0.5, 1.6)


@settings(max_examples=60, deadline=None)
@given(height=HEIGHTS, ratio=RATIOS, k=SHAPES)
def test_the_mean_force_over_the_push_is_one_body_weight_more_than_the_ratio(height, ratio, k) -> None:
    # Work and energy, for any shape: the force (g + acceleration) averaged over the distance, in units of g.
    leap = Leap(height=height, push=height / ratio, **eased(k))
    _, takeoff, *_ = leap.events()
    # 20 001 instants: the one-sided slopes at both ends leave the mean off by up to 1e-4 of it.
    seconds = np.linspace(0, (takeoff - leap.crouch_at) / leap.fps, 20001)
    rise = leap.push * leap.shape(seconds / seconds[-1])
    speed = np.gradient(rise, seconds)
    force = 1 + np.gradient(speed, seconds) / G
    mean = np.sum(0.5 * (force[1:] + force[:-1]) * np.diff(rise)) / leap.push
    assert measured(leap).push.body_weights == pytest.approx(mean, rel=2e-4)


@settings(max_examples=60, deadline=None)
@given(height=HEIGHTS, ratio=RATIOS, gravity=st.floats(1.0, 25.0))
def test_a_constant_push_takes_the_rise_over_the_ratio(height, ratio, gravity) -> None:
    # v = sqrt(2 g h), push time 2 d / v, rise v / g: their ratio is d / h, whatever the gravity.
    jump = measured(Leap(height=height, push=height / ratio, gravity=gravity))
    speed = math.sqrt(2 * gravity * height)
    assert jump.push.frames.value == pytest.approx(2 * height / ratio / speed * 24)
    assert jump.push.expected.value == pytest.approx(jump.push.frames.value, rel=1e-6)
    assert jump.push.agreement.value == pytest.approx(1, rel=1e-5)


@settings(max_examples=40, deadline=None)
@given(height=HEIGHTS, pace=st.floats(0.4, 1.9))
def test_a_style_carried_over_changes_the_paces_alike_and_the_agreement_not(height, pace) -> None:
    # All times divided by the pace: speeds times pace, accelerations times its square.
    jump = measured(Leap(height=height, gravity=G * pace**2, crouch_at=15.3))
    assert jump.flight.pace.value == pytest.approx(pace, rel=1e-5)
    assert jump.push.pace.value == pytest.approx(pace, rel=1e-5)
    assert jump.push.agreement.value == pytest.approx(1, rel=1e-5)


@settings(max_examples=40, deadline=None)
@given(size=st.floats(0.5, 20.0))
def test_a_giant_takes_the_root_of_his_size_longer_at_the_same_ratio(size) -> None:
    # Equal Froude number: time as sqrt(length / g).
    small, large = measured(Leap()), measured(Leap(height=0.45 * size, push=0.35 * size, absorb=0.3 * size))
    assert large.push.ratio.value == pytest.approx(small.push.ratio.value)
    for name in ("push_frames", "rise_frames", "fall_frames", "absorb_frames", "push_frames_expected"):
        assert value_of(large, name) == pytest.approx(math.sqrt(size) * value_of(small, name), rel=1e-6)


@settings(max_examples=40, deadline=None)
@given(height=HEIGHTS, lower=st.floats(-0.1, 3.0))
def test_a_real_jump_takes_the_frames_it_is_expected_to_take(height, lower) -> None:
    jump = measured(Leap(height=height, lower=lower))
    assert jump.flight.rise.value == pytest.approx(jump.flight.rise_expected.value, rel=1e-9)
    assert jump.flight.fall.value == pytest.approx(jump.flight.fall_expected.value, rel=1e-9)
    # Landing lower by delta: T = (v + sqrt(v² + 2 g delta)) / g.
    speed = math.sqrt(2 * G * height)
    assert jump.flight.airtime.value == pytest.approx((speed + math.sqrt(speed**2 + 2 * G * lower)) / G * 24)


SHAPE_TABLE = {
    # k of standard push curves: half the end slope of the curve normalized in both axes.
    "linear": (lambda s: s, 1.0, 0.5),
    "quadratic": (lambda s: s**2, 2.0, 1.0),
    "cubic": (lambda s: s**3, 3.0, 1.5),
    "quartic": (lambda s: s**4, 4.0, 2.0),
    "sine": (lambda s: 1 - np.cos(np.pi * s / 2), np.pi / 2, np.pi / 4),
}


@pytest.mark.parametrize("name", SHAPE_TABLE)
def test_the_push_shape_is_half_the_end_slope_of_the_push(name: str) -> None:
    shape, slope, k = SHAPE_TABLE[name]
    jump = measured(Leap(height=0.8, push=0.5, shape=shape, slope=slope))
    assert jump.push.shape.value == pytest.approx(k, rel=1e-4)


@pytest.mark.parametrize("n", [6, 8, 12, 16, 24])
@pytest.mark.parametrize("e", [-1, 1])
def test_gravity_from_whole_frames_is_off_by_no_more_than_their_rounding(n: int, e: int) -> None:
    # Height right, true airtime n + e, keyed in n. Both ends rounded by half a frame the same way are the worst.
    height = G * ((n + e) / 24 / 2) ** 2 / 2
    jump = keyed((0, 0.9), (4, 1.0), (4 + n // 2, 1.0 + height), (4 + n, 1.0))
    assert jump.flight.gravity.value == pytest.approx(G * ((n + e) / n) ** 2)


@pytest.mark.parametrize("n", [6, 8, 12, 16, 24])
def test_the_stated_error_of_keyed_gravity_is_that_of_two_rounded_ends(n: int) -> None:
    # Both ends rounded by up to half a frame: e is triangular with deviation 1 / sqrt(6), gravity off by 2 e / n.
    rng = np.random.default_rng(n)
    e = rng.uniform(-0.5, 0.5, (2, 40000)).sum(axis=0)
    assert np.std(e) == pytest.approx(1 / math.sqrt(6), rel=0.01)  # 40 000 draws: 0.3 %
    jump = keyed((0, 0.9), (4, 1.0), (4 + n // 2, 1.4), (4 + n, 1.0))
    assert jump.flight.gravity.error / jump.flight.gravity.value == pytest.approx(2 / math.sqrt(6) / n)


@settings(max_examples=30, deadline=None)
@given(height=st.floats(0.2, 1.5), ratio=st.floats(0.5, 3.0), shift=st.floats(0.001, 0.2))
def test_the_error_of_the_ratio_is_what_a_shifted_takeoff_does_to_it(height, ratio, shift) -> None:
    # A takeoff put x frames away takes v x from the one height h and gives it to the other, d: (h - v x) / (d + v x)
    # changes by v x (1 / h + 1 / d) of itself, to first order.
    jump = measured(Leap(height=height, push=height / ratio, error=shift))
    moved = math.sqrt(2 * G * height) * shift / 24
    assert jump.push.ratio.error == pytest.approx(moved * (1 + ratio) / height * ratio, rel=1e-6)


def test_every_measure_has_its_error() -> None:
    jump = measured(Leap(error=0.1, noise=0.001))
    for name in (
        *("push_distance", "jump_height", "drop_height", "absorb_distance", "push_ratio", "absorb_ratio"),
        *("push_frames", "push_frames_expected", "rise_frames", "fall_frames", "airtime_frames"),
        *("fitted_gravity", "air_pace", "push_pace", "agreement", "push_shape", "top_quarter_share"),
        *("travel_speed", "travel_spread", "distance", "apex_skew", "absorb_frames"),
    ):
        assert error_of(jump, name) > 0, name


def test_keyed_poses_have_no_speeds_and_no_shape() -> None:
    # 7 frames up and 7 down at g.
    jump = keyed((4, 0.7), (10, 1.0), (17, 1.0 + G * (7 / 24) ** 2 / 2), (24, 1.0), (28, 0.8))
    assert jump.push.shape is jump.push.end is jump.travel.course is jump.shape.top_share is None
    assert jump.shape.residual is None
    assert jump.flight.gravity.value == pytest.approx(G)


def test_the_world_it_is_judged_in_is_kept() -> None:
    jump = measured(Leap(), World(gravity=1.62, step=2, kind="cat"))
    assert (jump.gravity, jump.step, jump.kind) == (1.62, 2, "cat")
