"""air-snappy: said when, and only when, the flight is fast by over a frame and a quarter of g."""

import pytest

from tests.analysis.closed_form import G, Leap, codes, found, keyed
from tests.analysis.findings.one import only


@pytest.mark.parametrize(("ratio", "told"), [(1.0, False), (1.23, False), (1.28, True), (2.0, True)])
def test_a_long_flight_is_snappy_above_five_quarters_of_gravity(ratio: float, told: bool) -> None:
    assert ("air-snappy" in codes(Leap(height=1.0, gravity=ratio * G))) is told


def test_the_same_gravity_is_no_finding_while_it_costs_less_than_a_frame() -> None:
    # 8 cm take 6.13 frames at g and 5.00 at 1.5 g: over a frame less. 5 cm take 4.85 and 3.96: under a frame less.
    assert "air-snappy" not in codes(Leap(height=0.05, gravity=1.5 * G))


def test_a_snappy_jump_whose_push_goes_with_it_is_only_noted() -> None:
    assert codes(Leap(gravity=2.2 * G)) == {"air-snappy"}
    assert only("air-snappy", Leap(gravity=2.2 * G)).severity == "note"


def test_a_snappy_jump_with_a_real_push_is_to_fix() -> None:
    leap = Leap(gravity=2.2 * G, push_stretch=2.2**0.5)
    assert only("air-snappy", leap).severity == "fix"


def test_common_practice_a_snappy_three_with_a_push_of_three_is_only_noted() -> None:
    # Common practice, no source: a jump worth 5 to 6 frames up played in 3, push ratio 1, needs a push of 3.
    jump = keyed((7, 0.75), (10, 1.0), (13, 1.25), (16, 1.0))
    assert found(jump) == {"air-snappy"}
    assert only("air-snappy", jump).severity == "note"
    assert jump.push.expected.value == 3
