"""Jumps amid other action: floating ones, ones without a crouch, off a seat and back onto it, between walks and bobs.

They are keyed by eye like those of shots.py, and with the same kinds of keys and curves. What else a body does, such as
to straighten up too far after it has landed, is no jump.
"""

import math
from functools import partial

import numpy as np
from leapwright.analysis.world import STANDARD_GRAVITY

from .shots import Scene, Shot, drawn_by


def floating(shot: Shot, rng: np.random.Generator) -> None:
    """Draw a leap from a stand to a stand, at 0.35 to 0.6 of the pace of real time."""
    shot.begin(1.0)
    shot.hold(rng.uniform(0.3, 1.0))
    shot.move(rng.uniform(0.2, 0.4), 0.6)
    shot.jump(rng.uniform(0.25, 1.0), crouch=0.6, absorb=0.65, pace=rng.uniform(0.35, 0.6))
    shot.move(0.35, 1.0)
    shot.hold(0.4)


def overshooting(shot: Shot, rng: np.random.Generator) -> None:
    """Draw a leap after which the body straightens up a little too far, and settles."""
    shot.begin(1.0)
    shot.hold(0.5)
    shot.move(rng.uniform(0.2, 0.4), 0.6)
    shot.jump(rng.uniform(0.2, 1.0), crouch=0.6, absorb=0.62)
    shot.move(rng.uniform(0.2, 0.4), rng.uniform(1.01, 1.04))
    shot.move(0.2, rng.uniform(0.96, 0.99))
    shot.move(0.2, 1.0)
    shot.hold(0.4)


def startled(shot: Shot, rng: np.random.Generator) -> None:
    """Draw a body that starts up from its seat and lands on it again, and never stands."""
    seat = rng.uniform(0.5, 0.6)
    shot.begin(seat)
    shot.hold(rng.uniform(0.4, 0.8))
    shot.move(0.15, seat - 0.03)
    shot.jump(rng.uniform(0.2, 0.6), crouch=seat - 0.03, absorb=seat - 0.05, toes=seat + rng.uniform(0.1, 0.45))
    shot.move(0.2, seat)
    shot.hold(0.5)


def popped(shot: Shot, rng: np.random.Generator) -> None:
    """Draw a body that leaves its stand without a crouch, and comes back to it without an absorb."""
    shot.begin(1.0)
    shot.hold(rng.uniform(0.3, 1.0))
    rise = rng.uniform(0.2, 1.0)
    air = math.sqrt(2 * rise * shot.stand / STANDARD_GRAVITY) / rng.uniform(0.6, 1.5)
    left = shot.keys[-1]
    apex, met = shot.move(air, 1.0 + rise), shot.move(air, 1.0)
    shot.events.append([left, left, apex, met, met])
    shot.hold(0.5)


def at_its_feet(shot: Shot, rng: np.random.Generator) -> None:
    """Draw the root between a body's feet: it lies on the ground, and shows neither crouch nor absorb."""
    shot.begin(0.0)
    shot.move(rng.uniform(0.3, 1.0), 0.0)
    for _ in range(int(rng.integers(1, 4))):
        rise = max(rng.uniform(0.1, 1.0), 0.08 / shot.stand)
        air = math.sqrt(2 * rise * shot.stand / STANDARD_GRAVITY) / rng.uniform(0.6, 1.5)
        left = shot.keys[-1]
        apex, met = shot.move(air, rise), shot.move(air, 0.0)
        shot.events.append([left, left, apex, met, met])
        if rng.uniform() < 0.6:
            shot.move(rng.uniform(0.2, 0.6), 0.0)
    shot.move(0.5, 0.0)


def between_walks(shot: Shot, rng: np.random.Generator) -> None:
    """Draw a leap out of a walk, after which the body walks on."""
    shot.begin(1.0)
    _bob(shot, rng, 0.02, 0.25, 0.98)
    shot.move(rng.uniform(0.2, 0.4), 0.65)
    shot.jump(rng.uniform(0.2, 0.8), crouch=0.65, absorb=rng.uniform(0.65, 0.8))
    shot.move(0.3, 1.0)
    _bob(shot, rng, 0.02, 0.25, 0.98)


def between_dance_steps(shot: Shot, rng: np.random.Generator) -> None:
    """Draw a leap out of a bounce on the beat, after which the body bounces on."""
    shot.begin(0.91)
    _bob(shot, rng, 0.04, 0.25, 0.95)
    shot.move(0.3, 0.75)
    shot.jump(rng.uniform(0.2, 0.6), crouch=0.75, absorb=0.75)
    shot.move(0.2, 0.99)
    _bob(shot, rng, 0.04, 0.25, 0.95)


def rebounding(shot: Shot, rng: np.random.Generator) -> None:
    """Draw a leap whose landing goes straight into a small hop."""
    shot.begin(1.0)
    shot.hold(0.5)
    shot.move(rng.uniform(0.2, 0.4), 0.6)
    shot.jump(rng.uniform(0.4, 1.0), crouch=0.6, absorb=0.62)
    shot.jump(max(rng.uniform(0.12, 0.25), 0.1 / shot.stand), crouch=0.62, absorb=0.8)
    shot.move(0.3, 1.0)
    shot.hold(0.4)


def after_a_seat(shot: Shot, rng: np.random.Generator) -> None:
    """Draw a body that sits down, gets up, stands, and leaps."""
    shot.begin(1.0)
    shot.hold(0.5)
    shot.move(0.6, 0.55)
    shot.hold(rng.uniform(0.5, 1.0))
    shot.move(rng.uniform(0.5, 0.9), 1.0)
    shot.hold(rng.uniform(0.3, 0.6))
    shot.move(0.3, 0.62)
    shot.jump(rng.uniform(0.2, 0.8), crouch=0.62, absorb=0.65)
    shot.move(0.3, 1.0)
    _bob(shot, rng, 0.02, 0.25, 0.98)


def _bob(shot: Shot, rng: np.random.Generator, size: float, seconds: float, middle: float) -> None:
    for _ in range(int(rng.integers(2, 7))):
        shot.move(seconds, middle - size)
        shot.move(seconds, middle + size)


SCENES: dict[str, Scene] = {
    "floating": floating,
    "overshooting": overshooting,
    "off a seat and back": startled,
    "popped": popped,
    "root at the feet": at_its_feet,
    "between walks": between_walks,
    "between dance steps": between_dance_steps,
    "rebounding": rebounding,
    "after a seat": after_a_seat,
}
MAKERS = {name: partial(drawn_by, scene=scene) for name, scene in SCENES.items()}
