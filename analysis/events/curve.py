"""Jumps read off a sampled curve: ballistic stretches and the contacts at their ends, sub-frame."""

from dataclasses import dataclass

import numpy as np

from ..limits import Limits
from ..phases import Arc, Event, Phases
from .ballistic import Stretch, longest
from .drive import Parabola, drive
from .bottoms import Bottom, bottom
from .knots import Knot, knot
from .poses import Poses
from .tops import Top, tops

TOP_SPEED = 0.85
"""Share of a side's top speed that the parabola must reach; a bob reaches about 0.6."""
GROUND = 4
"""Contact samples a clean contact is fitted on; noise asks for more."""
FLOOR = 2e-5
"""Metres: what a smooth curve departs from a power law at best."""


@dataclass(frozen=True, slots=True, eq=False)
class _Side:
    """One side of a flight looked at so that the ground comes first: the fall is seen backwards."""

    frames: np.ndarray
    heights: np.ndarray
    first: int

    @property
    def beat(self) -> float:
        return float(self.frames[self.first] - self.frames[self.first - 1]) if self.first else 1.0


def jumps_on_curve(poses: Poses, fps: float, gravity: float, limits: Limits) -> list[Phases]:
    """Find every whole jump of sampled heights (see DEVELOPERS.md, "Finding the events")."""
    swing = max(limits.smallest_hop, 6 * poses.noise)
    found = []
    for top in tops(poses.heights, swing):
        stretch = _flight(poses, top, fps)
        if stretch is None:
            continue
        pace = np.sqrt(-2 * stretch.coefficients[2] * fps**2 / gravity)
        if not limits.slowest_pace <= pace <= limits.fastest_pace:
            continue
        phases = _phases(poses, stretch, top, fps)
        if phases is not None and phases.apex.height - phases.takeoff.height >= limits.smallest_hop:
            found.append(phases)
    return found


def _flight(poses: Poses, top: Top, fps: float) -> Stretch | None:
    """The stretch of a flight around a top; None where the top is no flight's."""
    f, z = poses.frames, poses.heights
    lag = max(1, round((len(f) - 1) / (f[-1] - f[0]) * fps / 30)) if poses.noise > 1e-4 else 1
    lag = min(lag, top.top - top.before, top.after - top.top)
    rising = (z[top.before + lag : top.top + 1] - z[top.before : top.top + 1 - lag]) / (
        f[top.before + lag : top.top + 1] - f[top.before : top.top + 1 - lag]
    )
    falling = (z[top.top + lag : top.after + 1] - z[top.top : top.after + 1 - lag]) / (
        f[top.top + lag : top.after + 1] - f[top.top : top.after + 1 - lag]
    )
    up, down = int(np.argmax(rising)), int(np.argmin(falling))
    first, last = top.before + up, top.top + down + lag
    stretch = longest(
        f, z, np.arange(first, top.top), np.arange(top.top + 1, last + 1), noise=poses.noise, fewest=4
    )
    if stretch is None:
        return None
    slack = 2 * 1.4 * poses.noise / (lag * float(f[1] - f[0]))
    half = lag * float(f[1] - f[0]) / 2
    enough_up = stretch.speed(float(f[stretch.first]) - half) >= TOP_SPEED * rising[up] - slack
    enough_down = -stretch.speed(float(f[stretch.last]) + half) >= TOP_SPEED * -falling[down] - slack
    return stretch if enough_up and enough_down else None


def _phases(poses: Poses, stretch: Stretch, top: Top, fps: float) -> Phases | None:
    f, z = poses.frames, poses.heights
    rise = _Side(f[: stretch.last], z[: stretch.last], stretch.first)
    fall = _Side(-f[: stretch.first : -1], z[: stretch.first : -1], len(f) - 1 - stretch.last)
    inner = _inner(f, z, stretch)
    takeoff, crouch = _contact(rise, inner, poses.noise)
    touch, absorbed = _contact(fall, Parabola(-inner.origin, inner.c0, -inner.c1, inner.c2), poses.noise)
    if takeoff is None or touch is None:
        return None
    landing = Knot(-touch.frame, touch.error, touch.height, -touch.speed, -touch.ground)
    arc = _arc(f, z, takeoff.frame, landing.frame, fps, poses.noise, stretch)
    notes = []
    if crouch is not None and crouch.cut:
        notes.append("the track begins in the middle of the push")
        crouch = None
    apex = Event(arc.apex_frame, _apex_error(arc, fps), arc.apex_height)
    return Phases(
        crouch=None if crouch is None else Event(crouch.frame, crouch.error, crouch.height),
        takeoff=Event(takeoff.frame, takeoff.error, float(arc.heights(takeoff.frame, fps))),
        apex=apex,
        landing=Event(landing.frame, landing.error, float(arc.heights(landing.frame, fps))),
        absorbed=None if absorbed is None or absorbed.cut else Event(-absorbed.frame, absorbed.error, absorbed.height),
        arc=arc,
        method="curve",
        step=poses.step,
        held=poses.held,
        notes=tuple(notes),
    )


