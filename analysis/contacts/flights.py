"""Ballistic flights around the tops of a sampled curve, and the contacts at their ends, sub-frame."""

import math
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from ..arrays import Array
from ..samples.poses import Keyed, Poses, thinned
from ..samples.turns import Turn
from .ballistic import LOOSE, PARABOLA_RESIDUAL, Stretch, Windows, parabola_over, windows
from .by_drive import contacts
from .side import NOISY, Contact, Side, falling_side, rising_side

WORTH = 0.7
"""Share of a side's top speed that a parabola must reach for its contacts to be worth looking for; a bob reaches 0.6.
"""
VERY_LOOSE = 1.2e-2
"""Largest residual, as a share of its height, of a flight whose root is no center of mass (recorded: 0.7 %)."""
LOOSE_FLIGHT_RATE = 30.0
"""Samples a second to which loose flights are thinned out: half as many lose recorded hops
(`tests/truth/test_hops.py`), and twice as many tell them no better from bobs, and take longer."""
FEWEST_STRETCH_SAMPLES = 4
"""Fewest samples of a stretch: any three lie on a parabola."""


@dataclass(frozen=True, slots=True, eq=False)
class FlightStretch:
    """A stretch that one parabola follows around a top.

    stretch           the samples that follow it, of `poses`
    poses             the samples it was found on: the track's, thinned ones where it is loose, or its keys
    reach             least share of either side's top speed that the parabola has at its ends; a flight has 1
    loose             it is followed loosely only, as by a root that is no center of mass
    takeoff, landing  contacts (the landing's time reversed); None where the track ends in the air, or not worth it
    """

    stretch: Stretch
    poses: Poses
    reach: float
    loose: bool
    takeoff: Contact | None = None
    landing: Contact | None = None

    @property
    def is_drawn(self) -> bool:
        """Whether the curve was drawn as its parabola: more samples follow it closely than any one goes through."""
        stretch, f = self.stretch, self.poses.frames
        height = -stretch.parabola.c2 * (float(f[stretch.last] - f[stretch.first]) / 2) ** 2
        return stretch.last - stretch.first >= 4 and stretch.rms <= PARABOLA_RESIDUAL * height

    def pace(self, gravity: float, fps: float) -> float:
        """Return the air pace against this gravity, m/s²."""
        return float(np.sqrt(-2 * self.stretch.parabola.c2 * fps**2 / gravity))


def flights_at(
    poses: Poses, turns: list[Turn], gravity: float, fps: float, *, keyed: Keyed | None = None
) -> list[FlightStretch | None]:
    """Find the flight at each top; None where no downward parabola is followed at all.

    gravity: m/s²; keyed: the keys of a curve that the host drew through them, which knows no more than they do.
    """
    if not turns:
        return []
    coarse = thinned(poses, fps / LOOSE_FLIGHT_RATE) if keyed is None else keyed.by_hand
    found = [_flight_at(turn, poses, coarse, keyed) for turn in turns]
    for sheet in {id(one.poses): one.poses for one in found if one is not None}.values():
        _touch(found, sheet, gravity, fps)
    return found


def _flight_at(turn: Turn, poses: Poses, coarse: Poses, keyed: Keyed | None) -> FlightStretch | None:
    """Return the flight at a top: one that is followed closely, or where none reaches far, loosely.

    coarse: the poses on which it may be followed loosely. Of a keyed curve the keys are asked, which are off as by a
    hand, but where it was drawn as its parabola, between them or on them.
    """
    there = _Top(poses.frames, poses.heights, turn)
    flight = _flight(there, poses, LOOSE) if keyed is None or there.may_be_drawn else None
    if keyed is None:
        top = there if coarse is poses else _top_on(coarse, poses, turn)
    elif _is_sure(flight):
        return flight
    else:
        top = _top_on(coarse, poses, turn)
        exact = _flight(top, keyed.exact, LOOSE)
        flight = exact if _is_sure(exact) else _flight(top, coarse, LOOSE)
    if flight is not None and flight.reach >= WORTH:
        return flight
    loose = _flight(top, coarse, VERY_LOOSE)
    return loose if loose is not None and loose.reach >= WORTH else flight


def _is_sure(flight: FlightStretch | None) -> bool:
    """Tell whether a flight was drawn as its parabola, up to where the point is fastest."""
    return flight is not None and flight.reach >= WORTH and flight.is_drawn


@dataclass(frozen=True, eq=False)
class _Top:
    """A top of samples; what lies around it is worked out once, however many flights are looked for there.

    frames, heights   (n,) frames and meters; turn: indices of them
    """

    frames: Array
    heights: Array
    turn: Turn

    @property
    def may_be_drawn(self) -> bool:
        """Whether a stretch around it may be drawn as a parabola, told without looking for the longest.

        Its samples then lie within √n PARABOLA_RESIDUAL of its height of one. It holds the top, a sample to either
        side, and one beyond them; there a third difference, of which a parabola has none, is eight times that at most.
        """
        top, around = self.turn.top, slice(self.turn.before, self.turn.after + 1)
        near = slice(max(top - 2, 0), top + 3)
        f, z = self.frames[near].tolist(), self.heights[near].tolist()
        if len(z) < 5 or f[4] - f[3] != f[1] - f[0] or f[4] - f[0] != 4.0 * (f[1] - f[0]):
            return True
        thirds = abs(z[3] - z[0] + 3.0 * (z[1] - z[2])), abs(z[4] - z[1] + 3.0 * (z[2] - z[3]))
        here = self.heights[around].tolist()
        count, height = around.stop - around.start, max(here) - min(here)
        return min(thirds) <= 10.0 * math.sqrt(count) * PARABOLA_RESIDUAL * height

    @cached_property
    def around(self) -> tuple[float, float, Windows] | None:
        """The fastest rise and fall beside it, meters a frame, and the parabolas in between.

        None where too few samples lie from one to the other.
        """
        f, z, top = self.frames, self.heights, self.turn
        up, first = fastest(f[top.before : top.top + 1], z[top.before : top.top + 1])
        down, last = fastest(f[top.top : top.after + 1], -z[top.top : top.after + 1])
        start, end = top.before + first, top.top + last + 1
        if end - start + 1 < FEWEST_STRETCH_SAMPLES:
            return None
        return up, down, windows(f, z, np.arange(start, top.top), np.arange(top.top + 1, end + 1))


