"""Jumps read off a sampled curve: ballistic stretches and the contacts at their ends, sub-frame."""

from dataclasses import dataclass, replace

import numpy as np

from ..limits import Limits
from ..phases import Phases
from .arcs import apex_of, arc_of, arc_over, on_arc
from .ballistic import LOOSE, Stretch, longest, parabola_over
from .bobs import beats_a_bob, stands_out
from .ends import contacts
from .poses import Poses, thinned
from .sides import MOST, NOISY, Contact, Side, falling_side, rising_side
from .tops import Top, tops

TOP_SPEED = 0.85
"""Share of a side's top speed that the parabola must reach; a bob reaches about 0.6."""
VERY_LOOSE = 1.2e-2
"""Residual, as a share of its height, of a flight whose root is no centre of mass (recorded: 0.7 %)."""
REAL = (0.7, 1.4)
"""Air paces of a loose flight: it is a recorded root's, and recordings run at real time."""
SLOW = 0.75
"""Air pace under which a low flight in measured heights may be a bob (ours)."""
FALL = 0.2
"""Share of the rise that a slow flight, or one told by its feet, must fall: a body that rises to walk on does not
(ours)."""
FEWEST_MEASURED = 6
"""Air samples that tell a flight in measured heights."""
COARSE = 30.0
"""Samples a second to which loose flights are thinned out."""
SAME = 2.0
"""Frames within which two refusals are of one top."""
LONG, LONG_HELD = 8, 5
"""Samples of a stretch that is long enough to be a flight though its speed breaks at one end; of held poses."""


CUT, LOW, BOB = "cut off", "low", "bob"


@dataclass(frozen=True, slots=True)
class Refusal:
    """A flight that is not reported: the frame of its top, CUT, LOW or BOB, and, of one in real time, the jump that
    it would be if feet vouch for it."""

    frame: float
    why: str
    doubtful: Phases | None = None


@dataclass(frozen=True, slots=True)
class Flight:
    """A stretch that may be a flight, its air pace, and whether it follows its parabola only loosely."""

    stretch: Stretch
    pace: float
    loose: bool


def jumps_on_curve(
    poses: Poses, fps: float, gravity: float, limits: Limits
) -> tuple[list[Phases], list[Refusal]]:
    """Find every whole jump of sampled heights (see DEVELOPERS.md, "Finding the events").

    A point that is no centre of mass follows its parabola only loosely; what is left over is searched for
    such flights at the rate of film, where they are told from bobs best. Also returns the flights that
    were refused, and why.
    """
    found, refused, left = _search(poses, fps, gravity, limits, LOOSE)
    if left:
        loose, bobs, _ = _search(thinned(poses, fps / COARSE), fps, gravity, limits, VERY_LOOSE)
        found += [phases for phases in loose if not any(overlap(phases, other) for other in found)]
        seen = [refusal.frame for refusal in refused]
        refused += [other for other in bobs if other.doubtful and not any(abs(other.frame - f) < SAME for f in seen)]
    return found, refused


def _search(
    poses: Poses, fps: float, gravity: float, limits: Limits, loose: float
) -> tuple[list[Phases], list[Refusal], bool]:
    """The jumps whose arcs are followed to `loose`, those refused, and whether other tops are left."""
    all_tops = tops(poses.heights, max(limits.smallest_hop, 6 * poses.noise))
    flights, refused = [], []
    for top in all_tops:
        stretch, fast = _stretch(poses, top, fps, loose)
        if stretch is None:
            continue
        pace = float(np.sqrt(-2 * stretch.parabola.c2 * fps**2 / gravity))
        if not limits.slowest_pace <= pace <= limits.fastest_pace:
            continue
        if fast:
            flights.append(Flight(stretch, pace, loose > LOOSE))
        else:
            refused.append(Refusal(stretch.parabola.vertex, BOB))
    found = []
    for flight, phases in zip(flights, _phases(poses, flights, fps), strict=True):
        why = CUT if phases is None else _refused(poses, flight, phases, limits)
        if why is None:
            found.append(phases)
        else:
            real = why != CUT and REAL[0] <= flight.pace <= REAL[1]
            refused.append(Refusal(flight.stretch.parabola.vertex, why, phases if real else None))
    return found, refused, len(found) < len(all_tops)


