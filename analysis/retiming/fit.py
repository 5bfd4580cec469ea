"""Fit: which heights the drawn times of a jump would fit, moving no key. Meters."""

from dataclasses import dataclass

from ..jump import Jump


@dataclass(frozen=True, slots=True)
class DrawnFit:
    """What the drawn times would fit, moving no key; meters, None where the jump has no push or pace.

    height          jump height that the airtime is real for
    push_distance   crouch to takeoff that the push frames fit, under the flight as it is drawn
    both            the same under that height
    """

    height: float | None
    push_distance: float | None
    both: float | None


def fit_of(jump: Jump) -> DrawnFit:
    """Work out the heights that a jump's times fit: h (g / g_fit), and d push frames / expected push frames."""
    pace, push = jump.flight.pace, jump.push
    tall = 1.0 / pace.value**2 if pace else None
    deep = push.distance.value * push.frames.value / push.expected.value if push else None
    return DrawnFit(tall and jump.flight.height.value * tall, deep, tall and deep and tall * deep)
