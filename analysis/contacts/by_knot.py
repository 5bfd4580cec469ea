"""Contacts of flights whose push or absorb is no whole drive: cut off by the track, or of a shape of its own."""

from dataclasses import replace

import numpy as np

from .bottom import Bottom, bottom
from .drive import LEAST_RESIDUAL
from .knot import knot
from .side import LEAST_CONTACT_ERROR, MOST_CONTACT_ERROR, NOISY, Contact, Side
from .start import USUAL_FORCE, start_of

FORCE_SPREAD = 0.3
"""Share by which the time is unsure that a usual force takes to show: 1.2 to 15 body weights lie within two errors
(ours; stiff landings have over 8)."""
FEW_GROUND_SAMPLES, MANY_GROUND_SAMPLES = 4, 12
"""Number of samples on the ground that a free knot is fitted to: on a clean track, on a noisy one."""


def free_contact(side: Side, foot: Bottom | None, *, noise: float, fps: float) -> Contact | None:
    """Find the contact by a free knot on the nearest samples, whatever the push before them was like.

    foot: the bottom as seen from the air; noise: meters. None where the side never touches the ground.
    """
    f, z, first, beat = side.frames, side.heights, side.first, side.beat
    if first == 1:
        return _alone(side, foot, noise)
    c = 0 if foot is None else int(f.searchsorted(foot.frame))
    low = max(first - (FEW_GROUND_SAMPLES if noise <= NOISY else MANY_GROUND_SAMPLES), c, 0)
    found = knot(
        f[low:],
        z[low:],
        low=float(f[first]) - 2 * beat,
        high=float(f[first]) + beat,
        noise=max(noise, LEAST_RESIDUAL),
        air=first + 1 - low,
    )
    if found is None:
        gone = abs(side.parabola.height(float(f[first - 1])) - float(z[first - 1]))
        if gone <= 4 * noise + 1e-4:
            return None
        return Contact(float(f[first]) - 0.5 * beat, 0.5 * beat, foot)
    error = min(float(np.hypot(found.error, max(LEAST_CONTACT_ERROR * beat, side.unlike))), MOST_CONTACT_ERROR * beat)
    frame = found.frame + (side.late if found.speed > 0.0 and noise > NOISY else 0.0)
    low_point = bottom(f, z, found, noise=noise, fps=fps)
    if low_point is not None:
        low_point = replace(low_point, error=max(low_point.error, error))
        end = replace(found, frame=frame, error=error, height=side.parabola.height(frame))
        low_point = low_point if low_point.cut else start_of(low_point, side, end, noise=noise)
    return Contact(frame, error, low_point)


def _alone(side: Side, foot: Bottom | None, noise: float) -> Contact | None:
    """Return the contact where one sample lies beyond it: as long before it as a usual force takes to move it so
    far.
    """
    f, beat = side.frames, side.beat
    off = float(side.heights[0]) - side.parabola.height(float(f[0]))
    if off <= 4 * noise + 1e-4:
        return None
    ago = min(float(np.sqrt(off / (-side.parabola.c2 * USUAL_FORCE))), 1.5 * beat)
    return Contact(float(f[0]) + ago, max(FORCE_SPREAD * ago, LEAST_CONTACT_ERROR * beat), foot)
