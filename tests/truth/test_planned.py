"""Plans against printed answers: textbook problems, rise tables, other planets, and what animators are taught.

OpenStax College Physics 2e is "CP" and University Physics volume 1 "UP", both with g = 9.80 m/s²; only numbers
are carried over. Examples marked "common practice, no source" are what animators are taught, and no more.
"""

import math

import numpy as np
import pytest
from leapwright.analysis import GRAVITIES, World
from leapwright.analysis.planning.goal import Goal
from leapwright.analysis.planning.plan import plan_jump
from scipy import constants

from .test_tables import RISES

TEXTBOOK = World(gravity=9.80, kind="galago")
FOOT, INCH = constants.foot, constants.inch


def test_common_practice_no_source_twenty_inches_are_about_eight_frames_up():
    plan = plan_jump(Goal(20 * INCH, height=20 * INCH))
    assert round(plan.exact.rise) == plan.timing.rise_frames == 8


def test_common_practice_no_source_four_feet_are_twelve_frames_up_and_three_for_a_push_of_one_foot():
    plan = plan_jump(Goal(1 * FOOT, height=4 * FOOT))
    assert plan.push_ratio == pytest.approx(4.0)
    assert (plan.timing.push_frames, plan.timing.rise_frames, plan.timing.fall_frames) == (3, 12, 12)


def test_common_practice_no_source_a_push_ratio_of_two_halves_the_rise_for_the_push():
    plan = plan_jump(Goal(2 * FOOT, height=4 * FOOT))
    assert plan.exact.push == pytest.approx(plan.exact.rise / 2)
    assert (plan.timing.push_frames, plan.timing.rise_frames) == (6, 12)


def test_common_practice_no_source_a_snappy_jump_pushes_as_snappily():
    # Worth 5 to 6 frames up, played in 3, ratio 1: a push of 3.
    height = constants.g * (5.5 / 24) ** 2 / 2
    plan = plan_jump(Goal(height, height=height, air_pace=5.5 / 3))
    assert (plan.timing.push_frames, plan.timing.rise_frames) == (3, 3)
    assert plan.timing.agreement == pytest.approx(1.0)


RISES_AT = [(row[0], fps, cm) for row in RISES for fps, cm in zip((24, 25, 30), row[1:], strict=True)]


@pytest.mark.parametrize(("frames", "fps", "centimeters"), RISES_AT)
def test_the_rise_table_read_both_ways(frames, fps, centimeters):
    # Worked from h = g t² / 2 with the standard acceleration; printed to 0.01 cm.
    by_frames = plan_jump(Goal(0.3, airtime_frames=2 * frames, fps=fps))
    assert by_frames.exact.height * 100 == pytest.approx(centimeters, abs=0.0051)
    by_height = plan_jump(Goal(0.3, height=centimeters / 100, fps=fps))
    assert (by_height.timing.rise_frames, by_height.timing.fall_frames) == (frames, frames)


def test_a_standing_jump_gives_the_printed_speed_and_force():
    # CP 2e 4.46 (= UP 6.34): crouch 0.300 m, rise 0.900 m, 110 kg: 4.20 m/s, 4.31e3 N.
    plan = plan_jump(Goal(0.300, height=0.900, world=TEXTBOOK, fps=1000))
    assert plan.takeoff_speed == pytest.approx(4.20, rel=2e-3)
    assert plan.body_weights * 110 * 9.80 == pytest.approx(4.31e3, rel=1e-3)
    # CP 2e 7.69: crouch 0.400 m, rise 0.950 m, 105 kg: 4.32 m/s, 3.47e3 N.
    plan = plan_jump(Goal(0.400, height=0.950, world=TEXTBOOK, fps=1000))
    assert plan.takeoff_speed == pytest.approx(4.32, rel=2e-3)
    assert plan.body_weights * 105 * 9.80 == pytest.approx(3.47e3, rel=1e-3)


@pytest.mark.parametrize(("stop", "newtons", "weights"), [(0.0150, 3.21e4, 41.0), (0.300, 2.35e3, 3.00)])
def test_a_landing_gives_the_printed_force(stop, newtons, weights):
    # CP 2e 7.52: 80.0 kg from 0.600 m, stopped in 1.50 cm and in 0.300 m.
    plan = plan_jump(Goal(0.3, height=0.600, absorb_distance=stop, world=TEXTBOOK, fps=1000))
    assert plan.absorb_ratio + 1 == pytest.approx(weights, rel=1e-3)
    assert (plan.absorb_ratio + 1) * 80.0 * 9.80 == pytest.approx(newtons, rel=2e-3)


