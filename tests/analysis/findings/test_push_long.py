"""push-long: said when, and only when, the push is longer than the flight asks for, past its tolerance."""

import numpy as np
import pytest
from leapwright.analysis import Followed

from tests.analysis.closed_form import Leap, codes, eased, found, keyed, measured
from tests.analysis.findings.one import only


@pytest.mark.parametrize(("k", "told"), [(0.8, False), (1.0, False), (1.22, False), (1.28, True), (1.6, True)])
def test_a_long_push_is_told_past_a_quarter(k: float, told: bool) -> None:
    # push frames = k · rise / R; at 0.45 m over 0.35 m they are 5.65 k, so a quarter is more than a frame.
    assert ("push-long" in codes(Leap(**eased(k)))) is told


@pytest.mark.parametrize(("over", "told"), [(0.9, False), (1.1, True)])
def test_a_push_of_few_frames_may_be_off_by_one(over: float, told: bool) -> None:
    # 0.5 m over 0.15 m: rise 7.66 frames, R = 3.33, push 2.30; a quarter of it is 0.57 of a frame.
    push = 2.299
    assert ("push-long" in codes(Leap(height=0.5, push=0.15, push_stretch=(push + over) / push))) is told


def test_past_half_it_is_to_fix() -> None:
    assert only("push-long", Leap(push_stretch=1.4)).severity == "check"
    assert only("push-long", Leap(push_stretch=1.6)).severity == "fix"


def test_errors_that_explain_it_keep_it_unsaid() -> None:
    leap = Leap(push_stretch=1.4)
    assert "push-long" in codes(leap)
    # 2.26 frames too long; an event error of 1 makes that ± sqrt((1 + 1/R)² + 1/R² + 1) = ± 2.2.
    assert "push-long" not in codes(Leap(push_stretch=1.4, error=1.0))


def test_it_says_what_the_push_lasts_and_what_is_asked() -> None:
    # Rise 6, R = 2: the flight asks for 3. The push lasts 6.
    jump = keyed((12, 0.8468), (18, 1.0), (24, 1.3065), (30, 1.0))
    finding = only("push-long", jump)
    assert finding.message == "The push lasts 6 frames, the flight asks for 2.5 to 3"


def test_a_style_carried_over_is_not_told() -> None:
    # Everything at half its pace: gravity a quarter, all times double.
    assert "push-long" not in codes(Leap(gravity=9.80665 / 4))


def test_no_push_has_no_length() -> None:
    assert not found(keyed(None, (18, 1.0), (24, 1.3), (30, 1.0))) & {"push-long", "push-short"}
    assert measured().push.excess.value == pytest.approx(0, abs=1e-9)


def test_hips_that_fly_on_their_arc_are_told_as_any_point() -> None:
    assert only("push-long", Leap(push_stretch=1.6, follows=Followed.BODY)).severity == "fix"


@pytest.mark.parametrize(("stretch", "severity"), [(1.4, "note"), (2.0, "fix")])
def test_hips_off_their_arc_are_told_past_what_limbs_explain(stretch: float, severity: str) -> None:
    # Legs that kick move the hips by 1.5 cm against the center of mass. By takeoff arms may have lifted that center by
    # 5.8 cm more than the hips: (0.35 + 0.058) / (0.45 - 0.058) asks for 1.34 times the frames of 0.35 / 0.45. A
    # quarter more is allowed, so 1.67 in all.
    kicking = Leap(push_stretch=stretch, follows=Followed.BODY, bend=lambda s: 0.015 * np.sin(3 * np.pi * s))
    finding = only("push-long", kicking)
    assert finding.severity == severity
    assert ("so follow that to be sure" in finding.mend) == (severity == "note")
