"""A goal is refused at once for numbers that no jump can have."""

import math

import pytest
from leapwright.analysis import PlanError, World
from leapwright.analysis.planning.goal import LIFT, LIFT_RANGE, Goal

WRONG = [
    ({}, "a plan needs either a height or an airtime"),
    ({"height": 1.0, "airtime_frames": 24}, "a plan needs either a height or an airtime"),
    ({"height": 1.0, "landing_height": 0.1, "drop_height": 0.9}, "the landing or the drop to it, not both"),
    ({"height": 1.0, "zero": "floor"}, "the height counts from takeoff or standing, not from 'floor'"),
    ({"height": -1.0}, "the height must be above 0, not -1"),
    ({"height": 0.0}, "the height must be above 0, not 0"),
    ({"airtime_frames": -3}, "the airtime must be above 0, not -3"),
    ({"height": math.nan}, "the height must be a number, not nan"),
    ({"height": 1.0, "landing_height": math.inf}, "the landing height must be a number, not inf"),
    ({"height": 1.0, "push_distance": 0.0}, "the push distance must be above 0, not 0"),
    ({"height": 1.0, "fps": 0.0}, "the fps must be above 0, not 0"),
    ({"height": 1.0, "air_pace": -1.0}, "the air pace must be above 0, not -1"),
    ({"height": 1.0, "distance": -2.0}, "the distance must be 0 or more, not -2"),
    ({"height": 1.0, "absorb_distance": 0.0}, "the absorb distance must be above 0, not 0"),
]


@pytest.mark.parametrize(("asked", "sentence"), WRONG)
def test_a_goal_that_makes_no_sense_says_so(asked, sentence):
    with pytest.raises(PlanError) as refusal:
        Goal(**{"push_distance": 0.3, **asked})
    assert sentence in str(refusal.value)


def test_a_landing_may_lie_lower():
    assert Goal(0.3, height=1.0, landing_height=-2.0).landing_height == -2.0


def test_the_pace_bends_gravity_by_its_square():
    # t = sqrt(2 h / g): half the time takes four times the gravity.
    assert Goal(0.3, height=1.0, air_pace=2.0, world=World(gravity=1.62)).played_gravity == pytest.approx(4 * 1.62)


def test_the_lift_assumed_lies_in_its_range():
    assert LIFT_RANGE[0] < LIFT < LIFT_RANGE[1]
