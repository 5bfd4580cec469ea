"""One contact of a flight and the bottom beyond it: takeoff with its crouch, landing with its absorb.

Everything looks back in time from a takeoff; for a landing, pass the samples with time reversed.
"""

from dataclasses import dataclass

import numpy as np

from .bottoms import Bottom, bottom
from .drive import FLOOR, Drive, Ground, Parabola, fading_drive, power_drive, springing_drive
from .knots import Knot, knot

EXACT = 2e-5
"""Residual as a share of the push distance up to which a power law simply is the curve."""
CLOSE = 3e-3
"""The same, up to which a drive is believed over a free knot."""
DECISIVE = 6.0
"""Difference in χ² from which one family of drives is preferred to the other (ours; p about 0.01)."""
FEW, MANY = 4, 12
"""Contact samples a free knot is fitted on: clean, noisy."""
NOISY = 1e-4
"""Metres of noise from which the samples count as measured, not drawn."""
LEAST, MOST = 0.005, 3.0
"""Samples: no contact is known better than the first (interpolated keys), or is lost by more than the second."""


@dataclass(frozen=True, slots=True, eq=False)
class Side:
    """One side of a flight: frames and heights, ground first, and the index of the first air sample."""

    frames: np.ndarray
    heights: np.ndarray
    first: int

    @property
    def beat(self) -> float:
        """Frames between samples next to the contact."""
        i = max(self.first, 1)
        return float(self.frames[i] - self.frames[i - 1])


@dataclass(frozen=True, slots=True)
class Contact:
    """Where a flight begins: frame and standard error (frames), and the bottom, None when there is none."""

    frame: float
    error: float
    bottom: Bottom | None


def contact(side: Side, parabola: Parabola, *, noise: float, lead: float, fps: float) -> Contact | None:
    """Find the contact of a side; None where the track ends in the air.

    parabola: the flight's; noise: metres; lead: frames by which a recorded speed peaks before
    the contact (see drive.LEAD).
    """
    f, z, first, beat = side.frames, side.heights, side.first, side.beat
    if first == 0:
        return None
    rough = Knot(float(f[first]), beat, float(z[first]), float(parabola.speed(f[first])), 0.0)
    foot = bottom(f[: first + 1], z[: first + 1], rough, noise=noise, fps=fps)
    if foot is not None and not foot.cut:
        found = _driven(side, parabola, foot, noise, lead)
        if found is not None:
            return found
    return _free(side, parabola, foot, noise, fps)


def _driven(side: Side, parabola: Parabola, foot: Bottom, noise: float, lead: float) -> Contact | None:
    """The contact that ends a whole drive from the bottom, of the family that fits better."""
    ground = _ground(side, parabola, foot, noise)
    if ground is None:
        return None
    rise = float(parabola.at(side.frames[side.first])) - foot.height
    power = power_drive(ground)
    if power is not None and power.rms <= EXACT * rise:
        return _made(power, power, foot, side)
    drives = [power, fading_drive(ground, lead), springing_drive(ground)]
    if foot.held:
        usual = power
    else:
        usual = drives[1] or power
    ranked = sorted((drive for drive in drives if drive is not None), key=lambda drive: drive.rss)
    if not ranked or ranked[0].rms > max(1.5 * noise, CLOSE * rise):
        return None
    as_good = [d for d in ranked if d.rss - ranked[0].rss < DECISIVE * max(noise, FLOOR) ** 2]
    best = usual if usual in as_good else ranked[0]
    other = max(as_good, key=lambda drive: abs(drive.end - best.end))
    return _made(best, other, foot, side)


def _ground(side: Side, parabola: Parabola, foot: Bottom, noise: float) -> Ground | None:
    f, first, beat = side.frames, side.first, side.beat
    c = int(np.searchsorted(f, foot.frame + 1e-9))
    low = max(c - 2, 0) if foot.held else c
    high = min(first + 2, len(f))
    least = max(foot.frame - 1.5 * beat, float(f[0]) - beat)
    slack = beat * (1.0 + min(6.0, noise / 1e-3))
    ends = (max(float(f[first]) - 1.2 * beat - slack, least + 0.2), float(f[first]) + 0.6 * slack)
    most = min(foot.frame + 1.5 * beat + 0.5 * slack, ends[1] - 0.1)
    if most <= least or high - low < 3:
        return None
    return Ground(
        f[low:high], side.heights[low:high], parabola, foot.height, (least, most), ends, noise, free=not foot.held
    )


def _made(drive: Drive, other: Drive, foot: Bottom, side: Side) -> Contact:
    """The contact of a drive; what another drive as good would say widens the errors."""
    within = int(np.count_nonzero((side.frames > drive.start) & (side.frames < drive.end)))
    unresolved = 0.35 * side.beat / (within + 0.5) ** 2
    error = _spread(drive.end_error, unresolved, drive.end - other.end, side.beat)
    start_error = _spread(drive.start_error, unresolved, drive.start - other.start, side.beat)
    return Contact(drive.end, error, Bottom(drive.start, start_error, drive.level, foot.held, cut=False))


def _spread(fitted: float, unresolved: float, between: float, beat: float) -> float:
    """One standard error of all: the fit's, what the samples cannot resolve, and half of what a rival says."""
    return min(float(np.sqrt(fitted**2 + unresolved**2 + (between / 2) ** 2 + (LEAST * beat) ** 2)), MOST * beat)


def _free(side: Side, parabola: Parabola, foot: Bottom | None, noise: float, fps: float) -> Contact | None:
    """The contact by a free knot on the nearest samples, whatever the push before them was like."""
    f, z, first, beat = side.frames, side.heights, side.first, side.beat
    c = 0 if foot is None else int(np.searchsorted(f, foot.frame))
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
        gone = abs(float(parabola.at(f[first - 1])) - float(z[first - 1]))
        if gone <= 4 * noise + 1e-4:
            return None
        return Contact(float(f[first]) - 0.5 * beat, 0.5 * beat, foot)
    return Contact(found.frame, _spread(found.error, 0.0, 0.0, beat), bottom(f, z, found, noise=noise, fps=fps))
