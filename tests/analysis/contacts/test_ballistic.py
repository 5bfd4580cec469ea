"""The longest parabola: exact where the samples are, equal to numpy.polyfit, and None where there is no parabola."""

import numpy as np
import pytest
from leapwright.analysis.contacts.ballistic import CANDIDATES, Parabola, longest, parabola_over

G = 9.80665
"""Standard acceleration, m/s² (3rd CGPM 1901, Resolution 2)."""
FPS = 24.0
BEND = -G / (2 * FPS**2)
"""Meters a frame²: half of gravity."""


def arc(frames, top=12.3, height=1.6):
    return height + BEND * (np.asarray(frames, dtype=float) - top) ** 2


def grounded(first, last, n=26, top=12.3):
    """Return a flight from sample `first` to `last`, straight ramps at half its speed outside."""
    frames = np.arange(n, dtype=float)
    z = arc(frames, top)
    before, after = frames < first, frames > last
    z[before] = arc(first, top) + BEND * (first - top) * (frames[before] - first)
    z[after] = arc(last, top) + BEND * (last - top) * (frames[after] - last)
    return frames, z


def test_a_parabola_knows_its_height_speed_and_top():
    parabola, *_ = parabola_over(np.arange(5.0, 20), arc(np.arange(5.0, 20)))
    assert parabola.vertex == pytest.approx(12.3)
    assert parabola.height(12.3) == pytest.approx(1.6)
    assert parabola.speed(15.0) == pytest.approx(2 * BEND * 2.7)
    assert 2 * parabola.c2 * FPS**2 == pytest.approx(-G)


def test_time_reversed_it_passes_through_the_mirrored_samples():
    parabola = Parabola(3.0, 1.0, 0.2, -0.01)
    for frame in (-4.0, 3.0, 17.5):
        assert parabola.backward.height(-frame) == pytest.approx(parabola.height(frame))
        assert parabola.backward.speed(-frame) == pytest.approx(-parabola.speed(frame))


@pytest.mark.parametrize("seed", range(4))
def test_a_fit_to_noisy_samples_is_numpys(seed):
    """On uneven frames far from 0; numpy.polyfit is the reference, its unscaled covariance too."""
    rng = np.random.default_rng(seed)
    frames = 1000.0 + np.cumsum(rng.uniform(0.5, 2.0, 15))
    heights = arc(frames, top=1012.3) + rng.normal(0, 0.01, 15)
    parabola, off, told = parabola_over(frames, heights)
    reference, rest, *_ = np.polyfit(frames - 1000.0, heights, 2, full=True)
    _, covariance = np.polyfit(frames - 1000.0, heights, 2, cov="unscaled")
    assert [parabola.height(frame) for frame in frames] == pytest.approx(np.polyval(reference, frames - 1000.0))
    assert (parabola.c2, off, 1 / told) == pytest.approx((reference[0], rest[0], covariance[0, 0]), rel=1e-8)


@pytest.mark.parametrize(("first", "last"), [(6, 19), (4, 16), (8, 17)])
def test_the_stretch_is_the_flight_and_nothing_of_the_ground(first, last):
    f, z = grounded(first, last)
    stretch = longest(f, z, np.arange(0, 12), np.arange(13, 26), noise=1e-6, fewest=4)
    assert (stretch.first, stretch.last) == (first, last)
    assert 2 * stretch.parabola.c2 * FPS**2 == pytest.approx(-G)
    assert stretch.rms < 1e-6


def test_the_stretch_is_the_one_that_trying_them_all_with_polyfit_finds():
    f, z = grounded(6, 19)
    noise = 0.002
    z = z + np.random.default_rng(8).normal(0, noise, len(z))
    starts, ends = np.arange(0, 12), np.arange(13, 26)
    stretch = longest(f, z, starts, ends, noise=noise, fewest=4)
    inside = slice(stretch.first, stretch.last + 1)
    coefficients, rss, *_ = np.polyfit(f[inside], z[inside], 2, full=True)
    assert stretch.parabola.c2 == pytest.approx(coefficients[0], rel=1e-6)
    assert stretch.rms == pytest.approx(np.sqrt(rss[0] / (stretch.last - stretch.first - 2)), rel=1e-6)
    # No stretch longer by two samples or more has so small a residual.
    for a in starts:
        for b in ends:
            if b - a >= stretch.last - stretch.first + 2:
                c, residual, *_ = np.polyfit(f[a : b + 1], z[a : b + 1], 2, full=True)
                height = abs(c[0]) * ((b - a) / 2) ** 2
                spread = noise * (1.15 + 2 / np.sqrt(2 * (b - a - 2)))
                assert np.sqrt(residual[0] / (b - a - 2)) > np.hypot(spread, 2.5e-3 * height)


def test_more_starts_than_are_tried_do_not_lose_the_flight():
    frames = np.arange(400.0)
    z = arc(frames, top=200.0, height=50.0) * (np.abs(frames - 200) <= 150)
    starts, ends = np.arange(0, 199), np.arange(201, 400)
    assert len(starts) > 4 * CANDIDATES
    stretch = longest(frames, z, starts, ends, noise=1e-6, fewest=4)
    assert 50 <= stretch.first <= 70 and 330 <= stretch.last <= 350


@pytest.mark.parametrize(
    "heights",
    [np.zeros(20), np.arange(20.0), 0.01 * (np.arange(20.0) - 10) ** 2],
    ids=["level", "a ramp", "curved upward"],
)
def test_what_bends_no_way_or_up_is_no_flight(heights):
    stretch = longest(np.arange(20.0), heights, np.arange(0, 9), np.arange(11, 20), noise=1e-6, fewest=4)
    assert stretch is None or abs(2 * stretch.parabola.c2 * FPS**2) < 1e-6


def test_a_stretch_of_fewer_samples_than_asked_for_does_not_count():
    f, z = grounded(10, 14)
    kwargs = {"starts": np.arange(8, 12), "ends": np.arange(13, 17), "noise": 1e-6}
    assert longest(f, z, fewest=5, **kwargs).last == 14
    assert longest(f, z, fewest=6, **kwargs) is None


def test_uneven_frames_are_no_hindrance():
    frames = np.cumsum(np.random.default_rng(5).uniform(0.4, 1.6, 30))
    z = arc(frames, top=float(frames[14]))
    stretch = longest(frames, z, np.arange(0, 13), np.arange(16, 30), noise=1e-6, fewest=4)
    assert (stretch.first, stretch.last) == (0, 29)
    assert stretch.parabola.vertex == pytest.approx(frames[14])


def test_far_from_the_first_frame_nothing_is_lost():
    f, z = grounded(6, 19)
    near = longest(f, z, np.arange(0, 12), np.arange(13, 26), noise=1e-6, fewest=4)
    far = longest(f + 1e5, z + 1e4, np.arange(0, 12), np.arange(13, 26), noise=1e-6, fewest=4)
    assert (far.first, far.last) == (near.first, near.last)
    assert far.parabola.vertex - 1e5 == pytest.approx(near.parabola.vertex, abs=1e-6)
