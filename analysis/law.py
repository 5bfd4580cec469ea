"""The laws of a jump that several rooms work with, each once. Meters, seconds, m/s²."""

import math


def rise_in(seconds: float, *, landing: float, gravity: float) -> float | None:
    """Give the rise of a flight of so many seconds that lands so many meters above its takeoff (under 0: below).

    From y = v t - g t² / 2 through the landing; None when it would land while rising, or without a rise.

    >>> round(rise_in(1.0, landing=0.0, gravity=9.80665), 4)
    1.2258
    """
    rise = landing / (gravity * seconds) + 0.5 * seconds
    return 0.5 * gravity * rise**2 if 0.0 < rise < seconds else None


def spring_shape(ratio: float) -> float:
    """Give the shape k of a push that is the release of a spring, for its push ratio R.

    From the lowest point of a mass on a spring to where the spring is slack: amplitude over sag is 2 R + 1,
    so k = ½ sqrt(R / (R + 1)) (π/2 + asin(1 / (2 R + 1))); π/4 for a spring without weight.

    >>> round(spring_shape(1.0), 4), round(spring_shape(1e9), 4)
    (0.6755, 0.7854)
    """
    angle = 0.5 * math.pi + math.asin(1.0 / (2.0 * ratio + 1.0))
    return 0.5 * math.sqrt(ratio / (ratio + 1.0)) * angle
