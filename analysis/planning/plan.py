"""Plan: from a goal to whole frames. What the law asks of a jump, and what rounding it to frames costs.

A body that rises d while pushing with constant force and then h in flight leaves at v = sqrt(2 g h), rises
for sqrt(2 h / g) and pushes for 2 d / v = rise / R, with R = h / d, at R + 1 body weights (Samozino et al.
2008); the landing is the same law backward. An air pace other than 1 plays all of it in g pace².
"""

import math
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from ..beat import frames_said, whole
from ..errors import PlanError
from ..law import rise_in
from .goal import LAST_HOST_FRAME, LONGEST_GOAL, Goal
from .notes import notes_of, rounding_of
from .path import PathShape, PlannedKey, keys_of, path_at
from .remark import Remark
from .timing import Exact, Timing, TimingChange, exact_frames, neighbors_of, timing_of

FEWEST_STEPS = 2
"""Poses a flight needs at least: one at the top and one at the landing."""


class PlannedPose(NamedTuple):
    """Where the path is on one frame; spacing: meters along it since the pose before, 0 for the first."""

    frame: int
    height: float
    across: float
    spacing: float


@dataclass(frozen=True, slots=True)
class Plan:
    """A jump in whole frames. Heights in meters above the takeoff, m/s as played, the angle in radians.

    exact        what the goal asks for, before rounding
    timing       the whole frames chosen
    neighbors    (change, timing): the flight, then the push, a step shorter and longer
    keys         crouch, takeoff, apex, landing, absorbed
    apex_frame   the parabola's own apex, which may lie between two frames
    poses        one a step, from crouch to absorbed
    rounding     what whole frames cost
    notes        what is implausible, and what the plan rests on
    """

    goal: Goal
    exact: Exact
    timing: Timing
    neighbors: tuple[tuple[TimingChange, Timing], ...]
    keys: tuple[PlannedKey, ...]
    apex_frame: float
    poses: tuple[PlannedPose, ...]
    takeoff_speed: float
    takeoff_angle: float
    landing_speed: float
    travel_speed: float
    rounding: Remark
    notes: tuple[Remark, ...]

    @property
    def push_ratio(self) -> float:
        """Jump height ÷ push distance."""
        return self.exact.height / self.exact.push_distance

    @property
    def absorb_ratio(self) -> float:
        """Drop height ÷ absorb distance."""
        return self.exact.drop / self.exact.absorb_distance

    @property
    def body_weights(self) -> float:
        """Mean force of the push over its distance, in body weights, for any push (work and energy)."""
        return self.push_ratio + 1.0

    @property
    def fitted_gravity(self) -> float:
        """m/s² that the flight has on its whole frames."""
        return self.goal.world.gravity * self.timing.air_pace**2


def plan_jump(goal: Goal) -> Plan:
    """Turn a goal into whole frames on its step.

    A height is kept, and the pace takes the rounding; an airtime is rounded, and the height follows it.
    Raises PlanError for what no jump can do, with the reason: a landing above the apex, too few frames in
    the air, a fall that leaves no time to rise.

    >>> timing = plan_jump(Goal(0.41, height=0.54)).timing
    >>> timing.push_frames, timing.rise_frames, timing.fall_frames
    (6, 8, 8)
    """
    if goal.height is not None:
        height, drop = _heights(goal, goal.height)
    elif goal.airtime_frames is not None:
        height, drop = _heights_in(goal, goal.airtime_frames)
    else:
        raise PlanError("a plan needs either a height or an airtime")
    exact = exact_frames(goal, height=height, drop=drop)
    air = _air_frames(goal, exact.airtime)
    for name, frames in (("a push", exact.push), ("an absorb", exact.absorb)):
        if frames > LONGEST_GOAL:
            raise PlanError(f"{name} of {frames:.0f} frames is longer than any shot")
    timing = timing_of(goal, exact, air=air)
    keys = keys_of(_shape(goal, exact, timing), start=goal.start_frame)
    if keys[-1].frame > LAST_HOST_FRAME:
        raise PlanError(
            f"the jump would end at frame {keys[-1].frame}, past the last one, {LAST_HOST_FRAME}: start earlier"
        )
    across = goal.distance * goal.fps / air
    up, down = (2.0 * size * goal.fps / (part * air) for size, part in ((height, exact.share), (drop, 1 - exact.share)))
    return Plan(
        goal=goal,
        exact=exact,
        timing=timing,
        neighbors=tuple(neighbors_of(goal, exact, timing, fewest=FEWEST_STEPS * goal.world.step)),
        keys=keys,
        apex_frame=keys[1].frame + exact.share * air,
        poses=_poses(keys, goal.world.step),
        takeoff_speed=math.hypot(up, across),
        takeoff_angle=math.atan2(up, across),
        landing_speed=math.hypot(down, across),
        travel_speed=across,
        rounding=rounding_of(goal, exact, timing),
        notes=tuple(notes_of(goal, exact, timing)),
    )


