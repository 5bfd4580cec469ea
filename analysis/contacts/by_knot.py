"""Contacts of flights whose push or absorb is no whole drive: cut off by the track, or of a shape of its own."""

from dataclasses import replace

import numpy as np

from .bottom import Bottom, bottom
from .drive import FLOOR
from .knot import Knot, knot
from .side import LEAST, MOST, NOISY, Contact, Side
from .start import start_of

USUAL_FORCE, FORCE_SPREAD = 3.0, 0.3
"""Body weights over its own that a push or an absorb is held to have where a single sample shows it, and the share
by which its time is unsure then: 1.2 to 15 lie within two errors (ours; landings average 2.1 to 2.9 body weights in
five plate records, BMC laboratory, and stiff ones over 8)."""
FEW, MANY = 4, 12
"""Number of samples on the ground that a free knot is fitted to: on a clean track, on a noisy one."""


def free_contact(side: Side, foot: Bottom | None, *, noise: float, fps: float) -> Contact | None:
    """Find the contact by a free knot on the nearest samples, whatever the push before them was like.

    foot: the bottom as seen from the air; noise: meters. None where the side never touches the ground.
    """
    f, z, first, beat = side.frames, side.heights, side.first, side.beat
    if first == 1:
        return _alone(side, foot, noise)
    c = 0 if foot is None else int(f.searchsorted(foot.frame))
    low = max(first - (FEW if noise <= NOISY else MANY), c, 0)
    found = knot(
        f[low:],
        z[low:],
        low=float(f[first]) - 2 * beat,
        high=float(f[first]) + beat,
        noise=max(noise, FLOOR),
        air=first + 1 - low,
    )
    if found is None:
        gone = abs(side.parabola.height(float(f[first - 1])) - float(z[first - 1]))
        if gone <= 4 * noise + 1e-4:
            return None
        return Contact(float(f[first]) - 0.5 * beat, 0.5 * beat, foot)
    found = _over_ground(side, found, noise)
    error = min(float(np.hypot(found.error, max(LEAST * beat, side.unlike))), MOST * beat)
    low_point = bottom(f, z, found, noise=noise, fps=fps)
    if low_point is not None:
        low_point = replace(low_point, error=max(low_point.error, error))
        if low_point.held and noise > NOISY:
            low_point = start_of(low_point, low_point, side, found.frame, noise=noise)
    return Contact(found.frame + (side.late if found.speed > 0.0 and noise > NOISY else 0.0), error, low_point)


def _alone(side: Side, foot: Bottom | None, noise: float) -> Contact | None:
    """Return the contact where one sample lies beyond it: as long before it as a usual force takes to move it so
    far.
    """
    f, beat = side.frames, side.beat
    off = float(side.heights[0]) - side.parabola.height(float(f[0]))
    if off <= 4 * noise + 1e-4:
        return None
    ago = min(float(np.sqrt(off / (-side.parabola.c2 * USUAL_FORCE))), 1.5 * beat)
    return Contact(float(f[0]) + ago, max(FORCE_SPREAD * ago, LEAST * beat), foot)


def _over_ground(side: Side, found: Knot, noise: float) -> Knot:
    """Return the same contact, but no lower than the ground beside it, nor in the air: there the body stops dead on
    it.
    """
    f, z, first, parabola = side.frames, side.heights, side.first, side.parabola
    ground, slack = float(z[first - 1]), 4 * noise + 1e-6
    under = found.frame >= f[first - 1] and parabola.height(found.frame) < ground - slack
    over = found.frame > f[first] and abs(parabola.height(float(f[first])) - float(z[first])) <= slack
    if not (under or over) or parabola.c2 >= 0:
        return found
    top = parabola.height(parabola.vertex)
    frame = parabola.vertex - float(np.sqrt(max(top - ground, 0.0) / -parabola.c2))
    if not f[first - 1] <= frame <= f[first]:
        return found
    return replace(found, frame=frame, height=ground, speed=parabola.speed(frame), error=0.0)
