"""A plan keeps the law, rounds to the step, says what that costs, and refuses what no jump can do."""

import itertools
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from leapwright.analysis import GRAVITIES, PlanError, World
from leapwright.analysis.planning.goal import Goal
from leapwright.analysis.planning.plan import plan_jump
from leapwright.analysis.planning.timing import timing_of

goals = st.builds(
    Goal,
    st.floats(0.05, 2.0),
    height=st.floats(0.1, 5.0),
    world=st.builds(World, gravity=st.sampled_from(sorted(GRAVITIES.values())), step=st.integers(1, 4)),
    fps=st.sampled_from([24.0, 24000 / 1001, 25.0, 30.0, 60.0]),
    air_pace=st.floats(0.5, 1.2),
    distance=st.floats(0.0, 4.0),
    absorb_distance=st.none() | st.floats(0.05, 2.0),
    landing_height=st.none() | st.floats(-3.0, 0.05),
    start_frame=st.integers(-100, 1000),
)


def frames(plan):
    return [key.frame for key in plan.keys]


def planned(goal):
    try:
        return plan_jump(goal)
    except PlanError as refusal:
        # Of these goals only the shortest flights, on a coarse step, cannot be.
        assert "is no flight" in str(refusal)
        return None


@given(goals)
@settings(max_examples=300, deadline=None)
def test_the_law_holds_and_frames_lie_on_the_step(goal):
    plan = planned(goal)
    if plan is None:
        return
    exact, step = plan.exact, goal.world.step
    g = goal.world.gravity * goal.air_pace**2
    assert exact.rise == pytest.approx(math.sqrt(2 * goal.height / g) * goal.fps)
    assert exact.fall == pytest.approx(math.sqrt(2 * exact.drop / g) * goal.fps)
    assert exact.push == pytest.approx(exact.rise / plan.push_ratio)
    assert exact.absorb == pytest.approx(exact.fall / plan.absorb_ratio)
    assert plan.body_weights == plan.push_ratio + 1
    assert abs(plan.timing.airtime_frames - exact.airtime) <= 0.5 * step + 1e-9
    found = frames(plan)
    assert found[0] == goal.start_frame and all((frame - found[0]) % step == 0 for frame in found)
    assert found == sorted(set(found))


@given(goals)
@settings(max_examples=200, deadline=None)
def test_of_the_pushes_on_the_step_the_one_that_agrees_best_is_taken(goal):
    plan = planned(goal)
    if plan is None:
        return
    best = abs(math.log(plan.timing.agreement))
    for change, other in plan.neighbors:
        if change.part == "push":
            assert abs(math.log(other.agreement)) >= best - 1e-9


@given(goals, st.floats(0.25, 16.0))
@settings(max_examples=100, deadline=None)
def test_a_scaled_jump_takes_the_root_of_the_scale_and_keeps_its_ratio(goal, scale):
    plan = planned(goal)
    if plan is None:
        return
    sizes = {"height": goal.height, "distance": goal.distance, "absorb_distance": plan.exact.absorb_distance}
    sizes["drop_height"] = plan.exact.drop
    larger = planned(
        Goal(goal.push_distance * scale, **{name: size * scale for name, size in sizes.items()},
             world=goal.world, fps=goal.fps, air_pace=goal.air_pace))  # fmt: skip
    if larger is None:
        return
    # Froude: with every length times s, times go with the root of s.
    assert larger.exact.airtime == pytest.approx(plan.exact.airtime * math.sqrt(scale))
    assert larger.exact.push == pytest.approx(plan.exact.push * math.sqrt(scale))
    assert larger.push_ratio == pytest.approx(plan.push_ratio)


@given(st.integers(2, 200), st.sampled_from([24.0, 25.0, 30.0]), st.floats(-0.9, 0.9))
@settings(max_examples=200, deadline=None)
def test_an_airtime_gives_the_height_that_takes_it(air, fps, part):
    falls = 0.5 * 9.80665 * (air / fps) ** 2
    goal = Goal(0.3, airtime_frames=air, fps=fps, landing_height=part * falls)
    plan = plan_jump(goal)
    assert plan.exact.airtime == pytest.approx(air)
    assert plan.timing.airtime_frames == air and plan.timing.air_pace == pytest.approx(1.0)
    assert plan.exact.height - plan.exact.drop == pytest.approx(goal.landing_height)


