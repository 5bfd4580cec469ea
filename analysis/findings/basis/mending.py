"""The whole-frame answers near an exact one, on the poses' own beat, and what each leaves over."""

import math
from typing import NamedTuple

from ...beat import left_over
from ...jump import Jump
from ...law import rise_in
from ...limits import Limits
from ...measures.push import Push
from .body import sinks


class FlightKeys(NamedTuple):
    """Whole-frame keys of a flight, its airtime in frames, and the frames it is over the exact one."""

    takeoff: int
    apex: int
    landing: int
    airtime: int
    over: float


def best_crouch(jump: Jump, *, now: float, push: float) -> tuple[int, int]:
    """The crouch key of a push of `now` frames, and the one whose push is nearest in ratio to the frames asked for."""
    takeoff = jump.takeoff.frame
    frames = [frame for frame in jump.beat.near(takeoff - push) if frame < takeoff]
    best = min(frames, key=lambda frame: abs(math.log((takeoff - frame) / push)))
    return jump.beat.at(takeoff - now), best


def best_flight(jump: Jump, *, airtime: float) -> FlightKeys:
    """The flight in whole frames nearest to an airtime, its apex where the two heights put it.

    Of the few keys around the exact ones, the landing is taken that comes nearest in airtime, then the
    apex that comes nearest to its own place in it.
    """
    takeoff = jump.beat.at(jump.takeoff.frame)
    landings = [frame for frame in jump.beat.near(takeoff + airtime) if frame > takeoff + 1]
    landing = min(landings, key=lambda frame: abs(math.log((frame - takeoff) / airtime)))
    apexes = jump.beat.near(takeoff + own_rise(jump) * (landing - takeoff))
    apex = min(apexes, key=lambda frame: abs(frame - takeoff - own_rise(jump) * (landing - takeoff)))
    return FlightKeys(takeoff, apex, landing, landing - takeoff, landing - takeoff - airtime)


def flight_mend(jump: Jump, *, agrees: bool) -> tuple[str, dict[str, object]]:
    """What to do about a flight that runs slow or fast: its real frames, or the height its frames need.

    agrees: the push goes with it. The landing keeps its place against the takeoff.
    """
    flight = best_flight(jump, airtime=jump.flight.expected)
    offset = jump.flight.height.value - jump.flight.drop.value
    needed = rise_in(jump.flight.airtime.value / jump.fps, landing=offset, gravity=jump.gravity)
    values: dict[str, object] = {
        "apex": flight.apex, "landing": flight.landing, "frames": flight.airtime,
        "left": left_over(flight.over), "needed": needed,
    }  # fmt: skip
    text = "Put the apex at {apex} and the landing at {landing}, {frames} frames in the air ({left})"
    if needed is not None:
        text += "; or keep the frames and let it rise {needed:.2f} m"
    if agrees and jump.push:
        push = jump.push.expected.value * flight.airtime / jump.flight.airtime.value
        values["push"] = jump.beat.length(push)
        text = (
            "Nothing, if the style is meant: the push goes with it. For real time, {frames} frames in the "
            "air ({left}) and {push} for the push"
        )
    return text, values


def push_mend(jump: Jump, push: Push, limits: Limits) -> tuple[str, dict[str, object]]:
    """What to do about a push that is too long or too short: another crouch key, another flight, another depth.

    The flight that the push asks for is named only where it would neither float nor snap, the depth, d F / E, only
    where the body can sink so far and has the force.
    """
    lasts, asked = push.frames.value, push.expected.value
    now, then = best_crouch(jump, now=lasts, push=asked)
    flight = best_flight(jump, airtime=jump.flight.airtime.value * lasts / asked)
    deep = push.distance.value * lasts / asked
    text = "Move the crouch key from {now} to {then} ({left})"
    pull = (jump.flight.expected / flight.airtime) ** 2
    if max(pull, 1.0 / pull) <= 1.0 + limits.gravity_band:
        text += "; or keep the push and let the flight last {flight} frames"
    if deep <= sinks(jump) and jump.flight.height.value / deep <= jump.reach:
        text += "; or keep both and crouch {deep:.2f} m deep, not {depth:.2f} m"
    return text, {
        "now": now,
        "then": then,
        "left": left_over(jump.takeoff.frame - then - asked),
        "flight": flight.airtime,
        "deep": deep,
        "depth": push.distance.value,
    }


def own_rise(jump: Jump) -> float:
    """Share of the airtime that a parabola between the same ends spends rising."""
    up, down = math.sqrt(jump.flight.height.value), math.sqrt(jump.flight.drop.value)
    return up / (up + down) if up + down else 0.5
