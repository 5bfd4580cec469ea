"""Contacts of flights and the bottoms beyond them: takeoff with its crouch, landing with its absorb.

Everything is seen back in time from a takeoff; for a landing, time is reversed.
"""

import math
from dataclasses import dataclass, replace

import numpy as np

from ..arrays import Array
from .bottom import Bottom, bottom
from .by_knot import free_contact
from .drive import (
    END_COLUMN,
    LEAST_RESIDUAL,
    LEVEL_COLUMN,
    Grounds,
    ebbing_drives,
    fading_drives,
    power_drives,
    springing_drives,
)
from .knot import Knot
from .least_squares import Fit
from .side import JOINT, LEAST_CONTACT_ERROR, MOST_CONTACT_ERROR, NOISY, Contact, Side
from .start import shows, start_of

POWER_LAW_RESIDUAL = 5e-5
"""Largest residual, as a share of the push distance, at which we take the curve for a power law, without rivals."""
DRIVE_RESIDUAL = 3e-3
"""Largest residual, as a share of the push distance, at which we prefer a drive to a free knot (`by_knot`)."""
USUALLY = (12.0, 2.0)
"""Prior odds over each other family. The first: of a power law, for a push that was drawn. The second: of a power law
and of a fading drive, for a measured one. (Our choice: forces integrated from random shapes ask for no more.
Half or twice the odds move a takeoff by a tenth of its error at most.)"""
TELLING = 3
"""Number of samples within a push from which a power law through all of them is not there by chance; one more where the
height of its bottom is fitted too (integrated: through fewer a power law goes whatever the force, through as many it
does in 1 of 200)."""
UNRESOLVED = 1.2
"""Least standard error of the start, in samples, is this over (n + 1/2)², with n samples within the push (calibrated on
seeded jumps)."""


def contacts(sides: list[Side], *, noise: float, fps: float) -> list[Contact | None]:
    """Find the contact of each side; None where the track ends in the air. noise: meters."""
    feet = [_foot(side, noise, fps) for side in sides]
    driven = _driven(sides, feet, noise, fps)
    return [
        driven[i] if i in driven else free_contact(side, foot, noise=noise, fps=fps) if side.first > 0 else None
        for i, (side, foot) in enumerate(zip(sides, feet, strict=True))
    ]


def _foot(side: Side, noise: float, fps: float) -> Bottom | None:
    """Return the bottom of a side, as it is seen from the first sample in the air."""
    f, z, first = side.frames, side.heights, side.first
    if first == 0:
        return None
    rough = Knot(float(f[first]), side.beat, float(z[first]), side.parabola.speed(float(f[first])), 0.0)
    return bottom(f[: first + 1], z[: first + 1], rough, noise=noise, fps=fps, rough=True)


def _driven(sides: list[Side], feet: list[Bottom | None], noise: float, fps: float) -> dict[int, Contact]:
    """Return, by the index of the side, the contacts at the end of a drive that is seen whole, from its bottom on."""
    whole = {i: foot for i, foot in enumerate(feet) if foot is not None and not foot.cut}
    spans = {i: span for i, foot in whole.items() if (span := _span(sides[i], foot, noise, fps)) is not None}
    if not spans:
        return {}
    order = list(spans)
    ground = _grounds([sides[i] for i in order], [whole[i] for i in order], list(spans.values()), noise)
    rises = np.array([_rise(sides[i], whole[i]) for i in order])
    power = power_drives(ground)
    inside = (ground.frames > power.derived[:, None]) & (ground.frames < power.unknowns[:, END_COLUMN, None])
    exact = np.sqrt(power.rss / power.count) <= POWER_LAW_RESIDUAL * rises
    exact &= (inside * ground.weights).sum(axis=1) >= TELLING + ground.free
    found = {
        order[k]: _averaged([(power, k)], whole[order[k]], sides[order[k]], LEAST_RESIDUAL)
        for k in np.flatnonzero(exact)
    }
    rest = np.flatnonzero(~exact)
    if len(rest):
        others = ground.at(rest)
        families = [drives(others) for drives in (fading_drives, springing_drives, ebbing_drives)]
        for j, k in enumerate(rest):
            side, foot = sides[order[k]], whole[order[k]]
            rivals = [(power, k), *((fit, j) for fit in families)]
            least = min(float(fit.rss[row]) for fit, row in rivals)
            if np.sqrt(least / float(power.count[k])) <= max(1.5 * noise, DRIVE_RESIDUAL * rises[k]):
                spread = max(noise, LEAST_RESIDUAL, side.rms)
                found[order[k]] = _averaged(rivals, foot, side, spread, noise=noise)
    return found


def _rise(side: Side, foot: Bottom) -> float:
    """Return meters from the bottom to the first sample in the air."""
    return side.parabola.height(float(side.frames[side.first])) - foot.height


@dataclass(frozen=True, slots=True)
class _Span:
    """Samples low to high of a side (high excluded), and the frames between which a drive may start and end."""

    low: int
    high: int
    starts: tuple[float, float]
    ends: tuple[float, float]


