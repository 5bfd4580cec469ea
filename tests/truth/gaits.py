"""Heights of gaits that are not jumps: walks, runs with low flights, stairs, crawls. Seconds to meters."""

import numpy as np
from leapwright.analysis.world import STANDARD_GRAVITY

from .pieces import Profile


def sine_walk(rng: np.random.Generator) -> Profile:
    """Bob as a sine, 2 to 5 cm, 1.5 to 2.4 steps a second (common practice, no source)."""
    size, rate, phase = rng.uniform(0.02, 0.05), rng.uniform(1.5, 2.4), rng.uniform(0, 2 * np.pi)
    return lambda t: size / 2 * np.sin(2 * np.pi * rate * t + phase)


def vaulting_walk(rng: np.random.Generator) -> Profile:
    """Vault over a stiff leg, 2 to 5 cm high, and turn round within a double support of 15 to 30 %.

    An arc of a circle of the leg's length, its cusp replaced by a parabola of equal slope.
    """
    leg, both = rng.uniform(0.8, 1.0), rng.uniform(0.15, 0.3)
    rate, size, phase = rng.uniform(1.5, 2.4), rng.uniform(0.02, 0.05), rng.uniform()
    half = np.sqrt(2 * leg * size)
    free = half * (1 - both)

    def height(t: np.ndarray) -> np.ndarray:
        x = half * (2 * ((rate * t + phase) % 1.0) - 1)
        slope = free / np.sqrt(leg**2 - free**2)
        past = np.abs(x) - free
        blend = np.sqrt(leg**2 - free**2) - slope * past * (1 - past / (2 * (half - free)))
        return np.where(past < 0, np.sqrt(leg**2 - np.minimum(np.abs(x), free) ** 2), blend)

    return height


def low_run(rng: np.random.Generator) -> Profile:
    """Run with flights of 1 to 4 cm, under the smallest hop; half-sine ground force in stance."""
    g = STANDARD_GRAVITY
    speed, stance = np.sqrt(2 * g * rng.uniform(0.01, 0.04)), rng.uniform(0.18, 0.3)
    air, phase = 2 * speed / g, rng.uniform()
    peak = (2 * speed + g * stance) * np.pi / (2 * stance)

    def height(t: np.ndarray) -> np.ndarray:
        now = (t + phase) % (air + stance)
        fly = speed * now - g * now**2 / 2
        s = now - air
        turn = np.pi / stance
        stand = (peak / turn - speed) * s - g * s**2 / 2 - peak / turn**2 * np.sin(turn * s)
        return np.where(now < air, fly, stand)

    return height


def stairs(rng: np.random.Generator) -> Profile:
    """Climb or go down: 15 to 20 cm each 0.4 to 0.8 s, steadily with a bob or step by step."""
    rise, every = rng.choice([-1, 1]) * rng.uniform(0.15, 0.20), rng.uniform(0.4, 0.8)
    bob, phase, moving = rng.uniform(0.005, 0.03), rng.uniform(0, 2 * np.pi), rng.uniform(0.6, 1.0)
    if rng.uniform() < 0.5:
        return lambda t: rise * t / every + bob * np.sin(2 * np.pi * t / every + phase)

    def height(t: np.ndarray) -> np.ndarray:
        done, part = np.divmod(t / every, 1.0)
        s = np.clip(part / moving, 0, 1)
        return rise * (done + s**3 * (10 - 15 * s + 6 * s**2))

    return height


def crawl(rng: np.random.Generator) -> Profile:
    """Crawl: 1 to 4 cm, two unequal sways near one a second."""
    size, rate = rng.uniform(0.01, 0.04), rng.uniform(0.6, 1.4)
    phases = rng.uniform(0, 2 * np.pi, 2)
    share = rng.uniform(0.1, 0.4)
    return lambda t: (
        size
        / 2
        * (np.sin(2 * np.pi * rate * t + phases[0]) + share * np.sin(4 * np.pi * rate * t + phases[1]))
    )


def slide(rng: np.random.Generator) -> Profile:
    """Slide down a slope with friction, then slow down along the flat."""
    angle, rub = rng.uniform(np.radians(20), np.radians(60)), rng.uniform(0.05, 0.3)
    start, length = rng.uniform(0.5, 1.5), rng.uniform(1.0, 5.0)
    pull = STANDARD_GRAVITY * (np.sin(angle) - rub * np.cos(angle))
    bend = rng.uniform(0.15, 0.5)

    def height(t: np.ndarray) -> np.ndarray:
        along = np.clip(pull * np.clip(t - start, 0, None) ** 2 / 2, 0, length + bend)
        into = np.clip(along - length, 0, bend)
        return -np.sin(angle) * (np.minimum(along, length) + into - into**2 / (2 * bend))

    return height