def overlap(a: Phases, b: Phases) -> bool:
    """Tell whether two flights share a time."""
    return a.takeoff.frame < b.landing.frame and b.takeoff.frame < a.landing.frame


def _refused(poses: Poses, flight: Flight, phases: Phases, limits: Limits) -> str | None:
    """Why a flight is not reported as a jump; None when it is one."""
    if not _high_enough(poses, phases, limits):
        return LOW
    if not _placed(flight, phases, poses.beat, limits):
        return BOB
    rise, fall = _heights(phases)
    if flight.pace < REAL[0] and fall < FALL * rise:
        return BOB
    if flight.loose:
        return None if REAL[0] <= flight.pace <= REAL[1] and stands_out(poses, phases) else BOB
    if poses.noise <= NOISY:
        return None
    if flight.pace < SLOW and min(_heights(phases)) < 2 * limits.smallest_hop:
        return BOB  # low and slow, under noise
    grounded = phases.crouch is not None or phases.absorbed is not None or bool(phases.notes)
    told = grounded and phases.arc.count >= FEWEST_MEASURED and beats_a_bob(poses, phases, flight.pace)
    return None if told else BOB


def _heights(phases: Phases) -> tuple[float, float]:
    """Rise and fall, metres."""
    return phases.apex.height - phases.takeoff.height, phases.apex.height - phases.landing.height


def _placed(flight: Flight, phases: Phases, beat: float, limits: Limits) -> bool:
    """Whether both contacts could be placed; a high jump, or one in real time, is one though one is lost."""
    lost = max(phases.takeoff.frame_error, phases.landing.frame_error) >= MOST * beat
    high = phases.apex.height - phases.takeoff.height >= 4 * limits.smallest_hop
    return not lost or high or REAL[0] <= flight.pace <= REAL[1]


def _high_enough(poses: Poses, phases: Phases, limits: Limits) -> bool:
    """Whether the rise, less what noise may have added to it by a misplaced takeoff, is no mere bob's."""
    height = phases.apex.height - phases.takeoff.height
    speed = 2 * height / (phases.apex.frame - phases.takeoff.frame)
    unsure = 1.5 * speed * phases.takeoff.frame_error if poses.noise > NOISY else 0.0
    return height - min(unsure, 0.5 * height) >= limits.smallest_hop


def _stretch(poses: Poses, top: Top, fps: float, loose: float) -> tuple[Stretch | None, bool]:
    """The stretch of a parabola around a top, if any, and whether the point is as fast at its ends as a flight's."""
    f, z, beat = poses.frames, poses.heights, poses.beat
    lag = max(1, round(fps / beat / 30)) if poses.noise > NOISY else 1
    lag = min(lag, top.top - top.before, top.after - top.top)
    up, first = fastest(f[top.before : top.top + 1], z[top.before : top.top + 1], lag)
    down, last = fastest(f[top.top : top.after + 1], -z[top.top : top.after + 1], lag)
    starts, ends = np.arange(top.before + first, top.top), np.arange(top.top + 1, top.top + last + lag + 1)
    stretch = longest(f, z, starts, ends, noise=poses.noise, fewest=4, loose=loose)
    if stretch is None:
        return None, False
    slack = 2 * 1.4 * poses.noise / (lag * beat)
    half = lag * beat / 2
    enough_up = stretch.parabola.speed(float(f[stretch.first]) - half) >= TOP_SPEED * up - slack
    enough_down = -stretch.parabola.speed(float(f[stretch.last]) + half) >= TOP_SPEED * down - slack
    long = LONG_HELD if poses.held else LONG
    if poses.noise <= NOISY and loose <= LOOSE and stretch.last - stretch.first >= long:
        enough_up = enough_up or (enough_down and stretch.first <= top.before + first + 1)
        enough_down = enough_down or (enough_up and stretch.last >= top.top + last)
    return stretch, enough_up and enough_down


