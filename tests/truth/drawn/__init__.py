"""Seeded motion as an animator draws it: `make(family, seed)`; families in FAMILIES. Needs bpy.

Bodies are moved by random forces (tests/truth/forces.py), poses and breakdowns are taken from them by eye onto
frames, or poses are set by eye alone (shots.py), and the host draws the curve. Truth is the key of a contact where
there is one, else the instant at which the traced body left the ground; a drawing has no gravity.
"""

import zlib
from collections.abc import Callable

import numpy as np

from ..answer import Motion
from . import amid, blocking, dense, habits, loops, shots
from .draft import Sheet

Maker = Callable[[np.random.Generator], Sheet]

MAKERS: dict[str, Maker] = {
    **blocking.MAKERS,
    **dense.MAKERS,
    **loops.MAKERS,
    **habits.MAKERS,
    **shots.MAKERS,
    **amid.MAKERS,
}
FAMILIES = tuple(MAKERS)
TOLD = {
    "floaty": "air-floaty",
    "floating": "air-floaty",
    "pace a third": "air-floaty",
    "snappy": "air-snappy",
    "pace threefold": "air-snappy",
    "apex held": "arc-hang",
    "apex skewed": "arc-skew",
}
"""The finding that a family was drawn to have."""


def make(family: str, seed: int) -> Motion:
    """Return the motion of this family and seed, the same on every machine."""
    rng = np.random.default_rng([zlib.crc32(family.encode()), seed])
    return MAKERS[family](rng).motion(family, seed)