def _span(side: Side, foot: Bottom, noise: float, fps: float) -> _Span | None:
    f, first, beat = side.frames, side.first, side.beat
    c = int(f.searchsorted(foot.frame + 1e-9))
    low = max(c - 2, 0) if foot.held else c
    late = 0.6 * beat + min(1.3 * side.lead, 0.5 * (float(f[first]) - foot.frame))
    high = min(int(f.searchsorted(f[first] + late + beat, side="right")), len(f))
    wide = max(beat, min(fps / 24, 0.5 * (float(f[first]) - foot.frame)))
    least = max(foot.frame - 1.5 * wide, float(f[0]) - beat)
    slack = beat * (1.0 + min(6.0, noise / 1e-3))
    ends = (max(float(f[first]) - 1.2 * beat - slack, least + 0.2), float(f[first]) + late + 0.6 * (slack - beat))
    most = min(foot.frame + 1.5 * wide + 0.5 * slack, ends[1] - 0.1)
    return None if most <= least or high - low < 3 else _Span(low, high, (least, most), ends)


def _grounds(sides: list[Side], feet: list[Bottom], spans: list[_Span], noise: float) -> Grounds:
    """Stack the samples of the sides; pad the shorter ones with copies of their last sample, of weight zero."""
    longest = max(span.high - span.low for span in spans)
    index = [np.minimum(np.arange(span.low, span.low + longest), span.high - 1) for span in spans]
    parabolas = [(p.origin, p.c0, p.c1, p.c2) for p in (side.parabola for side in sides)]
    counts = np.array([span.high - span.low for span in spans])
    return Grounds(
        frames=np.array([side.frames[i] for side, i in zip(sides, index, strict=True)]),
        heights=np.array([side.heights[i] for side, i in zip(sides, index, strict=True)]),
        weights=(np.arange(longest)[None, :] < counts[:, None]).astype(np.float64),
        parabolas=np.array(parabolas),
        levels=np.array([foot.height for foot in feet]),
        starts=np.array([span.starts for span in spans]),
        ends=np.array([span.ends for span in spans]),
        leads=np.array([side.lead for side in sides]),
        free=np.array([not foot.held for foot in feet]),
        noise=noise,
    )


def _told(fit: Fit, row: int) -> tuple[float, ...]:
    """Return what a drive says: its residual, its start and its end, each with its error, the level of its bottom, and
    the covariance of start and end.
    """
    start = fit.derived[row], fit.derived_error[row]
    end = fit.unknowns[row, END_COLUMN], fit.errors[row, END_COLUMN]
    return fit.rss[row], *start, *end, fit.unknowns[row, LEVEL_COLUMN], fit.together[row, END_COLUMN]


def _shares(rss: Array, noise: float, *, measured: bool) -> Array:
    """Return how likely each drive is by its residual; the power law and the fading drive come first. The sum is 1."""
    if len(rss) == 1:
        return np.ones(1)
    weights: Array = np.exp(-0.5 * (rss - rss.min()) / noise**2)
    weights[: 2 if measured else 1] *= USUALLY[measured]
    return weights / weights.sum()


def _averaged(
    rivals: list[tuple[Fit, int]], foot: Bottom, side: Side, spread: float, *, noise: float = 0.0
) -> Contact:
    """Return the mean of the drives, each weighted by its likelihood (Bayesian model averaging).

    rivals: (fit, its row), the power law and the fading drive first; spread: meters, standard deviation of the samples
    about a drive; noise: meters, of the samples: where it is over NOISY, the contact lies `side.late` after what the
    drives say. The error adds up the error of each fit and what the fits disagree on; that of the start adds what the
    samples cannot resolve, which is more the fewer of them lie within the push.
    """
    told = np.array([_told(fit, row) for fit, row in rivals])
    rss, starts, start_errors, ends, end_errors, levels, shared = told.T
    weights = _shares(rss, spread, measured=noise > NOISY)
    start, end, level = float(weights @ starts), float(weights @ ends), float(weights @ levels)
    within = int(side.frames.searchsorted(end) - side.frames.searchsorted(start, side="right"))
    exact = len(rivals) == 1
    low = Bottom(start, 0.0, level, foot.held, cut=False)
    doubt = 0.0 if exact else side.unlike
    fitted = np.minimum(JOINT * end_errors, shows(side, spread))
    end_error = _joined(weights, end, ends, fitted, LEAST_CONTACT_ERROR * side.beat, doubt)
    start_error = _joined(weights, start, starts, JOINT * start_errors, UNRESOLVED * side.beat / (within + 0.5) ** 2)
    # The floors, and what the samples cannot resolve, are errors of the one or the other: start and end share none.
    along = float(weights @ (JOINT**2 * shared + (starts - start) * (ends - end))) / end_error**2
    low = replace(low, error=start_error, along=along)
    end, end_error = end + (side.late if noise > NOISY else 0.0), min(end_error, MOST_CONTACT_ERROR * side.beat)
    if not exact:
        low = start_of(low, side, _met(side, end, end_error), noise=noise)
    return Contact(end, end_error, low)


def _met(side: Side, frame: float, error: float) -> Knot:
    """Return the end of a push, where it has the height and the speed of the parabola."""
    speed = side.parabola.speed(frame)
    return Knot(frame, error, side.parabola.height(frame), speed, speed)


def _joined(weights: Array, mean: float, each: Array, errors: Array, *floors: float) -> float:
    """Return the standard error of a mean: the errors of the drives, how far they differ, and the floors, added up."""
    return math.hypot(math.sqrt(float(weights @ (errors**2 + (each - mean) ** 2))), *floors)
