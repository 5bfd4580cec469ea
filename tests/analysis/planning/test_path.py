"""The path between a plan's keys is the law itself: checked against its closed form, frame by frame and between."""

import numpy as np
import pytest
from leapwright.analysis import World
from leapwright.analysis.planning.goal import Goal
from leapwright.analysis.planning.path import path_at
from leapwright.analysis.planning.plan import plan_jump

GOALS = [
    Goal(0.3, height=1.2),
    Goal(0.4, height=0.6, landing_height=-1.0, distance=2.5, absorb_distance=0.3),
    Goal(0.5, height=1.0, drop_height=0.2, fps=30, air_pace=0.8, start_frame=-40),
    Goal(0.35, airtime_frames=23, world=World(gravity=1.62, step=2), distance=1.0),
]


@pytest.mark.parametrize("goal", GOALS)
def test_the_flight_is_the_parabola_between_frames_too(goal):
    plan = plan_jump(goal)
    takeoff, landing = plan.keys[1].frame, plan.keys[3].frame
    frames = np.linspace(takeoff, landing, 401)
    seconds = (frames - plan.apex_frame) / goal.fps
    heights, across = path_at(plan.keys, frames)
    # y = h - g t² / 2 about the apex, under the gravity that the plan says it has.
    np.testing.assert_allclose(heights, plan.exact.height - 0.5 * plan.fitted_gravity * seconds**2, atol=1e-12)
    np.testing.assert_allclose(across, plan.travel_speed * (frames - takeoff) / goal.fps, atol=1e-12)


@pytest.mark.parametrize("goal", GOALS)
def test_push_and_absorb_are_of_constant_force(goal):
    plan = plan_jump(goal)
    crouch, takeoff, _, landing, absorbed = (key.frame for key in plan.keys)
    s = np.linspace(0.0, 1.0, 51)
    heights, across = path_at(plan.keys, crouch + s * (takeoff - crouch))
    # From rest under a constant force a body has covered the share s² of its way after the share s of its time.
    np.testing.assert_allclose(heights, plan.exact.push_distance * (s**2 - 1.0), atol=1e-12)
    start = plan.keys[0].across
    np.testing.assert_allclose(across, start * (1.0 - s**2), atol=1e-12)
    heights, across = path_at(plan.keys, absorbed - s * (absorbed - landing))
    np.testing.assert_allclose(heights, plan.keys[4].height + plan.exact.absorb_distance * s**2, atol=1e-12)
    np.testing.assert_allclose(across, plan.keys[4].across - (plan.keys[4].across - goal.distance) * s**2, atol=1e-12)


@pytest.mark.parametrize("goal", GOALS)
def test_the_horizontal_speed_never_jumps(goal):
    plan = plan_jump(goal)
    for key in plan.keys:
        assert key.across_slope.before == pytest.approx(key.across_slope.after)


def test_the_speeds_at_takeoff_are_as_far_apart_as_push_and_flight_disagree():
    for push in (0.21, 0.3, 0.5):
        plan = plan_jump(Goal(push, height=1.2))
        slope = plan.keys[1].height_slope
        # End speed of the push is 2 d / t_push, start speed of the flight g t_rise: agreement is their ratio.
        assert slope.before / slope.after == pytest.approx(plan.timing.agreement)


def test_the_path_rests_outside_its_keys():
    plan = plan_jump(GOALS[1])
    heights, across = path_at(plan.keys, [-100, 1000])
    assert heights.tolist() == [plan.keys[0].height, pytest.approx(plan.keys[4].height)]
    assert across.tolist() == [plan.keys[0].across, pytest.approx(plan.keys[4].across)]