def fastest(frames: np.ndarray, heights: np.ndarray, lag: int) -> tuple[float, int]:
    """Find the fastest rise over `lag` samples, metres a frame, and the index it starts at."""
    speeds = (heights[lag:] - heights[:-lag]) / (frames[lag:] - frames[:-lag])
    i = int(np.argmax(speeds))
    return float(speeds[i]), i


def _phases(poses: Poses, flights: list[Flight], fps: float) -> list[Phases | None]:
    """The phases of each flight; None where a contact is not on the track."""
    found = _contacts(poses, flights, fps)
    again = [
        i
        for i, (flight, pair) in enumerate(zip(flights, found, strict=True))
        if None not in pair and (poses.noise > NOISY or _touches(poses, flight.stretch, *pair))
    ]
    closer = [_between(poses, flights[i], *found[i]) for i in again]
    for i, pair in zip(again, _contacts(poses, closer, fps), strict=True):
        found[i] = pair
    return [
        None if None in pair else _made(poses, flight.stretch, *pair, fps)
        for flight, pair in zip(flights, found, strict=True)
    ]


def _contacts(poses: Poses, flights: list[Flight], fps: float) -> list[tuple[Contact | None, Contact | None]]:
    """Takeoff and landing (seen backwards) of each flight."""
    f, z = poses.frames, poses.heights
    sides: list[Side] = []
    for flight in flights:
        first, last = flight.stretch.first, flight.stretch.last
        a, b = (first + 1, last) if last - first >= 5 and not _exact(flight.stretch) else (first, last + 1)
        parabola = parabola_over(f[a:b], z[a:b])
        second = fps / flight.pace
        sides += [side(f, z, flight.stretch, parabola, second) for side in (rising_side, falling_side)]
    found = contacts(sides, noise=poses.noise, fps=fps)
    return list(zip(found[::2], found[1::2], strict=True))


def _exact(stretch: Stretch) -> bool:
    """Whether none of the stretch's samples can touch the ground."""
    return stretch.rms < 1e-6


def _touches(poses: Poses, stretch: Stretch, takeoff: Contact, landing: Contact) -> bool:
    """Whether a sample taken for air lies on the ground's side of a contact."""
    f = poses.frames
    return not _exact(stretch) and bool(f[stretch.first] < takeoff.frame or f[stretch.last] > -landing.frame)


def _between(poses: Poses, flight: Flight, takeoff: Contact, landing: Contact) -> Flight:
    """The flight that begins and ends in the air, now that the contacts are roughly known."""
    first = int(np.searchsorted(poses.frames, takeoff.frame, side="right"))
    last = int(np.searchsorted(poses.frames, -landing.frame)) - 1
    return flight if last - first < 4 else replace(flight, stretch=replace(flight.stretch, first=first, last=last))


def _made(poses: Poses, stretch: Stretch, takeoff: Contact, landing: Contact, fps: float) -> Phases:
    arc = arc_of(poses.frames, poses.heights, takeoff.frame, -landing.frame, fps, poses.noise, stretch)
    if not takeoff.frame < arc.apex_frame < -landing.frame:
        # A stray sample next to a contact turns the parabola over: the stretch left it out.
        arc = arc_over(poses.frames, poses.heights, stretch.first, stretch.last + 1, fps, poses.noise)
    crouch, absorbed = takeoff.bottom, landing.bottom
    cut = crouch is not None and crouch.cut
    return Phases(
        crouch=None if crouch is None or cut else crouch.event,
        takeoff=on_arc(takeoff.frame, takeoff.error, arc, fps),
        apex=apex_of(arc, fps),
        landing=on_arc(-landing.frame, landing.error, arc, fps),
        absorbed=None if absorbed is None or absorbed.cut else absorbed.backwards.event,
        arc=arc,
        method="curve",
        step=poses.step,
        held=poses.held,
        notes=("the track begins in the middle of the push",) if cut else (),
    )
