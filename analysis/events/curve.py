"""Jumps read off a sampled curve: ballistic stretches and the contacts at their ends, sub-frame."""

from dataclasses import replace

import numpy as np

from ..limits import Limits
from ..phases import Arc, Event, Phases
from .ballistic import Stretch, longest
from .contact import NOISY, Contact, Side, contact
from .drive import LANDING_LEAD, LEAD, Parabola
from .poses import Poses
from .tops import Top, tops

TOP_SPEED = 0.85
"""Share of a side's top speed that the parabola must reach; a bob reaches about 0.6."""

DECISIVE = 12.0
"""Difference in χ² by which contacts must beat a smooth bob (ours; p about 0.001 for two unknowns)."""
SMOOTH_DEGREE = 6
"""Degree of the polynomial that stands for a bob: as many unknowns as a flight and its contacts."""


def jumps_on_curve(poses: Poses, fps: float, gravity: float, limits: Limits) -> list[Phases]:
    """Find every whole jump of sampled heights (see DEVELOPERS.md, "Finding the events")."""
    swing = max(limits.smallest_hop, 6 * poses.noise)
    found = []
    for top in tops(poses.heights, swing):
        stretch = _flight(poses, top, fps)
        if stretch is None:
            continue
        pace = float(np.sqrt(-2 * stretch.coefficients[2] * fps**2 / gravity))
        if not limits.slowest_pace <= pace <= limits.fastest_pace:
            continue
        phases = _phases(poses, stretch, fps, pace)
        if phases is not None and _high_enough(phases, limits) and _kinked(poses, phases, pace):
            found.append(phases)
    return found


def _high_enough(phases: Phases, limits: Limits) -> bool:
    """The rise, less what the takeoff's error allows, is no mere bob's."""
    height = phases.apex.height - phases.takeoff.height
    unsure = 3 * height / (phases.apex.frame - phases.takeoff.frame) * phases.takeoff.frame_error
    return height - min(unsure, 0.5 * height) * (phases.takeoff.frame_error > 0.2) >= limits.smallest_hop


def _kinked(poses: Poses, phases: Phases, pace: float) -> bool:
    """Whether the samples ask for contacts: under noise, a smooth bob may explain them as well.

    Two rivals with as many terms each, from bottom to bottom: a polynomial of degree 6, and a parabola
    that leaves the ground and meets it (two powers beyond either contact). The contacts must explain the
    samples better by `DECISIVE` in χ², and by more the slower the flight: slow arcs are what bobs draw.
    """
    if poses.noise <= NOISY:
        return True
    start = (phases.crouch or phases.takeoff).frame
    end = (phases.absorbed or phases.landing).frame
    a, b = np.searchsorted(poses.frames, (start, end))
    if b - a < SMOOTH_DEGREE + 4:
        return True
    scale = 2 / float(poses.frames[b - 1] - poses.frames[a])
    s = (poses.frames[a:b] - poses.frames[a]) * scale - 1
    z = poses.heights[a:b]
    takeoff, landing = ((e.frame - poses.frames[a]) * scale - 1 for e in (phases.takeoff, phases.landing))
    before, after = np.maximum(takeoff - s, 0.0), np.maximum(s - landing, 0.0)
    smooth = np.polynomial.legendre.legvander(s, SMOOTH_DEGREE)
    kinked = np.stack((np.ones_like(s), s, s * s, before**2, before**3, after**2, after**3), axis=1)
    rivals = (z - design @ np.linalg.lstsq(design, z, rcond=1e-10)[0] for design in (smooth, kinked))
    without, with_contacts = (float(residual @ residual) for residual in rivals)
    return without - with_contacts > DECISIVE * (poses.noise / min(pace, 1.0)) ** 2


def _flight(poses: Poses, top: Top, fps: float) -> Stretch | None:
    """The stretch of a flight around a top; None where the top is no flight's."""
    f, z = poses.frames, poses.heights
    beat = float(f[-1] - f[0]) / (len(f) - 1)
    lag = max(1, round(fps / beat / 30)) if poses.noise > NOISY else 1
    lag = min(lag, top.top - top.before, top.after - top.top)
    up, first = fastest(f[top.before : top.top + 1], z[top.before : top.top + 1], lag)
    down, last = fastest(f[top.top : top.after + 1], -z[top.top : top.after + 1], lag)
    stretch = longest(
        f,
        z,
        np.arange(top.before + first, top.top),
        np.arange(top.top + 1, top.top + last + lag + 1),
        noise=poses.noise,
        fewest=4,
    )
    if stretch is None:
        return None
    slack = 2 * 1.4 * poses.noise / (lag * beat)
    half = lag * beat / 2
    enough_up = stretch.speed(float(f[stretch.first]) - half) >= TOP_SPEED * up - slack
    enough_down = -stretch.speed(float(f[stretch.last]) + half) >= TOP_SPEED * down - slack
    if poses.noise <= NOISY and stretch.last - stretch.first >= 8:
        enough_up = enough_up or (enough_down and stretch.first <= top.before + first + 1)
        enough_down = enough_down or (enough_up and stretch.last >= top.top + last)
    return stretch if enough_up and enough_down else None