def _inner(f: np.ndarray, z: np.ndarray, stretch: Stretch) -> Parabola:
    """The parabola over the stretch without its ends, which may touch the ground."""
    a, b = stretch.first, stretch.last + 1
    if b - a >= 6:
        a, b = a + 1, b - 1
    middle = float(f[(a + b) // 2])
    c2, c1, c0 = np.polyfit(f[a:b] - middle, z[a:b], 2)
    return Parabola(middle, float(c0), float(c1), float(c2))


def _contact(side: _Side, parabola: Parabola, noise: float) -> tuple[Knot | None, Bottom | None]:
    """The contact at the start of a side's flight and the bottom before it."""
    f, z, first, beat = side.frames, side.heights, side.first, side.beat
    rough = Knot(float(f[first]), beat, float(z[first]), float(parabola.speed(f[first])), 0.0)
    foot = bottom(f[: first + 1], z[: first + 1], rough, noise=noise)
    if foot is not None and not foot.cut:
        fitted = _driven(side, parabola, foot, noise)
        if fitted is not None:
            return fitted
    c = 0 if foot is None else int(np.searchsorted(f, foot.frame))
    reach = GROUND if noise <= 1e-4 else 12
    low = max(first - reach, c, 0)
    found = knot(
        f[low:], z[low:], low=f[first] - 2 * beat, high=f[first] + beat, noise=max(noise, FLOOR), air=first + 1 - low
    )
    if found is None:
        return rough, foot
    return found, bottom(f, z, found, noise=noise)


def _driven(side: _Side, parabola: Parabola, foot: Bottom, noise: float) -> tuple[Knot, Bottom] | None:
    f, z, first, beat = side.frames, side.heights, side.first, side.beat
    c = int(np.searchsorted(f, foot.frame + 1e-9))
    low = max(c - 2, 0) if foot.held else c
    high = min(first + 2, len(f))
    least = max(foot.frame - 1.5 * beat, f[0] - beat)
    ends = (max(float(f[first]) - 2.2 * beat, least + 0.2), float(f[first]) + 0.6 * beat)
    fit = drive(
        f[low:high], z[low:high], parabola, level=foot.height,
        starts=(least, min(foot.frame + 1.5 * beat, ends[1] - 0.1)), ends=ends, noise=noise,
    )
    if fit is None:
        return None
    height = float(parabola.at(fit.end))
    if fit.rms > max(1.5 * noise, 2e-3 * (height - foot.height)):
        return None
    speed = float(parabola.speed(fit.end))
    return (
        Knot(fit.end, fit.end_error, height, speed, speed),
        Bottom(fit.start, fit.start_error, foot.height, foot.held, cut=False),
    )


def _arc(
    f: np.ndarray, z: np.ndarray, takeoff: float, landing: float, fps: float, noise: float, stretch: Stretch
) -> Arc:
    a, b = int(np.searchsorted(f, takeoff)), int(np.searchsorted(f, landing, side="right"))
    if b - a < 4:
        a, b = stretch.first, stretch.last + 1
    middle = float(f[(a + b) // 2])
    s = (f[a:b] - middle) / fps
    design = np.stack((np.ones_like(s), s, s * s), axis=1)
    inverse = np.linalg.inv(design.T @ design)
    c = inverse @ (design.T @ z[a:b])
    residual = z[a:b] - design @ c
    rss = float(residual @ residual)
    spread = max(np.sqrt(rss / max(b - a - 3, 1)), noise)
    at = -c[1] / (2 * c[2])
    return Arc(
        apex_frame=float(middle + at * fps),
        apex_height=float(c[0] + c[1] * at / 2),
        gravity=float(-2 * c[2]),
        gravity_error=float(2 * spread * np.sqrt(inverse[2, 2])),
        first=float(f[a]),
        last=float(f[b - 1]),
        count=b - a,
        residual_rms=float(np.sqrt(rss / (b - a))),
    )


def _apex_error(arc: Arc, fps: float) -> float:
    """Frames: the vertex −c₁/2c₂ of a parabola whose slope in the middle is known to its residual."""
    span = (arc.last - arc.first) / fps
    slope = arc.residual_rms * np.sqrt(12 / max(arc.count, 1)) / max(span, 1e-9)
    return float(max(slope / abs(arc.gravity) * fps, 1e-3))
