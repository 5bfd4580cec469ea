"""Bodies that rise and come down again without leaving what carries them: climbs, lifts, swings, seats; `KINDS`.

The ranges are common practice, no source; no ease pulls a standing body down faster than `safe` lets it.
"""

from collections.abc import Callable

import numpy as np
from leapwright.analysis.world import STANDARD_GRAVITY
from scipy.interpolate import CubicSpline

from .moves import NEAR_FLIGHT, Profile, moves, safe


def climb_and_down(rng: np.random.Generator) -> Profile:
    """Give way, climb onto a box of 0.3 to 0.9 m, stay a while, and climb down."""
    dip, high = rng.uniform(0.03, 0.2), rng.uniform(0.3, 0.9)
    spans = [safe(rng, dip, (0.2, 0.5)), safe(rng, high + dip, (1.0, 1.8)), safe(rng, high, (1.0, 1.8))]
    return moves(rng, [0.0, -dip, high, 0.0], spans, (0.0, 0.6))


def platform(rng: np.random.Generator) -> Profile:
    """Be raised 0.2 to 0.9 m by what one stands on, and lowered again."""
    high = rng.uniform(0.2, 0.9)
    return moves(rng, [0.0, high, 0.0], [safe(rng, high, (0.7, 1.6)) for _ in range(2)], (0.0, 0.5))


def steps_and_back(rng: np.random.Generator) -> Profile:
    """Step up one to three stairs of 15 to 20 cm, and back down."""
    count, high = int(rng.integers(1, 4)), rng.uniform(0.15, 0.2)
    heights = high * np.array([*range(count + 1), *range(count - 1, -1, -1)])
    return moves(rng, heights.tolist(), [safe(rng, high, (0.35, 0.7)) for _ in heights[1:]], (0.0, 0.1))


def stand_up_and_sit(rng: np.random.Generator) -> Profile:
    """Stand up from a seat, 30 to 55 cm, and sit down again."""
    high = rng.uniform(0.3, 0.55)
    return moves(rng, [0.0, high, 0.0], [safe(rng, high, (0.4, 0.9)) for _ in range(2)], (0.05, 0.5))


def seesaw(rng: np.random.Generator) -> Profile:
    """Ride a seesaw, 15 to 35 cm to each side of its middle, two to five times, and stop in the middle."""
    size, times = rng.uniform(0.15, 0.35), int(rng.integers(2, 6))
    return _swung(rng, [0.0, *([size, -size] * times), 0.0], period=rng.uniform(2.0, 3.0))


def swing(rng: np.random.Generator) -> Profile:
    """Swing from the lowest point, 15 to 70 cm up and back two to five times."""
    size, times = rng.uniform(0.15, 0.7), int(rng.integers(2, 6))
    return _swung(rng, [0.0, size] * times + [0.0], period=rng.uniform(1.3, 2.0))


def _swung(rng: np.random.Generator, heights: list[float], *, period: float) -> Profile:
    """Return a smooth curve through these ends of a swing, half a period apart, at rest before and after; it is pulled
    down by less than the weight.
    """
    period = max(period, 2 * np.pi * np.sqrt(0.5 * np.ptp(heights) / (0.7 * NEAR_FLIGHT * STANDARD_GRAVITY)))
    first = rng.uniform(0.3, 1.2)
    seconds = first + 0.5 * period * np.arange(len(heights))
    curve = CubicSpline(seconds, heights, bc_type="clamped")
    return lambda t: curve(np.clip(t, seconds[0], seconds[-1]))


KINDS: dict[str, Callable[[np.random.Generator], Profile]] = {
    "climb and down": climb_and_down,
    "platform": platform,
    "steps and back": steps_and_back,
    "stand up and sit": stand_up_and_sit,
    "seesaw": seesaw,
    "swing": swing,
}
