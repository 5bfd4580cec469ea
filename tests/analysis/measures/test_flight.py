"""Heights, frames and gravity of a flight."""

import math
from dataclasses import replace

import numpy as np
import pytest
from leapwright.analysis import World
from leapwright.analysis.jump import measure

from tests.analysis.closed_form import G, Leap, build, fitted, keyed, measured


@pytest.mark.parametrize(
    ("height", "fps", "frames"),
    [(0.05, 24, 2.42), (0.40, 24, 6.85), (0.40, 25, 7.14), (0.40, 30, 8.57), (1.0, 60, 27.10), (3.0, 24, 18.77)],
)
def test_the_expected_rise_is_the_height_table(height: float, fps: float, frames: float) -> None:
    # sqrt(2 h / 9.80665) · fps, to two decimals.
    jump = keyed((0, 0.9), (4, 1.0), (12, 1.0 + height), (20, 1.0), fps=fps)
    assert jump.flight.rise_expected.value == pytest.approx(frames, abs=0.005)


@pytest.mark.parametrize(("feet", "frames"), [(1, 5.984), (4, 11.967)])
def test_one_foot_is_six_frames_up_and_four_feet_are_twelve(feet: float, frames: float) -> None:
    # 0.3048 m a foot; doubling the frames takes four times the height.
    jump = keyed((0, 0.9), (4, 1.0), (12, 1.0 + 0.3048 * feet), (20, 1.0))
    assert jump.flight.rise_expected.value == pytest.approx(frames, abs=1e-3)


def test_a_landing_below_the_takeoff_has_the_longer_fall() -> None:
    # Serway & Jewett, Principles of Physics 5e, ch. 3 problem 18 (data): takeoff 1.02 m, apex 1.85, touchdown
    # 0.900, g 9.80: 0.4116 s up and 0.4403 s down.
    jump = measured(Leap(height=0.83, lower=0.12, gravity=9.80), World(gravity=9.80))
    assert jump.flight.rise.value / 24 == pytest.approx(0.4116, abs=1e-4)
    assert jump.flight.fall_expected.value / 24 == pytest.approx(0.4403, abs=1e-4)


def test_without_an_arc_gravity_comes_from_heights_and_airtime_alone() -> None:
    # The same jump: g T² / 8 would read it high by half of the 12 cm; the two roots do not.
    track, phases = build(Leap(height=0.83, lower=0.12, gravity=9.80))
    jump = measure(track, replace(phases, arc=None), World())
    assert jump.flight.gravity.value == pytest.approx(9.80, rel=1e-9)


def test_an_apex_key_off_its_place_leaves_keyed_gravity_alone() -> None:
    early, late = (keyed((4, 0.8), (10, 1.0), (at, 1.4), (24, 1.0)) for at in (15, 19))
    assert early.flight.gravity.value == late.flight.gravity.value


def test_a_landing_as_high_as_the_apex_still_has_a_gravity() -> None:
    # Caught at the top of a ledge: no fall, h = g T² / 2.
    jump = keyed((4, 0.8), (10, 1.0), (17, 1.417), (17.5, 1.417))
    assert jump.flight.drop.value == 0
    assert jump.flight.gravity.value == pytest.approx(2 * 0.417 / (7.5 / 24) ** 2)


def test_no_height_has_no_gravity_and_no_ratio() -> None:
    jump = keyed((4, 0.8), (10, 1.0), (17, 1.0), (24, 1.0))
    assert jump.flight.gravity is jump.flight.pace is jump.push is None


@pytest.mark.parametrize("seed", range(5))
def test_the_error_of_gravity_holds_the_truth(seed: int) -> None:
    jump = measured(Leap(height=0.6, noise=0.002, seed=seed))
    assert abs(jump.flight.gravity.value - G) < 4 * jump.flight.gravity.error


def test_gravity_scatters_as_its_error_says() -> None:
    # SE(g) = sigma fps² sqrt(720 / (N (N² - 1)(N² - 4))): least squares attain the Cramér-Rao bound. 300 draws know it
    # to 4 %.
    track, phases = build(Leap(height=0.6))
    air = (track.frames > phases.takeoff.frame) & (track.frames < phases.landing.frame)
    n, sigma = int(air.sum()), 0.001
    expected = sigma * 24**2 * math.sqrt(720 / (n * (n**2 - 1) * (n**2 - 4)))
    found = [measured(Leap(height=0.6, noise=sigma, seed=seed)).flight.gravity.value for seed in range(300)]
    assert np.std(found) == pytest.approx(expected, rel=0.12)
    assert fitted(track, phases.takeoff.frame, phases.landing.frame).gravity == pytest.approx(G)


def test_a_skewed_flight_takes_off_at_the_speed_of_its_own_rise() -> None:
    # 0.8 m in 6 frames up: twice the mean speed. Its apex is read from samples of two parabolas.
    jump = measured(Leap(height=0.8, rise=6.0, fall=14.0))
    assert jump.flight.takeoff_speed == pytest.approx(2 * 0.8 / (6 / 24), rel=0.005)
    assert jump.flight.landing_speed == pytest.approx(2 * 0.8 / (14 / 24), rel=0.005)


def test_a_body_falls_from_rest_by_half_of_gravity_and_its_time_squared() -> None:
    assert measured(Leap(height=0.5)).flight.falls(0.2) == pytest.approx(G * 0.2**2 / 2)


def test_a_lower_landing_leaves_less_than_half_of_the_airtime_to_the_rise() -> None:
    # Up 0.4 m and down 1.6 m: roots 1 and 2, a third of the airtime.
    assert measured(Leap(height=0.4, lower=1.2)).flight.rise_share == pytest.approx(1.0 / 3.0, rel=1e-6)


def test_keyed_poses_of_a_lower_landing_have_their_apex_where_a_parabola_has_it() -> None:
    # Up 0.4 m in 6 frames, down 1.6 m in 12: as a parabola's, whose halves go with the roots of the heights.
    jump = keyed((0, 0.9), (4, 1.0), (10, 1.4), (22, -0.2))
    assert jump.shape.skew.value == pytest.approx(0.0, abs=1e-9)


def test_the_frames_asked_for_in_the_air_are_those_of_rise_and_fall() -> None:
    # Up 0.4 m and down 1.6 m at g: 24 sqrt(0.8 / g) = 6.855 and twice as many.
    jump = measured(Leap(height=0.4, lower=1.2, gravity=G / 2.0))
    assert jump.flight.expected == pytest.approx(3.0 * 6.8548, rel=1e-4)


def test_it_leaves_and_lands_at_the_speeds_of_a_free_fall_over_its_heights() -> None:
    # 0.4 m up and 1.6 m down, without drag: v² = 2 g h each way.
    flight = measured(Leap(height=0.4, lower=1.2)).flight
    assert flight.takeoff_speed == pytest.approx(math.sqrt(2.0 * G * 0.4), rel=1e-4)
    assert flight.landing_speed == pytest.approx(math.sqrt(2.0 * G * 1.6), rel=1e-4)
