"""The arc of a flight, now that its contacts are known: the parabola over the samples strictly in the air."""

import math
from functools import lru_cache

import numpy as np

from ..arrays import Array
from ..phases import Arc, Event
from .ballistic import LOOSE, by_noise
from .least_squares import inverse_of

AGREED = 0.02
"""Standard error, in frames, of an event on whose frame its key and the curve agree."""
FEWEST = 5
"""Fewest samples in the air that an arc is fitted to."""


def arc_over(f: Array, z: Array, a: int, b: int, fps: float, noise: float) -> Arc:
    """Fit the arc by least squares to the samples from index a to b, b out."""
    middle = float(f[(a + b) // 2])
    design, inverse = _parabolas(((f[a:b] - middle) / fps).tobytes())
    c = inverse @ (design.T @ z[a:b])
    residual = z[a:b] - design @ c
    rss = float(residual @ residual)
    spread = max(math.sqrt(rss / max(b - a - 3, 1)), noise)
    c0, c1, c2 = c.tolist()
    at = -c1 / (2 * c2) if c2 else 0.0
    return Arc(
        apex_frame=middle + at * fps,
        apex_height=c0 + c1 * at / 2,
        gravity=-2 * c2,
        gravity_error=2 * spread * math.sqrt(max(float(inverse[2, 2]), 0.0)),
        first=float(f[a]),
        last=float(f[b - 1]),
        count=b - a,
        residual_rms=math.sqrt(rss / (b - a)),
    )


@lru_cache(maxsize=64)
def _parabolas(seconds: bytes) -> tuple[Array, Array]:
    """Return the columns 1, s, s² of parabolas at these seconds, and the inverse of their squares: of as many even
    samples they are the same at every flight.
    """
    s = np.frombuffer(seconds)
    design = np.empty((len(s), 3))
    design[:, 0], design[:, 1], design[:, 2] = 1.0, s, s * s
    return design, inverse_of(design.T @ design)


def off_arc(f: Array, z: Array) -> tuple[float, float]:
    """Return how a parabola through samples bends, meters over square frames, and the squares that they miss it by.

    f, z: (n,) frames and meters; the squares are summed, m². Its orthogonal parts need no equations to be solved.
    """
    s, z = f - f.sum() / len(f), z - z.sum() / len(z)
    square = s * s
    square -= square.sum() / len(f)
    size = float(s.dot(s))
    square -= float(square.dot(s)) / size * s
    slope, bend = float(z.dot(s)) / size, float(z.dot(square)) / float(square.dot(square))
    z -= slope * s + bend * square
    return bend, float(z.dot(z))


def is_followed(arc: Arc, *, noise: float, fps: float, loose: float = LOOSE) -> bool:
    """Tell whether its samples follow it: by default as closely as those of a flight's stretch do.

    noise: meters; loose: share of the height, over the samples' span, that the residual may have.
    """
    free = arc.count - 3
    if free < 1 or arc.gravity <= 0.0:
        return False
    height = 0.5 * arc.gravity * ((arc.last - arc.first) / fps / 2) ** 2
    return arc.residual_rms * (arc.count / free) ** 0.5 <= math.hypot(noise * by_noise(free), loose * height)


def arc_between(
    f: Array, z: Array, takeoff: float, landing: float, *, fps: float, noise: float = 0.0
) -> Arc | None:
    """Fit the arc to the samples strictly between contacts; None where too few lie there, or its top does not.

    f, z: frames and meters; takeoff, landing: frames; noise: meters. A contact sample on either side would pull the
    fitted gravity down by 6 % at six air samples (simulated constant push and absorb).
    """
    a, b = int(f.searchsorted(takeoff, side="right")), int(f.searchsorted(landing))
    if b - a < FEWEST:
        return None
    arc = arc_over(f, z, a, b, fps, noise)
    return arc if arc.gravity > 0.0 and takeoff < arc.apex_frame < landing else None


def apex_of(arc: Arc, fps: float) -> Event:
    """Place the apex at the arc's vertex.

    Its error is that of the slope −c₁/2c₂ in the middle of the samples: their residual over their span.
    """
    span = (arc.last - arc.first) / fps
    slope = arc.residual_rms * np.sqrt(12 / max(arc.count, 1)) / max(span, 1e-9)
    return Event(arc.apex_frame, float(max(slope / abs(arc.gravity) * fps, 1e-3)), arc.apex_height)


def on_arc(frame: float, error: float, arc: Arc, fps: float) -> Event:
    """Place a contact on the arc."""
    return Event(frame, error, float(arc.heights(frame, fps)))
