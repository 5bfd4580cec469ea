"""A flight is looked for where there may be one: a few numbers leave out what no search would find."""

from types import SimpleNamespace

import numpy as np
import pytest
from leapwright.analysis import Track
from leapwright.analysis.contacts.ballistic import LOOSE, PARABOLA_RESIDUAL, Parabola, Stretch
from leapwright.analysis.contacts.flights import FlightStretch, _flight, _Top, flights_at
from leapwright.analysis.samples.poses import poses_of
from leapwright.analysis.samples.turns import Turn, tops

FRAMES = np.arange(21.0)
ARC = 1.0 - ((FRAMES - 10.0) / 10.0) ** 2
"""A parabola of a meter, its top at frame 10."""


def top(heights: np.ndarray, frames: np.ndarray = FRAMES, *, at: int = 10) -> _Top:
    return _Top(frames, heights, Turn(0, at, len(frames) - 1))


@pytest.mark.parametrize("seed", range(20))
def test_what_lies_as_close_to_a_parabola_as_a_drawn_one_is_never_left_out(seed: int) -> None:
    """18 samples to spare: a residual of √18 PARABOLA_RESIDUAL is the most that counts as drawn."""
    off = np.random.default_rng(seed).normal(size=21)
    off *= np.sqrt(18.0) * PARABOLA_RESIDUAL / np.linalg.norm(off)
    assert top(ARC + off).may_be_drawn


def test_a_top_that_is_eased_into_is_left_out() -> None:
    """A quarter of a cosine over five frames: its third difference beside the top is (π / 10)⁴ / 2, 0.5 % of it."""
    eased = np.cos((FRAMES[:11] - 5.0) / 5.0 * np.pi / 2)
    assert not top(eased, FRAMES[:11], at=5).may_be_drawn


def test_uneven_frames_and_a_top_beside_an_end_are_searched() -> None:
    apart = np.concatenate((FRAMES[:11], FRAMES[11:] + 1.0))
    uneven = 1.0 - ((apart - 10.0) / 10.0) ** 2
    assert top(uneven, apart).may_be_drawn
    assert top(ARC[9:], FRAMES[9:], at=1).may_be_drawn


@pytest.mark.parametrize("between", [1, 2])
def test_where_three_samples_lie_from_the_fastest_rise_to_the_fastest_fall_there_is_no_stretch(between: int) -> None:
    """Rests, then a rise and a fall of one sample each: any three samples lie on a parabola."""
    peak = [1.0] if between == 1 else [1.0, 1.0]
    z = np.array([0.0, 0.0, 0.0, *peak, 0.0, 0.0, 0.0])
    around = top(z, np.arange(float(len(z))), at=3).around
    assert (around is None) == (between == 1)


@pytest.mark.parametrize(("last", "off", "is_drawn"), [(10, 0.7e-5, True), (10, 1.5e-5, False), (3, 0.0, False)])
def test_five_samples_within_a_hundred_thousandth_of_the_height_were_drawn_as_a_parabola(last, off, is_drawn) -> None:
    height = 0.01 * (last / 2) ** 2
    stretch = Stretch(0, last, Parabola(last / 2, 1.0, 0.0, -0.01), off * height)
    flight = FlightStretch(stretch, SimpleNamespace(frames=FRAMES), reach=1.0, loose=False)
    assert flight.is_drawn is is_drawn


def test_a_top_that_keys_hold_to_the_end_has_no_flight() -> None:
    """Retimed onto few keys, a way down may lie between two of them: then no key shows that it falls."""
    heights = np.minimum(1.0, 1.0 - ((np.minimum(FRAMES, 10.0) - 10.0) / 10.0) ** 2)
    poses = SimpleNamespace(frames=FRAMES, beat=1.0, noise=0.01)
    assert _flight(top(heights), poses, LOOSE) is None
    assert _flight(top(heights[::-1].copy()), poses, LOOSE) is None


@pytest.mark.parametrize("period", [30.0, 36.0, 48.0])
def test_a_top_whose_close_parabola_reaches_half_its_speed_is_looked_at_loosely(period: float) -> None:
    """Within an angle x of its top a cosine misses its parabola by x⁴ / 24 · 8 / 105 (the part of t⁴ that no parabola
    has), 0.0063 x² of the parabola's height: 0.25 % at x = 0.63, where its speed is sin x = 0.59 of the most, and 1.2 %
    at 1.37, where a parabola is as fast as the cosine ever is.
    """
    frames = np.arange(65.0)
    heights = 1.0 + 0.05 * np.cos(2.0 * np.pi * (frames - 3.3) / period)
    poses = poses_of(Track("Brindle", 24.0, frames, np.stack((0.0 * frames, 0.0 * frames, heights), axis=1)))
    (flight,) = flights_at(poses, tops(poses.heights, 0.05), 9.81, 24.0)
    assert flight.loose and flight.reach > 0.9
    angle = 2.0 * np.pi / period * (flight.stretch.last - flight.stretch.first)
    assert angle < 2.0 * 1.45, "a whole rise and fall, 3.14, is a bob's"
