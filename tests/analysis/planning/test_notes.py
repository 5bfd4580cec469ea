"""A plan says what is implausible in it, once each, and only then."""

import pytest
from leapwright.analysis import World
from leapwright.analysis.errors import PlanError
from leapwright.analysis.planning.goal import Goal
from leapwright.analysis.planning.notes import notes_of
from leapwright.analysis.planning.plan import plan_jump
from leapwright.analysis.planning.timing import timing_of


def notes(push, **asked):
    return tuple(map(str, plan_jump(Goal(push, **asked)).notes))


def test_an_ordinary_jump_has_nothing_to_be_said():
    assert notes(0.4, height=0.4) == ()


def test_more_than_the_kind_can_do_is_said_with_what_would_do():
    (note,) = notes(0.3048, height=1.2192)
    assert note.startswith(
        "it rises 1.22 m from a push of 0.30 m, ratio 4.0, 5.0 times its weight there on average, where the kind "
        "person reaches 1.6: push 0.76 m, or rise 0.49 m"
    )
    assert notes(0.3048, height=1.2192, world=World(kind="cat")) == ()


def test_a_push_that_no_frames_fit_is_said():
    (note,) = notes(0.05, height=1.0, world=World(kind="insect"))
    assert note.startswith("the flight asks for a push of 0.5 frames, and 1 frame is the nearest on whole frames")


@pytest.mark.parametrize(("air", "step", "said"), [(4, 1, "only 3 poses"), (6, 1, None), (10, 2, "only 4 poses")])
def test_too_few_poses_for_an_audit_are_said(air, step, said):
    found = [note for note in notes(0.4, airtime_frames=air, world=World(step=step)) if "strictly in the air" in note]
    assert [note.split(" strictly")[0] for note in found] == ([said] if said else [])


def test_a_bob_and_a_pace_that_is_no_flight_are_said():
    assert any("is a bob" in note for note in notes(0.03, height=0.03, fps=60))
    assert any("lies outside 0.18 to 4" in note for note in notes(4.0, height=4.0, air_pace=4.2))


def test_a_height_from_standing_says_what_it_takes_off_and_how_sure_that_is():
    plan = plan_jump(Goal(0.4, height=0.6, zero="standing"))
    assert plan.exact.height == pytest.approx(0.45)
    # 0.60 m less the 11 to 22 cm by which adults are higher at takeoff (plate records, BMC laboratory).
    assert tuple(map(str, plan.notes)) == (
        "counted from standing: takeoff is taken 15 cm higher, which leaves 0.45 m of jump height; adults' centers of "
        "mass are 11 cm to 22 cm higher, so it may be 0.38 m to 0.49 m",
    )


def test_a_refusal_keeps_its_lengths_for_who_shows_them_in_other_units():
    with pytest.raises(PlanError, match=r"would lie 0\.20 m above the apex: rise more than 0\.50 m") as refusal:
        plan_jump(Goal(0.4, height=0.3, landing_height=0.5))
    assert refusal.value.values == {"over": pytest.approx(0.2), "landing": 0.5}
    assert refusal.value.template.format(**refusal.value.values) == str(refusal.value)


def test_a_refusal_without_values_may_hold_braces():
    refusal = PlanError("the bone {hips} is locked")
    assert str(refusal) == refusal.template.format(**refusal.values) == "the bone {hips} is locked"


def test_the_push_that_a_flight_asks_for_goes_with_the_frames_it_is_drawn_in():
    # 20 cm up and down take 9.69 frames, and 5 cm of push ask for 1.21: drawn in 20, 2.50 frames.
    goal = Goal(0.05, height=0.2, world=World(kind="cat"))
    exact = plan_jump(goal).exact
    said = [str(note) for note in notes_of(goal, exact, timing_of(goal, exact, air=20, push=1))]
    assert any(note.startswith("the flight asks for a push of 2.5 frames, and 1 frame is the nearest") for note in said)
