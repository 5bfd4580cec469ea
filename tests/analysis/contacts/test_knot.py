"""Where a parabola meets the ground, between the samples: exact on exact curves, with errors that hold under noise."""

import numpy as np
import pytest
from leapwright.analysis.contacts.knot import knot

G = 9.80665 / 24**2
"""Standard acceleration (3rd CGPM 1901, Resolution 2), meters a frame² at 24 fps."""
SPEED = 0.13
"""Meters a frame at the contact."""
FRAMES = np.arange(14.0)


def contact(at, *, push=0.0, change=0.0, jump=0.0, frames=FRAMES):
    """Return a flight from frame `at` on; before it the ground's extra b₂τ² + b₃τ³ + b₁τ."""
    tau = np.maximum(at - frames, 0.0)
    air = 0.9 + SPEED * (frames - at) - 0.5 * G * (frames - at) ** 2
    return air + push * tau**2 + change * tau**3 + jump * tau


def found(heights, *, frames=FRAMES, noise=2e-5, air=6):
    return knot(frames, heights, low=frames[air] - 2.2, high=frames[air] + 1.0, noise=noise, air=air)


@pytest.mark.parametrize("at", [3.95, 4.2, 4.5, 5.0, 5.37, 5.9, 6.85])
@pytest.mark.parametrize(
    "ground",
    [{"push": 0.02}, {"push": 0.02, "change": -0.001}, {"push": 0.02, "jump": 0.05}],
    ids=["constant force", "changing force", "a jump of the speed"],
)
def test_the_contact_of_an_exact_curve_is_found_between_its_samples(at, ground):
    result = found(contact(at, **ground))
    # Two of eight hundredths of a frame: the search ends on a parabola over a grid of 1/50 frame.
    assert result.frame == pytest.approx(at, abs=0.03)
    assert result.speed == pytest.approx(SPEED - G * (result.frame - at), abs=1e-3)
    assert result.height == pytest.approx(0.9, abs=0.006)


def test_the_speed_on_the_grounds_side_differs_by_the_jump_alone():
    smooth, stiff = found(contact(5.37, push=0.02)), found(contact(5.37, push=0.02, jump=0.05))
    assert smooth.ground == pytest.approx(smooth.speed)
    assert stiff.ground == pytest.approx(stiff.speed - 0.05, abs=3e-3)


def test_the_stated_error_holds_under_noise():
    # 300 draws: the mean square of z = miss / error is 1 with a standard error of √(2/300) = 0.08 for normal
    # misses; near a kink they have tails, so that within 0.5 and 2 is asked.
    rng, z = np.random.default_rng(6), []
    for _ in range(300):
        at = rng.uniform(4.4, 5.8)
        result = found(contact(at, push=0.03) + rng.normal(0, 5e-4, 14), noise=5e-4)
        z.append((result.frame - at) / result.error)
    assert 0.5 < np.sqrt(np.mean(np.square(z))) < 2.0
    assert abs(np.mean(z)) < 0.5


def test_more_noise_means_a_larger_error():
    rough = contact(5.37, push=0.03) + np.random.default_rng(1).normal(0, 1e-3, 14)
    assert found(rough, noise=1e-3).error > 3 * found(contact(5.37, push=0.03), noise=1e-4).error


def test_uneven_frames_are_no_hindrance():
    frames = np.array([0.0, 1.2, 1.9, 3.1, 4.0, 5.3, 6.0, 6.8, 8.1, 9.0, 10.4, 11.0])
    assert found(contact(5.0, push=0.02, frames=frames), frames=frames).frame == pytest.approx(5.0, abs=0.03)


@pytest.mark.parametrize(("air", "count"), [(1, 8), (6, 8), (0, 6)], ids=["one on the ground", "two in the air", "no"])
def test_too_few_samples_on_either_side_tell_nothing(air, count):
    frames = FRAMES[:count]
    assert knot(frames, contact(1.0, push=0.02)[:count], low=0, high=5, noise=1e-5, air=air) is None