def fastest(frames: np.ndarray, heights: np.ndarray, lag: int) -> tuple[float, int]:
    """Find the fastest rise over `lag` samples, metres a frame, and the index it starts at."""
    speeds = (heights[lag:] - heights[:-lag]) / (frames[lag:] - frames[:-lag])
    i = int(np.argmax(speeds))
    return float(speeds[i]), i


def _phases(poses: Poses, stretch: Stretch, fps: float, pace: float) -> Phases | None:
    f, z = poses.frames, poses.heights
    takeoff, landing = _contacts(poses, stretch, fps, pace)
    if takeoff is not None and landing is not None:
        again = _between(f, stretch, takeoff.frame, -landing.frame)
        if poses.noise > NOISY or again.first > stretch.first or again.last < stretch.last:
            takeoff, landing = _contacts(poses, again, fps, pace)
    if takeoff is None or landing is None:
        return None
    arc = arc_of(f, z, takeoff.frame, -landing.frame, fps, poses.noise, stretch)
    crouch, absorbed = takeoff.bottom, landing.bottom
    cut = crouch is not None and crouch.cut
    return Phases(
        crouch=None if crouch is None or cut else Event(crouch.frame, crouch.error, crouch.height),
        takeoff=_on_arc(takeoff.frame, takeoff.error, arc, fps),
        apex=Event(arc.apex_frame, apex_error(arc, fps), arc.apex_height),
        landing=_on_arc(-landing.frame, landing.error, arc, fps),
        absorbed=(
            None if absorbed is None or absorbed.cut else Event(-absorbed.frame, absorbed.error, absorbed.height)
        ),
        arc=arc,
        method="curve",
        step=poses.step,
        held=poses.held,
        notes=("the track begins in the middle of the push",) if cut else (),
    )


def _contacts(poses: Poses, stretch: Stretch, fps: float, pace: float) -> tuple[Contact | None, Contact | None]:
    """Takeoff, and landing seen backwards; what records say in seconds runs at the flight's pace."""
    f, z = poses.frames, poses.heights
    inner = inner_parabola(f, z, stretch)
    rise = Side(f[: stretch.last], z[: stretch.last], stretch.first)
    fall = Side(-f[: stretch.first : -1], z[: stretch.first : -1], len(f) - 1 - stretch.last)
    backward = Parabola(-inner.origin, inner.c0, -inner.c1, inner.c2)
    return (
        contact(rise, inner, noise=poses.noise, lead=LEAD * fps / pace, fps=fps),
        contact(fall, backward, noise=poses.noise, lead=LANDING_LEAD * fps / pace, fps=fps),
    )


def _between(f: np.ndarray, stretch: Stretch, takeoff: float, landing: float) -> Stretch:
    """The stretch that begins and ends in the air, now that the contacts are roughly known."""
    first = int(np.searchsorted(f, takeoff, side="right"))
    last = int(np.searchsorted(f, landing)) - 1
    return stretch if last - first < 4 else replace(stretch, first=first, last=last)


def _on_arc(frame: float, error: float, arc: Arc, fps: float) -> Event:
    return Event(frame, error, float(arc.heights(frame, fps)))


def inner_parabola(f: np.ndarray, z: np.ndarray, stretch: Stretch) -> Parabola:
    """Fit the parabola over the stretch without its ends, which may touch the ground."""
    a, b = stretch.first, stretch.last + 1
    if b - a >= 6:
        a, b = a + 1, b - 1
    middle = float(f[(a + b) // 2])
    c2, c1, c0 = np.polyfit(f[a:b] - middle, z[a:b], 2)
    return Parabola(middle, float(c0), float(c1), float(c2))


def arc_of(
    f: np.ndarray, z: np.ndarray, takeoff: float, landing: float, fps: float, noise: float, stretch: Stretch
) -> Arc:
    """Fit the arc by least squares over the samples strictly in the air."""
    a, b = int(np.searchsorted(f, takeoff, side="right")), int(np.searchsorted(f, landing))
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


def apex_error(arc: Arc, fps: float) -> float:
    """Estimate, in frames, the error of the vertex −c₁/2c₂ of a parabola from the slope its residual allows."""
    span = (arc.last - arc.first) / fps
    slope = arc.residual_rms * np.sqrt(12 / max(arc.count, 1)) / max(span, 1e-9)
    return float(max(slope / abs(arc.gravity) * fps, 1e-3))
