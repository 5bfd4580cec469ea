"""no-push: said when, and only when, a jump has no crouch."""

from dataclasses import replace

from leapwright.analysis import World
from leapwright.analysis.jump import measure

from tests.analysis.closed_form import Leap, build, codes, found, pinned
from tests.analysis.findings.one import only


def test_a_fall_has_no_push_and_says_so_in_a_note() -> None:
    jump = pinned(Leap(), crouch=None)
    assert only("no-push", jump).severity == "note"
    assert found(jump) == {"no-push"}


def test_a_body_that_rises_from_where_it_stands_is_told_gravely() -> None:
    track, phases = build(Leap())
    popped = only("no-push", measure(track, replace(phases, crouch=None, popped=True), World()))
    assert popped.severity == "check"
    assert "from where it stands" in popped.message and "Key a crouch" in popped.mend


def test_a_jump_with_a_crouch_is_not_told() -> None:
    assert "no-push" not in codes()
