"""One contact of a flight and the bottom beyond it: takeoff with its crouch, landing with its absorb.

Everything looks back in time from a takeoff; for a landing, pass the samples with time reversed.
"""

from dataclasses import dataclass

import numpy as np

from .bottoms import Bottom, bottom
from .drive import FLOOR, Drive, Ground, Parabola, fading_drive, power_drive, springing_drive
from .knots import Knot, knot

EXACT = 2e-4
"""Residual as a share of the push distance up to which a power law simply is the curve."""
MISFIT = 3e-4
"""The same, by which a drawn curve may stray from the family it belongs to."""
CLOSE = 3e-3
"""The same, up to which a drive is believed over a free knot."""
HELD_PRIORS, TURNED_PRIORS = (0.8, 0.1, 0.1), (0.5, 0.35, 0.15)
"""How likely a push is a power law, fades, or springs, before the samples speak: from a pose held in the
crouch, and through one (ours: poses are keyed, countermovements recorded)."""
JOINT = 1.5
"""By how much the flight's own error, taken as none in a drive's fit, widens the drive's (calibrated on
seeded jumps under noise)."""
FEW, MANY = 4, 12
"""Contact samples a free knot is fitted on: clean, noisy."""
NOISY = 1e-4
"""Metres of noise from which the samples count as measured, not drawn."""
UNRESOLVED = (0.35, 1.2)
"""Samples by which end and start of a push with none within are unsure; with n within, by 4/(2n + 1)² of
it (calibrated on seeded jumps)."""
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
    ground = _ground(side, parabola, foot, noise, lead)
    if ground is None:
        return None
    rise = float(parabola.at(side.frames[side.first])) - foot.height
    power = power_drive(ground)
    if power is not None and power.rms <= EXACT * rise:
        return _averaged([(power, 1.0)], foot, side, FLOOR)
    drives = (power, fading_drive(ground, lead), springing_drive(ground))
    priors = HELD_PRIORS if foot.held else TURNED_PRIORS
    fitted = [(drive, prior) for drive, prior in zip(drives, priors, strict=True) if drive is not None]
    if not fitted or min(drive.rms for drive, _ in fitted) > max(1.5 * noise, CLOSE * rise):
        return None
    return _averaged(fitted, foot, side, max(noise, FLOOR, MISFIT * rise))


def _ground(side: Side, parabola: Parabola, foot: Bottom, noise: float, lead: float) -> Ground | None:
    f, first, beat = side.frames, side.first, side.beat
    c = int(np.searchsorted(f, foot.frame + 1e-9))
    low = max(c - 2, 0) if foot.held else c
    late = 0.6 * beat + 1.3 * lead
    high = min(int(np.searchsorted(f, f[first] + late + beat, side="right")), len(f))
    least = max(foot.frame - 1.5 * beat, float(f[0]) - beat)
    slack = beat * (1.0 + min(6.0, noise / 1e-3))
    ends = (max(float(f[first]) - 1.2 * beat - slack, least + 0.2), float(f[first]) + late + 0.6 * (slack - beat))
    most = min(foot.frame + 1.5 * beat + 0.5 * slack, ends[1] - 0.1)
    if most <= least or high - low < 3:
        return None
    return Ground(
        f[low:high], side.heights[low:high], parabola, foot.height, (least, most), ends, noise, free=not foot.held
    )


def _averaged(fitted: list[tuple[Drive, float]], foot: Bottom, side: Side, noise: float) -> Contact:
    """The mean of the drives, each weighted by its likelihood and prior (Bayesian model averaging).

    The error adds up what each fit leaves open, what they disagree on, and what no sample resolves: the
    fewer lie within the push, the less its shape is known.
    """
    least = min(drive.rss for drive, _ in fitted)
    weights = np.array([prior * np.exp(-0.5 * (drive.rss - least) / noise**2) for drive, prior in fitted])
    weights /= weights.sum()
    start, end, level = weights @ np.array([(drive.start, drive.end, drive.level) for drive, _ in fitted])
    within = int(np.count_nonzero((side.frames > start) & (side.frames < end)))
    unresolved = side.beat / (within + 0.5) ** 2
    end_floor, start_floor = ((LEAST * side.beat) ** 2 + (share * unresolved) ** 2 for share in UNRESOLVED)
    end_variance = weights @ np.array([(JOINT * drive.end_error) ** 2 + (drive.end - end) ** 2 for drive, _ in fitted])
    start_variance = weights @ np.array(
        [(JOINT * drive.start_error) ** 2 + (drive.start - start) ** 2 for drive, _ in fitted]
    )
    end_error = min(float(np.sqrt(end_floor + end_variance)), MOST * side.beat)
    start_error = min(float(np.sqrt(start_floor + start_variance)), MOST * side.beat)
    return Contact(float(end), end_error, Bottom(float(start), start_error, float(level), foot.held, cut=False))


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
    error = min(float(np.hypot(found.error, LEAST * beat)), MOST * beat)
    return Contact(found.frame, error, bottom(f, z, found, noise=noise, fps=fps))
