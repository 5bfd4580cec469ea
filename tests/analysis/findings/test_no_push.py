"""no-push: said when, and only when, a jump has no crouch."""

from dataclasses import replace

from leapwright.analysis import World
from leapwright.analysis.jump import measure
from leapwright.analysis.phases import Unpushed

from tests.analysis.closed_form import Leap, build, codes, found, pinned
from tests.analysis.findings.one import only


def test_a_fall_has_no_push_and_says_so_in_a_note() -> None:
    jump = pinned(Leap(), crouch=None)
    assert only("no-push", jump).severity == "note"
    assert found(jump) == {"no-push"}


def test_a_body_that_rises_from_where_it_stands_is_told_gravely() -> None:
    track, phases = build(Leap())
    popped = only("no-push", measure(track, replace(phases, crouch=None, unpushed=Unpushed.STAND), World()))
    assert popped.severity == "check"
    assert "from where it stands" in popped.message and "Key a crouch" in popped.mend


def test_a_point_that_lies_on_the_ground_is_no_fault_of_the_jump() -> None:
    track, phases = build(Leap(absorb=1e-9, absorb_stretch=1e3))
    assert measure(track, replace(phases, crouch=None, absorbed=None), World()).stops_dead
    there = measure(track, replace(phases, crouch=None, absorbed=None, unpushed=Unpushed.ON_GROUND), World())
    told = only("no-push", there)
    assert told.severity == "note"
    assert "lies on the ground" in told.message and "Follow the hips" in told.mend
    assert not there.stops_dead and there.push is None


def test_a_jump_with_a_crouch_is_not_told() -> None:
    assert "no-push" not in codes()
