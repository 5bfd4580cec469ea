"""Whether samples ask for contacts, or a smooth bob explains them as well.

Two rivals with as many terms each, from bottom to bottom: a polynomial of degree 6, and a parabola that
leaves the ground and meets it (two powers beyond either contact).
"""

import numpy as np

from ..phases import Phases
from .poses import Poses

DEGREE = 6
DECISIVE = 20.0
"""Difference in χ² by which contacts must beat a smooth bob (ours; p about 5e-5 for two unknowns: a track
holds many bobs)."""
MISFIT, HARDLY = 2.2, 1.5
"""Times the noise's variance that contacts may leave over where a bob leaves hardly more (the second, times as
much): what neither explains is something else, such as a swing on a rope (ours)."""
CLEARLY = 3.0
"""Times as large that the bob's residual must be where the parabola itself is followed only loosely."""


def beats_a_bob(poses: Poses, phases: Phases, pace: float) -> bool:
    """Tell whether contacts explain noisy samples better than a bob, by `DECISIVE` in χ².

    And by more the slower the flight: slow arcs are what bobs draw.
    """
    residuals = _residuals(poses, phases)
    if residuals is None:
        return True
    smooth, kinked, count = residuals
    if kinked > MISFIT * (count - DEGREE - 1) * poses.noise**2 and smooth < HARDLY * kinked:
        return False
    return smooth - kinked > DECISIVE * (poses.noise / min(pace, 1.0)) ** 2


def stands_out(poses: Poses, phases: Phases) -> bool:
    """Tell whether contacts explain a loosely ballistic rise and fall far better than a bob does."""
    residuals = _residuals(poses, phases)
    return residuals is not None and residuals[0] > CLEARLY * residuals[1]


def _residuals(poses: Poses, phases: Phases) -> tuple[float, float, int] | None:
    """Residual sums of squares of bob and contacts, m², and the samples; None where too few of them tell."""
    start = (phases.crouch or phases.takeoff).frame
    end = (phases.absorbed or phases.landing).frame
    a, b = np.searchsorted(poses.frames, (start, end))
    if b - a < DEGREE + 4:
        return None
    scale = 2 / float(poses.frames[b - 1] - poses.frames[a])
    s = (poses.frames[a:b] - poses.frames[a]) * scale - 1
    z = poses.heights[a:b]
    takeoff, landing = ((e.frame - poses.frames[a]) * scale - 1 for e in (phases.takeoff, phases.landing))
    before, after = np.maximum(takeoff - s, 0.0), np.maximum(s - landing, 0.0)
    smooth = np.polynomial.legendre.legvander(s, DEGREE)
    kinked = np.stack((np.ones_like(s), s, s * s, before**2, before**3, after**2, after**3), axis=1)
    rests = (z - design @ np.linalg.lstsq(design, z, rcond=1e-10)[0] for design in (smooth, kinked))
    without, with_contacts = (float(rest @ rest) for rest in rests)
    return without, with_contacts, int(b - a)
