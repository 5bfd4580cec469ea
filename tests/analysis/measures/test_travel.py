"""The path over the ground in flight."""

import math
from dataclasses import replace

import numpy as np
import pytest

from tests.analysis.closed_form import Leap, keyed, measured


def test_an_even_travel_has_no_spread_and_no_turn() -> None:
    jump = measured(Leap(distance=2.0))
    assert jump.travel.course.spread.value == pytest.approx(0, abs=1e-9)
    assert jump.travel.course.turn.value == pytest.approx(0, abs=1e-9)
    assert jump.travel.distance.value == pytest.approx(2.0)
    # 0.45 m: 2 · 0.30294 s in the air.
    assert jump.travel.speed.value == pytest.approx(2.0 / 0.60588, rel=1e-4)


def test_the_standing_broad_jump_of_the_textbook() -> None:
    # OpenStax College Physics 2e, problem 3.35: 3.834 m/s at 45 degrees, range v² / g = 1.500 m.
    speed = 3.834
    jump = measured(Leap(height=(speed * math.sin(math.pi / 4)) ** 2 / 2 / 9.80, gravity=9.80, distance=1.5))
    assert jump.travel.speed.value == pytest.approx(speed * math.cos(math.pi / 4), rel=1e-3)



def test_a_straight_path_in_any_direction_and_place_is_the_same_travel() -> None:
    plain = measured(Leap(path=lambda s: (s + 0.3 * s * s, 0 * s)))
    turned = measured(Leap(path=lambda s: (-0.6 * (s + 0.3 * s * s) - 400, 0.8 * (s + 0.3 * s * s) + 90)))
    assert turned.travel.course.spread.value == pytest.approx(plain.travel.course.spread.value, rel=1e-6)
    assert turned.travel.course.slowest == pytest.approx(plain.travel.course.slowest, rel=1e-6)
    assert turned.travel.course.turn.value == pytest.approx(0, abs=1e-6)


def test_turning_back_is_a_turn_of_half_a_circle() -> None:
    jump = measured(Leap(height=1.2258, path=lambda s: (s - 0.8 * s * s, 0.0 * s + 1e-9 * s)))
    assert jump.travel.course.turn.value == pytest.approx(math.pi, abs=1e-3)


def test_what_the_body_does_on_the_ground_is_not_its_travel_in_the_air() -> None:
    still = measured(Leap(distance=1.0))
    assert still.travel.course.start_speed == pytest.approx(still.travel.course.end_speed)
    # The slowest stretch of an even travel is as fast as its mean.
    assert still.travel.course.slowest == pytest.approx(1.0)


def test_the_error_of_the_spread_says_how_noise_moves_it() -> None:
    # 5 mm at 60 fps on 1 m. The travel is even, so that two errors are passed by chance alone: in 5 of 100 for a normal
    # figure.
    jumps = [measured(Leap(fps=60, noise=0.005, distance=1.0, seed=seed)) for seed in range(100)]
    errors = np.array([jump.travel.course.spread.error for jump in jumps])
    spreads = np.array([jump.travel.course.spread.value for jump in jumps])
    assert np.mean(spreads > 2 * errors) < 0.1


def test_keyed_poses_have_a_mean_speed_and_no_spread() -> None:
    jump = keyed((4, 0.7), (10, 1.0), (17, 1.417), (24, 1.0))
    assert jump.travel.course is None
    assert jump.travel.speed.value == 0


@pytest.mark.parametrize("c", [0.1, 0.4, 0.7])
def test_the_speed_along_the_way_is_that_of_the_path(c: float) -> None:
    # x = 3 (s + c s (1 - s) / 2) over T = 24 frames runs at 3 (1 + c / 2 - c s) / T: from the first sample in the air
    # to the last it loses c of their share; its mean is that of their middle.
    leap = Leap(height=1.2258, push=1.0, crouch_at=15.3, path=lambda s: (3 * (s + c / 2 * s * (1 - s)), 0 * s))
    _, takeoff, _, landing, _ = leap.events()
    first, last = (np.array([np.ceil(takeoff), np.floor(landing)]) - takeoff) / (landing - takeoff)
    mean = 1 + c / 2 - c / 2 * (first + last)
    course, speed = measured(leap).travel.course, 3.0 / ((landing - takeoff) / 24.0)
    assert course.spread.value == pytest.approx(c * (last - first) / mean, rel=1e-6)
    assert course.start_speed == pytest.approx(speed * (1 + c / 2 - c * first), rel=1e-6)
    assert course.end_speed == pytest.approx(speed * (1 + c / 2 - c * last), rel=1e-6)


def test_the_error_of_the_course_is_that_of_a_cubics_slope_at_its_ends() -> None:
    # 5 mm on 2 m at 24 fps. The slope at the end of a least-squares cubic has the variance s² d (Xᵀ X)⁻¹ dᵀ with d its
    # derivative there; what largest and smallest of a flight differ by is taken for twice its deviation.
    leap = Leap(height=0.5, noise=0.005, distance=2.0)
    _, takeoff, _, landing, _ = leap.events()
    t = (np.arange(np.ceil(takeoff), np.floor(landing) + 1.0) - 0.5 * (takeoff + landing)) / 24.0
    x, d = np.vander(t, 4, increasing=True), np.array([0.0, 1.0, 2.0 * t[-1], 3.0 * t[-1] ** 2])
    slope = 0.005 * math.sqrt(d @ np.linalg.inv(x.T @ x) @ d)
    courses = [measured(replace(leap, seed=seed)).travel.course for seed in range(200)]
    for name in ("spread", "turn"):
        error = np.sqrt(np.mean([getattr(course, name).error ** 2 for course in courses]))
        assert error == pytest.approx(2.0 * slope / (2.0 / ((landing - takeoff) / 24.0)), rel=0.06)