def _top_on(sheet: Poses, poses: Poses, turn: Turn) -> _Top | None:
    """Find a top of `poses` on other samples of the same curve; None where too few lie around it."""
    f, z = poses.frames, sheet.heights
    before = int(sheet.frames.searchsorted(f[turn.before]))
    after = min(int(sheet.frames.searchsorted(f[turn.after])), len(z) - 1)
    if after - before < 4:
        return None
    top = before + int(z[before : after + 1].argmax())
    return _Top(sheet.frames, z, Turn(before, top, after)) if before < top < after else None


def _touch(found: list[FlightStretch | None], poses: Poses, gravity: float, fps: float) -> None:
    """Look for the contacts of all flights on these poses that are worth it, together."""
    worth = {i: one for i, one in enumerate(found) if one and one.poses is poses and one.reach >= WORTH}
    for i, pair in zip(worth, _contacts(list(worth.values()), gravity, fps), strict=True):
        worth[i] = replace(worth[i], takeoff=pair[0], landing=pair[1])
    closer = {i: near for i, one in worth.items() if (near := _between(one)) is not None}
    for i, pair in zip(closer, _contacts(list(closer.values()), gravity, fps), strict=True):
        worth[i] = replace(worth[i], takeoff=pair[0], landing=pair[1])
    for i, one in worth.items():
        found[i] = one


def _flight(there: _Top | None, poses: Poses, loose: float) -> FlightStretch | None:
    """Return the longest parabola around a top, and how much of the speed beside it it reaches."""
    if there is None or there.around is None:
        return None
    f, beat = poses.frames, poses.beat
    up, down, parabolas = there.around
    if up <= 0.0 or down <= 0.0:  # of keys alone a side may hold the height of the top
        return None
    stretch = parabolas.longest(noise=poses.noise, fewest=FEWEST_STRETCH_SAMPLES, loose=loose)
    if stretch is None:
        return None
    slack = 2 * 1.4 * poses.noise / beat
    rising = (stretch.parabola.speed(float(f[stretch.first]) - beat / 2) + slack) / up
    falling = (-stretch.parabola.speed(float(f[stretch.last]) + beat / 2) + slack) / down
    return FlightStretch(stretch, poses, float(min(rising, falling)), loose > LOOSE)


def fastest(frames: Array, heights: Array, lag: int = 1) -> tuple[float, int]:
    """Find the fastest rise over `lag` samples, meters a frame, and the index it starts at."""
    speeds = (heights[lag:] - heights[:-lag]) / (frames[lag:] - frames[:-lag])
    i = int(speeds.argmax())
    return float(speeds[i]), i


def _contacts(flights: list[FlightStretch], gravity: float, fps: float) -> list[tuple[Contact | None, Contact | None]]:
    """Return takeoff and landing (seen backward) of each flight; all lie on the same poses."""
    if not flights:
        return []
    poses = flights[0].poses
    f, z, measured = poses.frames, poses.heights, poses.noise > NOISY and not poses.by_hand
    sides: list[Side] = []
    for flight in flights:
        first, last = flight.stretch.first, flight.stretch.last
        a, b = (first + 1, last) if last - first >= 5 else (first, last + 1)
        parabola, *_ = parabola_over(f[a:b], z[a:b])
        parabola = parabola if parabola.c2 < 0.0 else flight.stretch.parabola
        second = fps / flight.pace(gravity, fps)
        sides.append(rising_side(f, z, flight.stretch, parabola, second, measured=measured))
        sides.append(falling_side(f, z, flight.stretch, parabola, second, measured=measured))
    found = contacts(sides, noise=poses.noise, fps=fps)
    return list(zip(found[::2], found[1::2], strict=True))


def _between(flight: FlightStretch) -> FlightStretch | None:
    """Return the flight that begins and ends in the air, now that the contacts are roughly known; None where it does
    already.

    Under noise, or where a sample taken for air lies on the ground's side of a contact, it is looked at again.
    """
    if flight.takeoff is None or flight.landing is None:
        return None
    f, stretch = flight.poses.frames, flight.stretch
    touches = f[stretch.first] < flight.takeoff.frame or f[stretch.last] > -flight.landing.frame
    if flight.poses.noise <= NOISY and not touches:
        return None
    first = int(f.searchsorted(flight.takeoff.frame, side="right"))
    last = int(f.searchsorted(-flight.landing.frame)) - 1
    return flight if last - first < 4 else replace(flight, stretch=replace(stretch, first=first, last=last))
