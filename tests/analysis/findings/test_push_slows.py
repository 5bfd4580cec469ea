"""push-slows: said when, and only when, the push shape k is under one half."""

import pytest

from tests.analysis.closed_form import Leap, codes, eased, found, keyed
from tests.analysis.findings.one import only


@pytest.mark.parametrize(("k", "told"), [(0.52, False), (0.48, True), (0.3, True)])
def test_under_one_half_the_body_slowed(k: float, told: bool) -> None:
    # Exact law: k >= 0.5 whenever the speed never exceeds the takeoff speed.
    assert ("push-slows" in codes(Leap(**eased(k)))) is told


def test_beside_a_push_told_too_short_it_is_a_note_on_why() -> None:
    finding = only("push-slows", Leap(**eased(0.4)))
    assert finding.severity == "note"
    assert finding.measured == pytest.approx(0.4)


def test_an_error_that_reaches_one_half_keeps_it_unsaid() -> None:
    assert "push-slows" not in codes(Leap(**eased(0.48), error=0.3))


def test_keyed_poses_have_no_shape() -> None:
    # 8 frames up at 24 fps are 54.48 cm (frame table).
    assert "push-slows" not in found(keyed((17, 0.5), (18, 1.0), (26, 1.5448), (34, 1.0)))


def test_it_says_the_mean_speed_of_the_push() -> None:
    # 0.35 m in 0.8 · 0.35 / v s with v = sqrt(2 g 0.45) = 2.971 m/s: v / 0.8 = 3.71 m/s.
    finding = only("push-slows", Leap(**eased(0.4)))
    assert finding.values["mean"] == pytest.approx(3.714, rel=1e-3)
