"""The bob: a rival that never leaves the ground. Do the samples ask for contacts, or does smooth motion do as well?

Two models with as many terms each, from bottom to bottom: a polynomial of degree 6, and a parabola that leaves the
ground and meets it, with two powers beyond either contact. For white noise of unknown size the log of the ratio of
their likelihoods is n/2 times the log of the ratio of their residuals.
"""

import math
from functools import lru_cache

import numpy as np

from ..arrays import Array
from .flights import FlightStretch

BOB_DEGREE = 6
TIED_RESIDUAL = 2e-3
"""Part of the rise that either model may miss without its saying anything: a curve drawn by hand (ours)."""


def against_a_bob(flight: FlightStretch, frames: Array, heights: Array, *, noise: float) -> float | None:
    """Return nats for contacts against a bob; None without contacts, or where too few samples lie between the bottoms.

    frames, heights: (n,) frames and meters; noise: meters, one standard deviation.
    """
    start, end = flight.takeoff, flight.landing
    if start is None or end is None:
        return None
    f, z = frames, heights
    first = start.bottom.frame if start.bottom else start.frame
    last = -end.bottom.frame if end.bottom else -end.frame
    a, b = (int(i) for i in f.searchsorted((first, last)))
    if b - a < BOB_DEGREE + 4:
        return None
    scale = 2 / float(f[b - 1] - f[a])
    s = (f[a:b] - f[a]) * scale - 1
    takeoff, landing = ((frame - f[a]) * scale - 1 for frame in (start.frame, -end.frame))
    before, after = np.maximum(takeoff - s, 0.0), np.maximum(s - landing, 0.0)
    kinked = np.empty((b - a, BOB_DEGREE + 1))
    for i, power in enumerate((1.0, s, s * s, before**2, before**3, after**2, after**3)):
        kinked[:, i] = power
    rises = z[a:b] - z[a]
    floor = 0.1 * (b - a) * (noise**2 + (TIED_RESIDUAL * float(rises.max() - rises.min())) ** 2)
    smooth = _polynomials(s.tobytes())
    bob, leap = rises - smooth @ (smooth.T @ rises), rises - kinked @ np.linalg.lstsq(kinked, rises, rcond=1e-10)[0]
    return 0.5 * (b - a) * math.log((float(bob @ bob) + floor) / (float(leap @ leap) + floor))


@lru_cache(maxsize=16)
def _polynomials(places: bytes) -> Array:
    """Return polynomials up to BOB_DEGREE at n places, orthonormal, (n, BOB_DEGREE + 1); rises and falls of one
    length share them.
    """
    return np.linalg.qr(np.vander(np.frombuffer(places), BOB_DEGREE + 1))[0]
