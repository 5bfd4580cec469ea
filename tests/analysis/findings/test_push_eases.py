"""push-eases: said when, and only when, the push shape k reaches one and a half."""

from dataclasses import replace

import pytest
from leapwright.analysis import Limits
from leapwright.analysis.findings import push_eases

from tests.analysis.closed_form import Leap, codes, eased, measured
from tests.analysis.findings.one import only


@pytest.mark.parametrize(("k", "told"), [(1.0, False), (1.47, False), (1.53, True), (2.0, True)])
def test_from_a_cubic_ease_in_on_the_push_dwells(k: float, told: bool) -> None:
    # k of a cubic ease-in is 1.5: half the end slope of s³.
    assert ("push-eases" in codes(Leap(**eased(k)))) is told


def test_it_is_a_note() -> None:
    assert only("push-eases", Leap(shape=lambda s: s**4, slope=4.0)).severity == "note"


@pytest.mark.parametrize(("error", "told"), [(0.09, True), (0.11, False)])
def test_a_shape_known_too_loosely_is_not_told(error: float, told: bool) -> None:
    jump = measured(Leap(**eased(1.6)))
    jump = replace(jump, push=replace(jump.push, shape=replace(jump.push.shape, error=error)))
    assert (push_eases.find(jump, Limits()) is not None) is told


def test_its_mend_holds_until_a_steady_push_begins() -> None:
    # 0.45 m up take 7.27 frames, 0.35 m of push 7.27 · 0.35 / 0.45 = 5.65: twice as many end at 15.3 + 11.31 = 26.61,
    # and a steady push begins at 20.95.
    jump = measured(Leap(**eased(2.0)))
    assert push_eases.find(jump, Limits()).values["start"] == 21
