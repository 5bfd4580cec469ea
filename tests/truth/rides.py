"""Heights of what is carried: lifts, swings, ships, wheels, cars. Seconds to meters."""

import numpy as np
from leapwright.analysis.world import STANDARD_GRAVITY
from scipy.interpolate import CubicSpline
from scipy.special import ellipj, ellipk

from .pieces import Profile


def lift(rng: np.random.Generator) -> Profile:
    """Ride a lift up and down: trapezoids of speed, half of them with the jerk limited."""
    pull, top = rng.uniform(0.6, 1.5), rng.uniform(0.6, 2.5)
    ramp, smooth = top / pull, rng.choice([0.0, rng.uniform(0.2, 0.8)])
    t = np.arange(-1.0, 40.0, 0.005)
    speed, now, way = np.zeros_like(t), rng.uniform(0.3, 1.5), rng.choice([-1, 1])
    while now < t[-1]:
        run = ramp + rng.uniform(0.2, 3.0)
        speed += way * top * np.clip(np.minimum(t - now, now + run + ramp - t) / ramp, 0, 1)
        now += run + ramp + rng.uniform(0.8, 2.0)
        way = -way
    if smooth:
        width = max(int(smooth / 0.005), 1)
        speed = np.convolve(speed, np.ones(width) / width, mode="same")
    return CubicSpline(t, np.concatenate([[0], np.cumsum((speed[1:] + speed[:-1]) * 0.0025)]))


def rope_swing(rng: np.random.Generator) -> Profile:
    """Swing on a rope, 20 to 75 degrees each side: the exact pendulum by Jacobi's elliptic functions."""
    length, modulus = rng.uniform(1.5, 6.0), np.sin(rng.uniform(np.radians(20), np.radians(75)) / 2)
    beat, start = np.sqrt(STANDARD_GRAVITY / length), rng.uniform(0, 4)

    def height(t: np.ndarray) -> np.ndarray:
        sn = ellipj(beat * t + start * ellipk(modulus**2), modulus**2)[0]
        return 2 * length * modulus**2 * sn**2

    return height


def ship(rng: np.random.Generator) -> Profile:
    """Stand on a heaving deck: three swells, 4 to 12 s, up to 1 m each."""
    periods, sizes = rng.uniform(4, 12, 3), rng.uniform(0.05, 1.0, 3)
    phases = rng.uniform(0, 2 * np.pi, 3)
    return lambda t: np.sin(2 * np.pi * np.multiply.outer(t, 1 / periods) + phases) @ sizes


def wheel(rng: np.random.Generator) -> Profile:
    """Sit in a big wheel: 2 to 15 m, 8 to 30 s a turn."""
    size, period, phase = rng.uniform(2, 15), rng.uniform(8, 30), rng.uniform(0, 2 * np.pi)
    return lambda t: size * np.sin(2 * np.pi * t / period + phase)


def car(rng: np.random.Generator) -> Profile:
    """Ride a car over bumps: a damped spring at 1 to 2 Hz, struck at random, a few centimeters."""
    rate, damp = 2 * np.pi * rng.uniform(1.0, 2.0), rng.uniform(0.2, 0.4)
    own = rate * np.sqrt(1 - damp**2)
    times = np.cumsum(rng.uniform(0.4, 2.0, 40))
    sizes = rng.uniform(0.01, 0.06, 40) * rng.choice([-1, 1], 40)

    def height(t: np.ndarray) -> np.ndarray:
        since = np.clip(np.subtract.outer(t, times), 0, None)
        return (np.exp(-damp * rate * since) * np.sin(own * since)) @ sizes

    return height
