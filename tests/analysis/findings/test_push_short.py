"""push-short: said when, and only when, the push is shorter than the flight asks for, past its tolerance."""

import pytest

from tests.analysis.closed_form import Leap, codes, eased, keyed
from tests.analysis.findings.one import only


@pytest.mark.parametrize(("k", "told"), [(1.0, False), (0.78, False), (0.76, False), (0.72, True), (0.55, True)])
def test_a_short_push_is_told_past_what_people_do(k: float, told: bool) -> None:
    # 0.78 is the shortest of five recorded pushes (plate records, BMC laboratory, CC BY 4.0); 0.85 less 0.10 is 0.75.
    assert ("push-short" in codes(Leap(fps=60.0, **eased(k)))) is told


@pytest.mark.parametrize(("short", "told"), [(1.35, False), (1.5, True)])
def test_a_push_of_few_frames_may_be_off_by_one(short: float, told: bool) -> None:
    # 0.6 m over 0.2 m: rise 8.40 frames, R = 3, push 2.80; 0.85 of it is 2.38, a frame less 1.38.
    push = 2.7985
    assert ("push-short" in codes(Leap(height=0.6, push=0.2, push_stretch=(push - short) / push))) is told


def test_past_half_it_is_to_fix() -> None:
    assert only("push-short", Leap(push_stretch=0.6)).severity == "check"
    assert only("push-short", Leap(push_stretch=0.45)).severity == "fix"


def test_it_says_what_the_push_lasts_and_what_is_asked() -> None:
    # Rise 8 at 54.48 cm (frame table), R = 1: the flight asks for 8; the push lasts 3.
    jump = keyed((15, 1.0 - 0.5448), (18, 1.0), (26, 1.5448), (34, 1.0))
    finding = only("push-short", jump)
    assert finding.message == "The push lasts 3 frames, the flight asks for 6.8 to 8"
