"""push-eases: said when, and only when, the push shape k reaches one and a half."""

import pytest

from tests.analysis.closed_form import Leap, codes, eased
from tests.analysis.findings.one import only


@pytest.mark.parametrize(("k", "told"), [(1.0, False), (1.47, False), (1.53, True), (2.0, True)])
def test_from_a_cubic_ease_in_on_the_push_dwells(k: float, told: bool) -> None:
    # k of a cubic ease-in is 1.5: half the end slope of s³.
    assert ("push-eases" in codes(Leap(**eased(k)))) is told


def test_it_is_a_note() -> None:
    assert only("push-eases", Leap(shape=lambda s: s**4, slope=4.0)).severity == "note"
