"""The frames a goal asks for, and the whole ones near them: what each timing is worth."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import NamedTuple

from ..beat import nearest, whole
from ..law import rise_in
from .goal import Goal


class TimingChange(NamedTuple):
    """What a timing has changed of another: the flight or the push, by so many frames.

    >>> str(TimingChange("push", -2))
    'push 2 frames shorter'
    """

    part: str
    frames: int

    def __str__(self) -> str:
        """Write it in words."""
        size = abs(self.frames)
        return f"{self.part} {size} frame{'' if size == 1 else 's'} {'shorter' if self.frames < 0 else 'longer'}"


class Exact(NamedTuple):
    """What a goal asks for, not rounded: meters (jump, drop, push, absorb), then frames."""

    height: float
    drop: float
    push_distance: float
    absorb_distance: float
    push: float
    rise: float
    fall: float
    absorb: float

    @property
    def airtime(self) -> float:
        """Frames from takeoff to landing."""
        return self.rise + self.fall

    @property
    def share(self) -> float:
        """Share of the airtime before the apex."""
        return self.rise / self.airtime


@dataclass(frozen=True, slots=True)
class Timing:
    """Whole frames of a jump, and what they are worth.

    air_pace, push_pace   against real time, the heights kept; agreement = push pace ÷ air pace
    height_at_pace        m, the jump height these air frames give at the pace asked for, the landing kept;
                          None when they give none
    """

    push_frames: int
    rise_frames: int
    fall_frames: int
    absorb_frames: int
    air_pace: float
    push_pace: float
    height_at_pace: float | None

    @property
    def airtime_frames(self) -> int:
        """Takeoff to landing."""
        return self.rise_frames + self.fall_frames

    @property
    def agreement(self) -> float:
        """Push pace ÷ air pace: 1 when the push belongs to the flight."""
        return self.push_pace / self.air_pace


def exact_frames(goal: Goal, *, height: float, drop: float) -> Exact:
    """Give the frames of each stretch under constant force, at the goal's own pace.

    rise = sqrt(2 h / g), push = rise ÷ push ratio; the landing is the same law backward.
    """
    absorb = goal.push_distance if goal.absorb_distance is None else goal.absorb_distance
    rise, fall = (math.sqrt(2.0 * size / goal.played_gravity) * goal.fps for size in (height, drop))
    return Exact(
        height, drop, goal.push_distance, absorb,
        push=rise * goal.push_distance / height, rise=rise, fall=fall, absorb=fall * absorb / drop,
    )  # fmt: skip


def timing_of(goal: Goal, exact: Exact, *, air: int, push: int | None = None) -> Timing:
    """Give the timing that is `air` frames in the air; its push and absorb as that flight asks for."""
    step, stretch = goal.world.step, air / exact.airtime
    rise = min(max(whole(exact.share * air, step=step), step), air - step)
    push = push or nearest(exact.push * stretch, step=step)
    return Timing(
        push_frames=push,
        rise_frames=rise,
        fall_frames=air - rise,
        absorb_frames=nearest(exact.absorb * stretch, step=step),
        air_pace=goal.air_pace / stretch,
        push_pace=goal.air_pace * exact.push / push,
        height_at_pace=rise_in(air / goal.fps, landing=exact.height - exact.drop, gravity=goal.played_gravity),
    )


def neighbors_of(goal: Goal, exact: Exact, timing: Timing, *, fewest: int) -> Iterator[tuple[TimingChange, Timing]]:
    """Give the timings a step shorter and longer: first of the flight, its push fitted, then of the push."""
    step, air, push = goal.world.step, timing.airtime_frames, timing.push_frames
    for change in (-step, step):
        if air + change >= fewest:
            yield TimingChange("flight", change), timing_of(goal, exact, air=air + change)
    for change in (-step, step):
        if push + change >= step:
            yield TimingChange("push", change), timing_of(goal, exact, air=air, push=push + change)
