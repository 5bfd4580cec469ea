"""The truth by forces is what it says: the ground never pulls, the energy of the push is that of the flight."""

import numpy as np
import pytest

from . import grounded, integrated
from .forces import Jumped, leap

STEP = 1e-4
SEEDS = range(12)


def jumped(seed: int) -> Jumped:
    rng = np.random.default_rng(seed)
    return leap(rng, [integrated.draw(rng)], pauses=[], ends=(0.3, 0.3))


@pytest.mark.parametrize("seed", SEEDS)
def test_the_ground_never_pulls(seed: int) -> None:
    one = jumped(seed)
    seconds = np.arange(0.0, one.path.starts[-1], 1e-3)
    pull = np.diff(one.path.at(seconds), 2) / 1e-6
    # Differences over the joins of two pieces see both; the rest is free fall at most.
    assert np.sort(pull)[len(one.path.pieces)] >= -1.001 * one.bodies[0].gravity


@pytest.mark.parametrize("seed", SEEDS)
def test_the_body_flies_from_takeoff_to_landing_and_reaches_its_height(seed: int) -> None:
    one = jumped(seed)
    (body,), (crouch, takeoff, apex, landing, absorbed) = one.bodies, one.events[0]
    at = one.path.at
    heights = at(np.array([crouch, takeoff, apex, landing, absorbed]))
    assert np.diff(heights) == pytest.approx([body.distance, body.height, -body.drop, -body.absorb], abs=1e-6)
    air = np.linspace(takeoff, landing, 50)
    assert np.diff(at(air), 2) / np.diff(air)[0] ** 2 == pytest.approx(-body.gravity, rel=1e-6)
    # v² = 2 g h at takeoff, which no force changes in the last STEP by more than g does.
    speed = (at(np.array([takeoff])) - at(np.array([takeoff - STEP]))) / STEP
    assert speed[0] == pytest.approx(np.sqrt(2 * body.gravity * body.height), abs=body.gravity * STEP)


@pytest.mark.parametrize("fps", integrated.RATES)
def test_the_speed_peaks_as_early_before_takeoff_as_on_force_plates(fps: float) -> None:
    for seed in range(5):
        motion = integrated.make("recorded", fps, 0.0, seed)
        takeoff = motion.path.starts[[piece.name for piece in motion.path.pieces].index("flight")]
        seconds = np.linspace(0.0, takeoff, 20_001)
        peak = seconds[np.argmax(motion.path.at(seconds, what="speed"))]
        assert integrated.LEAD[0] - 1e-3 <= takeoff - peak <= integrated.LEAD[1] + 1e-3


@pytest.mark.parametrize("kind", grounded.KINDS)
def test_who_stays_on_the_ground_never_falls_as_fast_as_gravity(kind: str) -> None:
    for seed in range(6):
        rng = np.random.default_rng(seed)
        seconds = np.arange(0.0, 6.0, 1 / 480)
        pull = np.diff(grounded.KINDS[kind](rng)(seconds), 2) * 480**2
        assert pull.min() > -grounded.STANDARD_GRAVITY
