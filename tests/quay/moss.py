"""Moss the dock frog: one low-poly object with location keys of his own."""

import bpy

from .keying import lay
from .motion import Motion
from .moves import STANDING
from .shapes import Shape

SEAT = (0.09, 1.785)
"""Where Moss sits on Brindle's head while she stands at the origin: x, z in meters."""


def moss(motion: Motion) -> bpy.types.Object:
    """Build Moss and key him along Brindle's root, seated on her head."""
    shape = Shape()
    trunk = [((-0.10, 0.0, 0.03), 0.05), ((-0.03, 0.0, 0.06), 0.10), ((0.06, 0.0, 0.09), 0.095),
             ((0.13, 0.0, 0.09), 0.05)]  # fmt: skip
    shape.rings(trunk, ["moss", "moss", "moss"], sides=8)
    shape.limb((-0.02, 0.0, 0.02), (0.10, 0.0, 0.045), (0.075, 0.05), "moss belly", sides=7)
    for side in (1.0, -1.0):
        shape.limb((0.07, side * 0.06, 0.14), (0.085, side * 0.065, 0.20), (0.042, 0.03), "moss", sides=6)
        shape.box((0.105, side * 0.072, 0.185), (0.03, 0.028, 0.035), "eye")
        shape.limb((-0.08, side * 0.08, 0.05), (0.03, side * 0.14, 0.02), (0.045, 0.02), "moss", sides=5)
        shape.limb((0.09, side * 0.07, 0.05), (0.12, side * 0.11, 0.0), (0.025, 0.015), "moss", sides=5)
    frog = shape.build("Moss")
    frames = [key.frame for key in motion.keys]
    rows = (
        ([k.x + SEAT[0] for k in motion.keys], [(k.before[0], k.after[0]) for k in motion.keys]),
        ([0.0 for _ in motion.keys], [(0.0, 0.0) for _ in motion.keys]),
        ([k.z + SEAT[1] - STANDING for k in motion.keys], [(k.before[1], k.after[1]) for k in motion.keys]),
    )
    for index, (values, slopes) in enumerate(rows):
        lay(frog, "location", index, frames, values, slopes=slopes)
    return frog
