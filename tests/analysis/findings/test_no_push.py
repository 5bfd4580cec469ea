"""no-push: said when, and only when, a jump has no crouch."""

from tests.analysis.closed_form import Leap, codes, found, pinned
from tests.analysis.findings.one import only


def test_a_fall_has_no_push_and_says_so_in_a_note() -> None:
    jump = pinned(Leap(), crouch=None)
    assert only("no-push", jump).severity == "note"
    assert found(jump) == {"no-push"}


def test_a_jump_with_a_crouch_is_not_told() -> None:
    assert "no-push" not in codes()