def test_an_airtime_with_a_drop_rises_in_what_the_fall_leaves():
    # The drop is half a second's from rest; of 24 frames at 24 fps that leaves half a second to rise as high.
    drop = 9.80665 * 0.5**2 / 2
    plan = plan_jump(Goal(0.3, airtime_frames=24, drop_height=drop))
    assert (plan.timing.rise_frames, plan.timing.fall_frames) == (12, 12)
    assert plan.exact.height == pytest.approx(drop)


def test_an_airtime_between_frames_is_rounded_and_the_height_follows():
    plan = plan_jump(Goal(0.3, airtime_frames=21.6))
    assert plan.timing.airtime_frames == 22
    assert plan.exact.height == pytest.approx(9.80665 * (22 / 24) ** 2 / 8)
    assert str(plan.rounding) == "22 frames in the air where 21.6 frames were asked for; the height goes with them"


def test_rounding_costs_pace_or_height_and_says_how_much():
    plan = plan_jump(Goal(0.508, height=0.508))
    # Rise sqrt(2 · 0.508 / 9.80665) s is 7.725 frames at 24, the airtime 15.449: 15 frames play at 1.0299.
    assert plan.timing.airtime_frames == 15
    assert plan.timing.air_pace == pytest.approx(48 * math.sqrt(2 * 0.508 / 9.80665) / 15)
    assert plan.timing.height_at_pace == pytest.approx(9.80665 * (15 / 24) ** 2 / 8)
    said = "15 frames in the air for 15.4: an air pace of 1.03 at this height, or a height of 0.48 m at a pace of 1"
    assert str(plan.rounding) == said


def test_neighbors_are_a_step_away_and_priced_as_the_plan_is():
    plan = plan_jump(Goal(0.3048, height=1.2192))
    named = {str(change): timing for change, timing in plan.neighbors}
    assert list(named) == ["flight 1 frame shorter", "flight 1 frame longer", "push 1 frame shorter",
                           "push 1 frame longer"]  # fmt: skip
    longer = named["flight 1 frame longer"]
    assert longer.airtime_frames == 25
    assert longer.height_at_pace == pytest.approx(9.80665 * (25 / 24) ** 2 / 8)
    # 2 d / v = 2.992 frames: pushed in 2, the push runs 1.496 times as fast as the flight in 23.935 frames.
    assert named["push 1 frame shorter"].agreement == pytest.approx(2.9919 / 2 * 24 / 23.935, rel=1e-4)


def test_a_push_and_a_flight_have_no_neighbor_that_is_none():
    plan = plan_jump(Goal(0.01, airtime_frames=2))
    assert [str(change) for change, _ in plan.neighbors] == ["flight 1 frame longer", "push 1 frame longer"]


def test_speed_and_angle_are_those_of_the_throw():
    plan = plan_jump(Goal(0.4, airtime_frames=24, distance=9.80665 / 2, fps=24))
    # T = 1 s: v_up = g T / 2, and as much across, so 45 degrees.
    assert math.degrees(plan.takeoff_angle) == pytest.approx(45.0)
    assert plan.takeoff_speed == pytest.approx(9.80665 / 2 * math.sqrt(2))
    assert plan.landing_speed == pytest.approx(plan.takeoff_speed)


def test_poses_go_by_the_step_and_their_spacing_adds_up():
    plan = plan_jump(Goal(0.4, height=0.8, world=World(step=2), distance=0.0))
    assert [pose.frame for pose in plan.poses] == list(range(plan.keys[0].frame, plan.keys[4].frame + 1, 2))
    apex = next(n for n, pose in enumerate(plan.poses) if pose.frame == plan.keys[2].frame)
    assert sum(pose.spacing for pose in plan.poses[: apex + 1]) == pytest.approx(
        plan.keys[2].height + 0.4 + 2 * max(plan.poses[apex - 1].height - plan.keys[2].height, 0)
    )
    # Second differences of heights in flight are g per pose, squared.
    a, b, c = (plan.poses[n].height for n in (apex - 1, apex, apex + 1))
    assert 2 * b - a - c == pytest.approx(plan.fitted_gravity * (2 / 24) ** 2)


