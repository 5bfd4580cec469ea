"""Where the points of a foot stand, told from their heights alone or over a given ground."""

import numpy as np
import pytest
from leapwright.analysis import Track
from leapwright.analysis.feet.ground import Point, points_of


def track(z: np.ndarray, fps: float = 24.0, ground: float | None = None, reach: float = 1.0) -> Track:
    n = len(z)
    body = np.stack((np.zeros(n), np.zeros(n), 1.0 + reach * np.sin(np.arange(n))), axis=1)
    feet = np.stack((np.zeros(n), np.zeros(n), z), axis=1)[:, None]
    return Track("foot", fps, np.arange(n), body, feet=feet, ground=ground)


def points(track: Track) -> tuple[Point, ...]:
    return points_of(track, np.arange(len(track.frames)))


def test_a_long_held_ledge_is_ground_a_top_is_not() -> None:
    up = np.concatenate((np.zeros(10), [0.3, 0.5], np.full(20, 0.6), [0.5, 0.3], np.zeros(10)))
    (ledge,) = points(track(up))
    assert ledge.down[12:32].all() and ledge.level[20] == pytest.approx(0.6)
    short = np.concatenate((np.zeros(10), [0.3, 0.5], np.full(6, 0.6), [0.5, 0.3], np.zeros(10)))
    (top,) = points(track(short))
    assert not top.down[11:20].any()


def test_a_low_point_of_a_swing_is_no_ground() -> None:
    swing = np.concatenate((np.zeros(10), [0.3, 0.5, 0.35, 0.345, 0.35, 0.5, 0.3], np.zeros(10)))
    (point,) = points(track(swing))
    assert not point.down[10:17].any()


def test_a_stand_may_sway_within_its_tolerance_only() -> None:
    sway = 0.01 * np.sin(np.arange(40) / 3.0)
    (point,) = points(track(sway))
    assert point.down.all()


def test_the_tolerance_goes_with_the_size_of_the_move() -> None:
    (small,) = points(track(np.zeros(20), reach=0.05))
    (large,) = points(track(np.zeros(20), reach=5.0))
    assert small.near == pytest.approx(0.03 * 0.1, rel=0.05)
    assert large.near == 0.02


def test_noise_is_told_from_third_differences() -> None:
    rng = np.random.default_rng(2)
    (point,) = points(track(rng.normal(0.0, 0.002, 400)))
    assert point.noise == pytest.approx(0.002, rel=0.25)


def test_over_a_given_ground_everything_near_it_or_under_it_is_down() -> None:
    z = np.concatenate((np.full(10, 0.02), np.full(5, 0.3), np.full(10, -0.05), np.full(10, 0.02)))
    (point,) = points(track(z, ground=0.0))
    assert (point.down == (z < 0.1)).all()
    assert point.level[0] == pytest.approx(0.0)


def test_a_foot_on_its_way_up_through_few_samples_has_no_stand_there() -> None:
    # 120 frames a second, 0.5 m/s: four samples lie within the tolerance of 2 cm just over the ground.
    up = np.concatenate((np.zeros(60), 0.5 / 120 * np.arange(1, 60)))
    (point,) = points(track(up, fps=120.0))
    assert np.nanmax(point.level) == pytest.approx(0.0, abs=1e-9)
