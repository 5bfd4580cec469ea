"""Jumps read off keyed poses: where few poses tell the jump, the poses are the events.

Between the lowest pose and the highest one an animator who blocks keys the takeoff, and perhaps a
breakdown; then no curve knows better than the keys where the events lie.
"""

from dataclasses import dataclass

import numpy as np

from ..limits import Limits
from ..phases import Event, Phases
from .tops import Top, tops

ROUNDING = 1 / 12**0.5
"""Standard deviation, in steps, of a time rounded to whole steps: uniform over one of them."""
FEW = 2
"""Poses between crouch and apex up to which the poses are the events."""
SAME = 0.03
"""Share of the swing within which two poses are at one height: a moving hold."""
ABOVE = 0.25
"""Share of the jump's height by which an apex must top the poses at rest around it."""


@dataclass(frozen=True, slots=True)
class _Side:
    """One side of a top in poses: the bottom, and the poses strictly between bottom and top."""

    bottom: int
    between: tuple[int, ...]


def jumps_in_poses(
    frames: np.ndarray, heights: np.ndarray, fps: float, gravity: float, limits: Limits, *, step: int, held: bool
) -> list[Phases]:
    """Find the jumps whose few poses are the events.

    frames, heights: (k,) keyed frames and the heights there, metres; step: frames a pose is rounded to.
    """
    found = []
    for top in tops(heights, limits.smallest_hop):
        before, after = _sides(heights, top)
        if not 1 <= len(before.between) <= FEW:
            continue
        if len(after.between) > FEW + 1:
            continue
        phases = _phases(frames, heights, top.top, before, after, step, held)
        if _is_jump(frames, heights, phases, top, fps, gravity, limits):
            found.append(phases)
    return found


def _sides(z: np.ndarray, top: Top) -> tuple[_Side, _Side]:
    """The crouch is the last pose at the bottom, the absorb the first one."""
    near = SAME * (z[top.top] - z[top.before])
    start = top.top - 1
    lowest = z[top.before : top.top].min()
    while start > top.before and z[start] > lowest + near:
        start -= 1
    near = SAME * (z[top.top] - z[top.after])
    end = top.top + 1
    lowest = z[top.top + 1 : top.after + 1].min()
    while end < top.after and z[end] > lowest + near:
        end += 1
    level = SAME * (z[top.top] - max(z[start], z[end]))
    rising = tuple(i for i in range(start + 1, top.top) if z[i] < z[top.top] - level)
    falling = tuple(i for i in range(top.top + 1, end) if z[i] < z[top.top] - level)
    return _Side(start, rising), _Side(end, falling)


def _phases(f: np.ndarray, z: np.ndarray, top: int, before: _Side, after: _Side, step: int, held: bool) -> Phases:
    takeoff, landing = _contacts(f, z, top, before, after)
    absorbed = after.bottom if landing != after.bottom else None
    error = ROUNDING * step

    def event(index: int) -> Event:
        return Event(float(f[index]), error, float(z[index]))

    return Phases(
        crouch=event(before.bottom),
        takeoff=event(takeoff),
        apex=event(top),
        landing=event(landing),
        absorbed=None if absorbed is None else event(absorbed),
        arc=None,
        method="keys",
        step=step,
        held=held,
    )


def _contacts(f: np.ndarray, z: np.ndarray, top: int, before: _Side, after: _Side) -> tuple[int, int]:
    """Takeoff and landing: where there is a choice, the pair whose rise and fall ask for one gravity."""
    landings = after.between or (after.bottom,)
    pairs = [(a, b) for a in before.between for b in landings]
    off = [abs(np.log(_gravity(f, z, a, top) / _gravity(f, z, b, top))) for a, b in pairs]
    # Every pose on the arc asks for its gravity: of the pairs that agree within rounding, the outermost one is the
    # ground's.
    doubt = [2 * ROUNDING * np.hypot(1 / (f[top] - f[a]), 1 / (f[b] - f[top])) for a, b in pairs]
    agree = [pair for pair, o, e in zip(pairs, off, doubt, strict=True) if o <= min(off) + e]
    return max(agree, key=lambda pair: f[pair[1]] - f[pair[0]])


def _gravity(f: np.ndarray, z: np.ndarray, contact: int, top: int) -> float:
    return max(2 * (z[top] - z[contact]), 1e-6) / (f[top] - f[contact]) ** 2


def _is_jump(
    f: np.ndarray, z: np.ndarray, phases: Phases, top: Top, fps: float, gravity: float, limits: Limits
) -> bool:
    height = phases.apex.height - phases.takeoff.height
    if height < limits.smallest_hop:
        return False
    airtime = phases.landing.frame - phases.takeoff.frame
    drop = phases.apex.height - phases.landing.height
    real = (np.sqrt(2 * height / gravity) + np.sqrt(2 * max(drop, 0.0) / gravity)) * fps
    if not limits.slowest_pace <= real / max(airtime - 1, 0.5) or real / (airtime + 1) > limits.fastest_pace:
        return False
    return all(phases.apex.height >= rest + ABOVE * height for rest in _rests(z, phases, top, f))


def _rests(z: np.ndarray, phases: Phases, top: Top, f: np.ndarray) -> list[float]:
    """Heights at rest next to the jump: the track's ends and poses held for another."""
    first = int(np.searchsorted(f, phases.crouch.frame if phases.crouch else phases.takeoff.frame))
    last = int(np.searchsorted(f, (phases.absorbed or phases.landing).frame))
    rests = []
    same = np.abs(np.diff(z)) <= 1e-4
    before, after = same[: max(first - 1, 0)], same[last + 1 :]
    if top.before <= first and first > 0:
        held = np.flatnonzero(before)
        rests.append(float(z[held[-1]] if len(held) else z[0]))
    if last < len(z) - 1:
        held = np.flatnonzero(after)
        rests.append(float(z[last + 1 + held[0]] if len(held) else z[-1]))
    return rests