IMPOSSIBLE = [
    ({"height": 0.5, "landing_height": 0.7}, "the landing would lie 0.20 m above the apex: rise more than 0.70 m"),
    ({"height": 0.5, "landing_height": 0.5}, "the landing would lie at the apex itself"),
    ({"airtime_frames": 12, "landing_height": 2.0}, "the landing would lie above the apex: with 12 frames in the air"),
    ({"airtime_frames": 12, "landing_height": -2.0}, "leaves no time to rise"),
    ({"airtime_frames": 12, "drop_height": 2.0}, "a drop of 2.00 m leaves no time to rise: 12 frames in the air at 24"),
    ({"height": 0.001}, "0.7 frames in the air at 24 fps is no flight: an arc needs 2, a height of about 0.9 cm"),
    ({"airtime_frames": 1}, "1 frame in the air at 24 fps is no flight: an arc needs 2"),
    ({"height": 0.012, "world": World(step=2)}, "an arc on 2s needs 4, a height of about 3.4 cm"),
    ({"height": 0.1, "zero": "standing"}, "a height of 0.10 m above standing is no jump"),
    ({"height": 1e9}, "frames in the air are longer than any shot"),
]


@pytest.mark.parametrize(("asked", "sentence"), IMPOSSIBLE)
def test_what_cannot_be_says_why(asked, sentence):
    with pytest.raises(PlanError) as refusal:
        plan_jump(Goal(0.3, **asked))
    assert sentence in str(refusal.value)



def test_a_plan_lands_at_the_speed_of_its_own_fall():
    # Up 0.4 m in 24 sqrt(0.8 / g) = 6.855 frames, down 1.6 m in twice as many: 20.56, drawn in 21, so a landing at
    # sqrt(2 g 1.6) 20.56 / 21 = 5.485 m/s.
    plan = plan_jump(Goal(0.3, height=0.4, landing_height=-1.2))
    assert plan.timing.airtime_frames == 21
    assert plan.landing_speed == pytest.approx(5.485, rel=1e-3)
    assert plan.takeoff_speed == pytest.approx(5.485 / 2.0, rel=1e-3)


def test_the_spacing_of_poses_is_along_their_path():
    plan = plan_jump(Goal(0.4, height=0.8, distance=1.5))
    for before, pose in itertools.pairwise(plan.poses):
        assert pose.spacing == pytest.approx(math.dist((before.height, before.across), (pose.height, pose.across)))


def test_an_airtime_played_at_half_pace_rises_a_quarter_as_high():
    # 1 s under g / 4 rises g / 32 = 0.3065 m on level ground. 0.1 m lower: v = g / 8 - 0.1, v² / (2 g / 4).
    assert plan_jump(Goal(0.3, airtime_frames=24, air_pace=0.5)).exact.height == pytest.approx(9.80665 / 32.0)
    lower = plan_jump(Goal(0.3, airtime_frames=24, air_pace=0.5, landing_height=-0.1))
    assert lower.exact.height == pytest.approx((9.80665 / 8.0 - 0.1) ** 2 / (9.80665 / 2.0))


def test_a_refused_drop_says_how_far_its_frames_fall():
    # 24 frames of 24 are 1 s: g / 2 = 4.90 m.
    with pytest.raises(PlanError, match=r"24 frames in the air at 24 fps are a fall of 4\.90 m"):
        plan_jump(Goal(0.3, airtime_frames=24, drop_height=5.0))
    with pytest.raises(PlanError, match=r"it lies less than 4\.90 m above the takeoff"):
        plan_jump(Goal(0.3, airtime_frames=24, landing_height=5.0))


def test_a_timing_of_twice_the_airtime_has_twice_the_push_and_the_absorb():
    # Up 0.4 m and down 1.6 m, 20.56 frames; a push of 0.3 m asks for 5.14, an absorb of 0.3 m for 13.71 · 0.3 / 1.6 =
    # 2.57 frames: 10.5 and 5.25 at 42 in the air.
    goal = Goal(0.3, height=0.4, landing_height=-1.2)
    exact = plan_jump(goal).exact
    timing = timing_of(goal, exact, air=42)
    assert (timing.push_frames, timing.absorb_frames) in {(10, 5), (11, 5)}


def test_the_height_that_a_timing_gives_keeps_the_landing_and_the_pace():
    # At half pace g / 4: 42 frames are 1.75 s, v = g 1.75 / 8 - 1.2 / 1.75, and v² / (g / 2).
    goal = Goal(0.3, height=0.4, landing_height=-1.2, air_pace=0.5)
    timing = timing_of(goal, plan_jump(goal).exact, air=42)
    assert timing.height_at_pace == pytest.approx((9.80665 * 1.75 / 8.0 - 1.2 / 1.75) ** 2 / (9.80665 / 2.0))