def test_a_kangaroo_over_an_obstacle():
    # UP 3.75 (= CP 2.50): 2.50 m high, 7.0 m/s, in the air 1.44 s (printed as twice 0.72, rounded twice).
    plan = plan_jump(Goal(1.0, height=2.50, world=TEXTBOOK, fps=1000))
    assert plan.takeoff_speed == pytest.approx(7.0, rel=2e-3)
    assert plan.exact.airtime / 1000 == pytest.approx(1.44, rel=0.01)


@pytest.mark.parametrize(("height", "seconds"), [(1.0, 0.9), (0.3, 0.5)])
def test_hang_times(height, seconds):
    # UP 3.105: 1.0 m gives 0.9 s, 0.3 m gives 0.5 s.
    plan = plan_jump(Goal(0.3, height=height, world=TEXTBOOK, fps=1000))
    assert round(plan.exact.airtime / 1000, 1) == seconds


def test_a_standing_broad_jump_at_forty_five_degrees():
    # CP 2e 3.35: legs extend 0.600 m at 1.25 g, at 45°: 1.50 m. The push runs along the 45° there, so of its
    # 0.600 m · 1.25 = v² / 2 g half is height: 0.375 m.
    plan = plan_jump(Goal(0.600, height=0.375, distance=1.50, world=TEXTBOOK, fps=1000))
    assert math.degrees(plan.takeoff_angle) == pytest.approx(45.0, abs=0.1)
    assert plan.takeoff_speed == pytest.approx(math.sqrt(2 * 1.25 * 9.80 * 0.600), rel=2e-3)


def test_a_leap_that_lands_lower_than_it_took_off():
    # Serway & Jewett, Principles of Physics 5e, ch. 3, prob. 18: takeoff 1.02 m, apex 1.85 m, touchdown 0.900 m,
    # 2.80 m far; up 0.4116 s, down 0.4403 s, across 3.287 m/s, up 4.033 m/s, 50.8° (worked; the print is an
    # answer site's, for level ground).
    plan = plan_jump(Goal(0.4, height=0.83, landing_height=-0.12, distance=2.80, world=TEXTBOOK, fps=10_000))
    assert plan.exact.rise / 10_000 == pytest.approx(0.4116, abs=1e-4)
    assert plan.exact.fall / 10_000 == pytest.approx(0.4403, abs=1e-4)
    assert plan.travel_speed == pytest.approx(3.287, rel=1e-3)
    assert math.degrees(plan.takeoff_angle) == pytest.approx(50.8, abs=0.05)


def test_a_froghopper_leaves_at_the_printed_acceleration():
    # Burrows 2003, Nature 424:509: best 4 m/s, leg extension 1 ms, "408 g". Printed speed and time only.
    speed, seconds = 4.0, 0.001
    push, height = speed * seconds / 2, speed**2 / (2 * constants.g)
    plan = plan_jump(Goal(push, height=height, world=World(kind="insect"), fps=100_000 / 20))
    assert plan.push_ratio == pytest.approx(408, rel=2e-3)
    assert plan.exact.push / 5000 == pytest.approx(seconds, rel=1e-9)


def test_a_galago_takes_off_as_printed():
    # Hall-Craggs 1965, J Zool 147:20: 7 ft 4.75 in standing vertical jump; 6.649 m/s and 1.356 s follow from it.
    plan = plan_jump(Goal(0.16, height=7 * FOOT + 4.75 * INCH, world=World(kind="galago"), fps=1000))
    assert plan.takeoff_speed == pytest.approx(6.649, rel=1e-3)
    assert plan.exact.airtime / 1000 == pytest.approx(1.356, abs=1e-3)


@pytest.mark.parametrize(("world", "longer"), [("moon", 2.457), ("mars", 1.626), ("jupiter", 0.629)])
def test_the_same_height_on_other_worlds(world, longer):
    # Airtime for the same height goes with 1 / sqrt(g): JPL's equatorial gravities; Moon from GM / R² (from memory).
    here, there = (plan_jump(Goal(0.4, height=0.5, world=World(gravity=GRAVITIES[name]))) for name in ("earth", world))
    assert there.exact.airtime / here.exact.airtime == pytest.approx(longer, rel=2e-3)
    assert there.exact.push / here.exact.push == pytest.approx(longer, rel=2e-3)


def test_heights_on_successive_frames_differ_twice_by_gravity():
    # 1.7025 cm at 24 fps, 1.0896 at 30: g per frame squared, with the standard acceleration.
    for fps, centimeters in ((24, 1.7025), (30, 1.0896)):
        plan = plan_jump(Goal(0.4, airtime_frames=20, fps=fps))
        air = [p.height for p in plan.poses if plan.keys[1].frame <= p.frame <= plan.keys[3].frame]
        np.testing.assert_allclose(-np.diff(air, 2) * 100, centimeters, atol=6e-5)
