"""Retime: where the events of a jump must go so that push and flight belong together. Frames, metres.

The law: push frames = rise frames ÷ push ratio, and under gravity g a flight takes sqrt(g_fit / g) of its
drawn time; all of it is worked in whole frames, on the step of the shot.
"""

import itertools
import math
from collections.abc import Iterator
from dataclasses import dataclass

from ..audit import Audit, audit_track
from ..errors import RetimeError
from ..jump import Jump
from ..settings import Settings
from ..time_map import TimeMap
from ..track import Track
from .forecast import Forecast, compare
from .spacing import respaced
from .timing import SNAP, Frames, anchors, exact_lengths, near_lengths
from .warp import LAYS, air_of, warp

KEEPS = ("flight", "push", "nothing")
"""What a mend may leave as it is; the other side is fitted to it."""
MOST = 16
"""Whole-frame timings near the exact one that are tried."""
STRETCH = 0.5
"""A stretch that takes up what a jump loses or gains keeps at least this share of its frames (ours)."""

PUSH = {"push-long", "push-short", "push-speed"}
AIR = {"air-floaty", "air-snappy"}
"""Findings that moving keys in time is meant to mend."""


@dataclass(frozen=True, slots=True)
class Mend:
    """What to keep of a jump, and how its keys may move.

    keep     "flight": fit the push to it; "push": fit the flight to it; "nothing": bring both to a pace
    pace     air pace to bring both to, with "nothing": 1 real time, less floaty, more snappy
    ripple   whether what follows moves along; otherwise it stays, and the settling takes up the difference
    whole    whether keys go to whole frames
    lay      which keys of the track between takeoff and landing change their values: "none"; "rounded", those
             that whole frames move out of proportion, back onto the path; "all", onto the fitted parabola

    Raises RetimeError.
    """

    keep: str = "flight"
    pace: float = 1.0
    ripple: bool = True
    whole: bool = True
    lay: str = "rounded"

    def __post_init__(self) -> None:
        if self.keep not in KEEPS:
            raise RetimeError(f"keep must be one of {', '.join(KEEPS)}, not {self.keep!r}")
        if self.lay not in LAYS:
            raise RetimeError(f"lay must be one of {', '.join(LAYS)}, not {self.lay!r}")
        if not 0.1 <= self.pace <= 10.0:
            raise RetimeError(f"the air pace must be from 0.1 to 10, not {self.pace:g}")
        if self.pace != 1.0 and self.keep != "nothing":
            raise RetimeError(f"an air pace changes flight and push: it cannot keep the {self.keep}")


def retime(track: Track, number: int, *, mend: Mend, settings: Settings = Settings()) -> Forecast:  # noqa: B008
    """Work out the time map that mends a jump of a track, and what an audit would say after it.

    number: the jump's place in the track's audit, from 0. Of the few whole-frame timings near the exact one,
    that is taken which leaves the least to find, then the one nearest to it.
    Raises RetimeError when there is no such jump, nothing to fit, or no room.
    """
    return next(forecasts(track, number, mend=mend, settings=settings))


def forecasts(track: Track, number: int, *, mend: Mend, settings: Settings) -> Iterator[Forecast]:
    """Yield what `retime` may choose from, best first: where its first choice cannot be had, take the next.

    Raises RetimeError as `retime` does, where there is nothing to yield.
    """
    before = audit_track(track, settings)
    jump = jump_of(before, number)
    old = anchors(track, jump)
    exact = exact_lengths(jump, old, keep=mend.keep, pace=mend.pace)
    others: list[Forecast] = []
    refused, clean = None, False
    for lengths in _tried(jump, old, exact) if mend.whole else [exact]:
        try:
            time_map = _map(track, before, number, old=old, lengths=lengths, mend=mend)
            after = audit_track(warp(track, time_map, air=air_of(jump, time_map, lay=mend.lay)), settings)
            spread = respaced(time_map, track.key_frames)
            forecast = compare(before, after, number, time_map=time_map, pace=mend.pace, respaced=spread)
        except RetimeError as refusal:
            refused = refused or refusal
            continue
        if any(burden(forecast, mend)):
            others.append(forecast)
            continue
        clean = True
        yield forecast
    if not others and not clean:
        raise refused or RetimeError("no timing in whole frames lies near what this asks for")
    yield from sorted(others, key=lambda forecast: burden(forecast, mend))


def _tried(jump: Jump, old: Frames, exact: Frames) -> Iterator[Frames]:
    """Lengths on the step of the shot, the nearest first, then those on ones."""
    for step in dict.fromkeys((jump.step, 1)):
        near = sorted(near_lengths(old, exact, step=step), key=lambda near: near[0])
        yield from (lengths for _, lengths in near[:MOST])


def burden(forecast: Forecast, mend: Mend) -> tuple[int, int]:
    """How many findings come that were not asked for, and how many about push and pace are left."""
    asked = AIR if mend.pace != 1.0 or mend.keep == "push" else set()
    meant = {*PUSH, *(AIR if mend.keep == "nothing" else set())} - asked
    return (
        len(set(forecast.comes) - asked),
        sum(finding.code in meant for finding in forecast.after.findings),
    )


@dataclass(frozen=True, slots=True)
class Fit:
    """What the drawn times would fit, moving no key; metres, None where the jump has no push or pace.

    height          jump height that the airtime is real for
    push_distance   crouch to takeoff that the push frames fit, under the flight as it is drawn
    both            the same under that height
    """

    height: float | None
    push_distance: float | None
    both: float | None


def fit_of(jump: Jump) -> Fit:
    """Work out the heights that a jump's times fit: h (g / g_fit), and d push frames / expected push frames."""
    tall = 1.0 / jump.air_pace**2 if jump.air_pace else None
    owed = jump.push_frames / jump.push_frames_expected if jump.push_frames_expected else None
    deep = jump.push_distance * owed if owed and jump.push_distance else None
    return Fit(tall and jump.jump_height * tall, deep, tall and deep and tall * deep)


def jump_of(audit: Audit, number: int) -> Jump:
    """The jump of this place, from 0. Raises RetimeError, which names how many there are."""
    if not 0 <= number < len(audit.jumps):
        count = len(audit.jumps)
        have = "no jump" if not count else "1 jump" if count == 1 else f"{count} jumps"
        raise RetimeError(f"{audit.name} has {have}, none of number {number + 1}")
    return audit.jumps[number]


def _map(track: Track, audit: Audit, number: int, *, old: Frames, lengths: Frames, mend: Mend) -> TimeMap:
    frames = list(old.values())
    new = list(itertools.accumulate(lengths.values(), initial=frames[0]))
    if not mend.ripple and new[-1] != frames[-1]:
        pin = _pin(track, audit, number, frames[-1], new[-1])
        frames.append(pin)
        new.append(pin)
    return TimeMap(tuple(frames), tuple(new), step=audit.jumps[number].step, whole=mend.whole)


def _pin(track: Track, audit: Audit, number: int, end: float, moved: float) -> float:
    """The first frame after the jump that can stay, the settling before it taking up the difference."""
    later = audit.jumps[number + 1 :]
    limit = later[0].crouch.frame if later and later[0].crouch else later[0].takeoff.frame if later else math.inf
    keys = track.frames if track.key_frames is None else track.key_frames
    for key in keys[keys > end]:
        if key <= limit + SNAP and key - moved >= STRETCH * (key - end):
            return float(key)
    room = "before the next jump " if later else ""
    raise RetimeError(f"there is no room {room}for what follows to stay: let it move along")
