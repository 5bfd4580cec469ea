"""Rests and moves of a body that never leaves what carries it, joined by eases; seconds and meters."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from leapwright.analysis.world import STANDARD_GRAVITY

Profile = Callable[[np.ndarray], np.ndarray]
NEAR_FLIGHT = 0.85
"""Times gravity: the fastest that a standing body accelerates down here."""


@dataclass(frozen=True)
class Path:
    """Rests and moves in order, joined by eases. waypoints: seconds and meters of each rest's ends."""

    seconds: np.ndarray
    heights: np.ndarray

    def at(self, t: np.ndarray, *, sharp: float = 0.0) -> np.ndarray:
        """Return heights; sharp: 0 an ease by minimum jerk, 1 a cosine."""
        i = np.clip(np.searchsorted(self.seconds, t, side="right") - 1, 0, len(self.seconds) - 2)
        share = np.clip((t - self.seconds[i]) / np.diff(self.seconds)[i], 0.0, 1.0)
        smooth = (1 - sharp) * share**3 * (10 - 15 * share + 6 * share**2) + sharp * (1 - np.cos(np.pi * share)) / 2
        return self.heights[i] + np.diff(self.heights)[i] * smooth


def moves(rng: np.random.Generator, heights: list[float], spans: list[float], rests: tuple[float, float]) -> Profile:
    """Through these heights, each move its seconds, a rest at each; rests of none at all half of the time."""
    brief = rng.uniform() < 0.3
    seconds, places = [0.0], [heights[0]]
    for index, height in enumerate(heights):
        long = rng.uniform(0.3, 1.2) if index in (0, len(heights) - 1) else rng.uniform(*rests)
        seconds.append(seconds[-1] + (1e-3 if brief and 0 < index < len(heights) - 1 else long))
        places.append(height)
        if index < len(spans):
            seconds.append(seconds[-1] + spans[index])
            places.append(heights[index + 1])
    path, sharp = Path(np.array(seconds), np.array(places)), rng.choice([0.0, rng.uniform()])
    return lambda t: path.at(t, sharp=sharp)


def safe(rng: np.random.Generator, way: float, span: tuple[float, float]) -> float:
    """Return seconds of an ease over this way that leaves the feet on the ground (minimum jerk: 5.77 way / t²)."""
    return max(rng.uniform(*span), float(np.sqrt(5.8 * abs(way) / (NEAR_FLIGHT * STANDARD_GRAVITY))))
