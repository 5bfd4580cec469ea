"""Timing: the whole-frame answers near an exact one, on the poses' own beat, and what each leaves over."""

import math
from typing import NamedTuple

from .jump import Jump

NEIGHBORS = 2
"""Steps to either side of the exact answer that are tried."""


class Flight(NamedTuple):
    """Whole-frame keys of a flight, its airtime in frames, and the frames it is over the exact one."""

    takeoff: int
    apex: int
    landing: int
    airtime: int
    over: float


def on_beat(jump: Jump, frame: float) -> int:
    """The frame of the shot's poses nearest to a frame: whole, and on the step counted from its poses."""
    start = jump.arc.first if jump.held and jump.arc is not None else round(jump.takeoff.frame)
    return round(start + jump.step * round((frame - start) / jump.step))


def near(jump: Jump, frame: float) -> list[int]:
    """The few frames on the shot's beat around an exact frame."""
    middle = on_beat(jump, frame)
    return [middle + n * jump.step for n in range(-NEIGHBORS, NEIGHBORS + 1)]


def best_crouch(jump: Jump, *, now: float, push: float) -> tuple[int, int]:
    """The crouch key of a push of `now` frames, and the one whose push is nearest in ratio to the frames asked for."""
    takeoff = jump.takeoff.frame
    frames = [frame for frame in near(jump, takeoff - push) if frame < takeoff]
    best = min(frames, key=lambda frame: abs(math.log((takeoff - frame) / push)))
    return on_beat(jump, takeoff - now), best


def best_flight(jump: Jump, *, airtime: float) -> Flight:
    """The flight in whole frames nearest to an airtime, its apex where the two heights put it.

    Of the few keys around the exact ones, the landing is taken that comes nearest in airtime, then the
    apex that comes nearest to its own place in it.
    """
    takeoff = on_beat(jump, jump.takeoff.frame)
    landings = [frame for frame in near(jump, takeoff + airtime) if frame > takeoff + 1]
    landing = min(landings, key=lambda frame: abs(math.log((frame - takeoff) / airtime)))
    apexes = near(jump, takeoff + own_rise(jump) * (landing - takeoff))
    apex = min(apexes, key=lambda frame: abs(frame - takeoff - own_rise(jump) * (landing - takeoff)))
    return Flight(takeoff, apex, landing, landing - takeoff, landing - takeoff - airtime)


def flight_mend(jump: Jump, *, ratio: float, agrees: bool) -> tuple[str, dict[str, object]]:
    """What to do about a flight that runs slow or fast: its real frames, or the height its frames need.

    ratio: its gravity over the world's; agrees: the push goes with it.
    """
    flight = best_flight(jump, airtime=jump.flight.expected)
    needed = jump.flight.height.value / ratio
    values = {
        "apex": flight.apex, "landing": flight.landing, "frames": flight.airtime,
        "left": left_over(flight.over), "needed": needed,
    }  # fmt: skip
    text = (
        "Put the apex at {apex} and the landing at {landing}, {frames} frames in the air ({left}); "
        "or keep the frames and let it rise {needed:.2f} m"
    )
    if agrees and jump.push:
        push = jump.push.expected.value * flight.airtime / jump.flight.airtime.value
        values["push"] = max(jump.step, jump.step * round(push / jump.step))
        text = (
            "Nothing, if the style is meant: the push goes with it. For real time, {frames} frames in the "
            "air ({left}) and {push} for the push"
        )
    return text, values


def own_rise(jump: Jump) -> float:
    """Share of the airtime that a parabola between the same ends spends rising."""
    up, down = math.sqrt(jump.flight.height.value), math.sqrt(jump.flight.drop.value)
    return up / (up + down) if up + down else 0.5


def left_over(frames: float) -> str:
    """What a whole-frame answer leaves: "exact", or the frames it is over or short.

    >>> left_over(-0.31), left_over(0.02)
    ('0.3 frames short', 'exact')
    """
    if not round(frames, 1):
        return "exact"
    return f"{counted(abs(frames))} {'over' if frames > 0.0 else 'short'}"


def counted(frames: float) -> str:
    """Frames to one decimal, with their word.

    >>> counted(1.0), counted(6.25)
    ('1 frame', '6.2 frames')
    """
    rounded = round(frames, 1)
    return f"{rounded:g} frame{'' if rounded == 1.0 else 's'}"