def _shape(goal: Goal, exact: Exact, timing: Timing) -> PathShape:
    sizes = (exact.push_distance, exact.height, exact.drop, exact.absorb_distance, goal.distance)
    frames = (timing.push_frames, timing.rise_frames, timing.airtime_frames, timing.absorb_frames)
    return PathShape(*sizes, *frames, exact.share)


def _poses(keys: tuple[PlannedKey, ...], step: int) -> tuple[PlannedPose, ...]:
    frames = np.arange(keys[0].frame, keys[-1].frame + 1, step)
    heights, across = path_at(keys, frames)
    spacing = np.hypot(np.diff(heights, prepend=heights[0]), np.diff(across, prepend=across[0]))
    return tuple(map(PlannedPose, frames.tolist(), heights.tolist(), across.tolist(), spacing.tolist()))


def _heights(goal: Goal, asked: float) -> tuple[float, float]:
    """Return meters from takeoff up to the apex, and from there down to the landing."""
    height = asked - (goal.lift if goal.zero == "standing" else 0.0)
    if height <= 0.0:
        raise PlanError(
            "a height of {asked:.2f} m above standing is no jump: at takeoff the body is already {lift:.2f} m higher "
            "than standing",
            asked=asked,
            lift=goal.lift,
        )
    if goal.drop_height is not None:
        return height, goal.drop_height
    landing = goal.landing_height or 0.0
    if landing >= height:
        where = "{over:.2f} m above the apex" if landing > height else "at the apex itself"
        said = f"the landing would lie {where}: rise more than {{landing:.2f}} m, or land lower"
        raise PlanError(said, over=landing - height, landing=landing)
    return height, height - landing


def _heights_in(goal: Goal, airtime: float) -> tuple[float, float]:
    """Return the same for an airtime, on its whole frames."""
    frames = _air_frames(goal, airtime)
    seconds, pull = frames / goal.fps, goal.played_gravity
    falls = 0.5 * pull * seconds**2
    said = f"{frames_said(frames)} in the air at {goal.fps:g} fps"
    if goal.drop_height is not None:
        rise = seconds - math.sqrt(2.0 * goal.drop_height / pull)
        if rise <= 0.0:
            raise PlanError(
                "a drop of {drop:.2f} m leaves no time to rise: {said} are a fall of {falls:.2f} m",
                drop=goal.drop_height,
                said=said,
                falls=falls,
            )
        return 0.5 * pull * rise**2, goal.drop_height
    landing = goal.landing_height or 0.0
    height = rise_in(seconds, landing=landing, gravity=goal.played_gravity)
    if height is None and landing > 0.0:
        raise PlanError(
            "the landing would lie above the apex: with {said} it lies less than {falls:.2f} m above the takeoff",
            said=said,
            falls=falls,
        )
    if height is None:
        refusal = "a landing {lower:.2f} m lower leaves no time to rise: {said} are a fall of {falls:.2f} m"
        raise PlanError(refusal, lower=-landing, said=said, falls=falls)
    return height, height - landing


def _air_frames(goal: Goal, airtime: float) -> int:
    """Return whole frames on the step; PlanError when they are too few for a flight, or more than any shot's."""
    fewest = FEWEST_STEPS * goal.world.step
    if airtime > LONGEST_GOAL:
        raise PlanError(f"{airtime:.0f} frames in the air are longer than any shot")
    frames = whole(airtime, step=goal.world.step)
    if frames < fewest:
        needed = goal.played_gravity * (fewest / goal.fps) ** 2 / 8.0
        on = "" if goal.world.step == 1 else f" on {goal.world.step}s"
        raise PlanError(
            "{frames} in the air at {fps:g} fps is no flight: an arc{on} needs {fewest}, a height of about "
            "{needed:.1f} cm",
            frames=frames_said(airtime),
            fps=goal.fps,
            on=on,
            fewest=fewest,
            needed=needed * 100.0,
        )
    return frames
