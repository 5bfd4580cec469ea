"""contact-late: said when, and only when, feet leave or touch more than a frame too late."""

import pytest

from tests.analysis.closed_form import found
from tests.analysis.findings.one import only
from tests.analysis.shod import Shoes, walked


@pytest.mark.parametrize(("late", "told"), [(0.5, False), (0.0, False), (1.8, True), (4.0, True), (-3.0, False)])
def test_feet_that_stay_while_the_body_flies(late: float, told: bool) -> None:
    assert ("contact-late" in found(walked(Shoes(off=late)))) is told


@pytest.mark.parametrize(("late", "told"), [(0.5, False), (0.0, False), (1.8, True), (4.0, True), (-3.0, False)])
def test_feet_that_hover_while_the_body_lands(late: float, told: bool) -> None:
    assert ("contact-late" in found(walked(Shoes(on=late)))) is told


def test_it_says_by_how_much_and_where_they_belong() -> None:
    finding = only("contact-late", walked(Shoes(off=3.0)))
    assert finding.measured == pytest.approx(3.0, abs=0.2)
    assert finding.mend == "Take them off at 21"
    assert only("contact-late", walked(Shoes(on=2.5))).mend == "Plant them at 35"


def test_early_at_one_end_and_late_at_the_other_are_two_findings() -> None:
    assert {"contact-early", "contact-late"} <= found(walked(Shoes(off=-2.5, on=2.5)))
