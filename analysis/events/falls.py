"""Falls: a flight that no push began, off a ledge or let go, found on the way down."""

from dataclasses import replace

import numpy as np

from ..arrays import Array
from ..beat import ROUNDING
from ..contacts.arcs import apex_of, arc_over, on_arc
from ..contacts.ballistic import Stretch, longest, parabola_over
from ..contacts.bottom import BEAT, HOLD_DRIFT_SHARE
from ..contacts.by_drive import contacts
from ..contacts.flights import FEWEST_STRETCH_SAMPLES, fastest
from ..contacts.side import MOST_CONTACT_ERROR, NOISY, falling_side
from ..limits import Limits
from ..phases import Phases
from ..samples.poses import Poses
from ..samples.turns import Descent, descents
from ..track import Track

FROM_REST = 0.15
"""Share of the fastest descent: a fall begins no faster, and ends no further from it; a bob ends at about 0.6 of it
(ours)."""
SIDEWAYS = 0.25
"""Horizontal acceleration, as a share of the vertical one, past which the ground still carries the point."""
SLOWEST_FALL_PACE, FREE_FALL_PACE = 0.5, 0.92
"""Air pace under which a descent from rest is a lift's or a squat's, and from which it is surely a fall; between them
height alone cannot tell a slide from a slow fall (ours). Asked of the pace less two of its errors."""
LEAST_ABSORB = 1.5
"""Least drop ÷ absorb distance of a fall; a squat takes as long to slow down as to speed up."""


def falls_on_curve(track: Track, poses: Poses, gravity: float, limits: Limits, taken: list[Phases]) -> list[Phases]:
    """Find the falls that are no part of the jumps already `taken`."""
    found, z = [], poses.heights
    for descent in descents(z, max(3 * limits.smallest_hop, 12 * poses.noise)):
        top, bottom = float(z[descent.top]), float(z[descent.bottom])
        low, high = float(poses.frames[descent.top]), float(poses.frames[descent.bottom])
        if any([jump.landing.frame > low and jump.takeoff.frame < high for jump in taken]):
            continue
        # A point that rises so far later has crouched: `_phases` asks that it stays in the lower half of its fall.
        if float(z[descent.bottom :].max()) > top + 0.5 * (top - bottom):
            continue
        phases = _fall(track, poses, descent, gravity, limits)
        if phases is not None:
            found.append(phases)
    return found


def _fall(track: Track, poses: Poses, descent: Descent, gravity: float, limits: Limits) -> Phases | None:
    f, z, fps = poses.frames, poses.heights, track.fps
    lag = 1 if poses.noise <= NOISY else min(3, descent.bottom - descent.top)
    top_speed, at = fastest(f[descent.top : descent.bottom + 1], -z[descent.top : descent.bottom + 1], lag)
    last = descent.top + at + lag
    if last - descent.top < 5:
        return None
    stretch = longest(
        f,
        z,
        np.arange(_left(z, descent.top, last), last - 3),
        np.arange(max(last - 2, descent.top + 4), last + 1),
        noise=poses.noise,
        fewest=5,
    )
    if stretch is None or not _from_rest(poses, stretch, top_speed, fps):
        return None
    pace = float(np.sqrt(-2 * stretch.parabola.c2 * fps**2 / gravity))
    if not SLOWEST_FALL_PACE <= pace <= limits.fastest_pace or _carried(track, stretch, f):
        return None
    return _phases(poses, stretch, fps, pace)


def _left(z: Array, top: int, last: int) -> int:
    """Return an index shortly before the point leaves its ledge, however long it stood there: few can be tried."""
    level = z[top : last - 3] >= z[top : last + 1].max() - HOLD_DRIFT_SHARE * float(z[top] - z[last])
    return max(top, top + int(np.flatnonzero(level)[-1]) - FEWEST_STRETCH_SAMPLES) if level.any() else top


def _from_rest(poses: Poses, stretch: Stretch, top_speed: float, fps: float) -> bool:
    """Tell whether the parabola starts level with a ledge and ends at the fastest descent."""
    f, z = poses.frames, poses.heights
    start, end = float(f[stretch.first]), float(f[stretch.last])
    ledge = stretch.first - 3 * max(1, round(BEAT * fps / poses.beat))
    if ledge < 0:
        return False
    thrown = abs(float(z[stretch.first]) - stretch.parabola.height(2 * stretch.parabola.vertex - float(f[ledge])))
    level = abs(float(z[stretch.first] - z[ledge])) <= max(0.25 * thrown, 4 * poses.noise)
    slow, fast = -stretch.parabola.speed(start), -stretch.parabola.speed(end)
    return level and slow <= FROM_REST * top_speed and fast >= (1.0 - FROM_REST) * top_speed


def _carried(track: Track, stretch: Stretch, f: Array) -> bool:
    """Tell whether the point speeds up sideways too, as on a slope."""
    inside = (track.frames >= f[stretch.first]) & (track.frames <= f[stretch.last])
    s = track.frames[inside] - track.frames[inside][0]
    if len(s) < 4:
        return False
    bend = np.polyfit(s, track.positions[inside, :2], 2)[0]
    return float(np.hypot(*bend)) > SIDEWAYS * abs(stretch.parabola.c2)


def _phases(poses: Poses, stretch: Stretch, fps: float, pace: float) -> Phases | None:
    f, z = poses.frames, poses.heights
    inside = slice(stretch.first + 1, stretch.last)
    inner, *_ = parabola_over(f[inside], z[inside])
    side = falling_side(f, z, stretch, inner if inner.c2 < 0.0 else stretch.parabola, fps / pace)
    landing = contacts([side], noise=poses.noise, fps=fps)[0]
    if landing is None or landing.error >= MOST_CONTACT_ERROR * side.beat:
        return None
    arc = arc_over(f[stretch.first : stretch.last + 1], z[stretch.first : stretch.last + 1], fps, poses.noise)
    touch = on_arc(-landing.frame, landing.error, arc, fps)
    bottom = landing.bottom
    absorbed = None if bottom is None or bottom.cut else bottom.backward.event
    drop = arc.apex_height - touch.height
    lost = absorbed is None or absorbed.frame_error >= MOST_CONTACT_ERROR * side.beat
    if poses.noise > NOISY and lost:
        return None
    if absorbed is not None and drop < LEAST_ABSORB * (touch.height - absorbed.height):
        return None
    if float(z[stretch.last :].max()) > arc.apex_height - 0.5 * drop:
        return None
    apex = apex_of(arc, fps)
    start = replace(apex, frame_error=max(apex.frame_error, ROUNDING * poses.beat))
    slowest = pace * (1.0 - arc.gravity_error / arc.gravity)  # by two errors: the pace goes as the root of gravity
    return Phases(
        None, start, start, touch, absorbed, arc, "curve",
        step=poses.step, held=poses.held,
        certainty=float(np.interp(slowest, (SLOWEST_FALL_PACE, FREE_FALL_PACE), (0.0, 1.0))),
    )  # fmt: skip
