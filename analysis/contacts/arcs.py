"""The arc of a flight, now that its contacts are known: the parabola over the samples strictly in the air."""

import math

import numpy as np

from ..arrays import Array
from ..phases import Arc, Event
from .ballistic import LOOSE, by_noise, parabola_over

AGREED = 0.02
"""Standard error, in frames, of an event on whose frame its key and the curve agree."""
FEWEST_ARC_SAMPLES = 5
"""Fewest samples in the air that an arc is fitted to."""


def arc_over(f: Array, z: Array, fps: float, noise: float) -> Arc:
    """Fit the arc by least squares to samples in the air. f, z: (n,) frames and meters; noise: meters."""
    parabola, rss, told = parabola_over(f, z)
    apex = parabola.vertex if parabola.c2 else parabola.origin
    spread = max(math.sqrt(rss / max(len(f) - 3, 1)), noise)
    return Arc(
        apex_frame=apex,
        apex_height=parabola.height(apex),
        gravity=-2 * parabola.c2 * fps**2,
        gravity_error=2 * spread * fps**2 / math.sqrt(told),
        first=float(f[0]),
        last=float(f[-1]),
        count=len(f),
        residual_rms=math.sqrt(rss / len(f)),
    )


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
    if b - a < FEWEST_ARC_SAMPLES:
        return None
    arc = arc_over(f[a:b], z[a:b], fps, noise)
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
