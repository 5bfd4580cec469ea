"""arc-skew: said when, and only when, the apex lies away from where its two heights put it."""

import pytest

from tests.analysis.closed_form import Leap, codes, found, keyed
from tests.analysis.findings.one import only


@pytest.mark.parametrize(("skew", "told"), [(0.0, False), (0.14, False), (0.16, True), (-0.14, False), (-0.16, True)])
def test_an_apex_off_by_fifteen_hundredths_of_the_airtime_is_told(skew: float, told: bool) -> None:
    # Equal heights: the apex belongs in the middle, rise = (½ + skew) T.
    total = 24.0
    leap = Leap(height=1.2258, rise=(0.5 + skew) * total, fall=(0.5 - skew) * total)
    assert ("arc-skew" in codes(leap)) is told


def test_a_landing_far_below_has_its_apex_early_and_right() -> None:
    assert "arc-skew" not in codes(Leap(height=0.2, lower=1.6))


def test_among_keyed_poses_the_apex_key_is_moved() -> None:
    jump = keyed((8, 0.6), (10, 1.0), (16, 1.8513), (30, 1.0))
    finding = only("arc-skew", jump)
    assert finding.mend == "Move the apex key to 20 (exact)"
    assert finding.message.startswith("The apex comes 4 frames early")


def test_a_keyed_apex_one_frame_off_is_rounding() -> None:
    assert "arc-skew" not in found(keyed((8, 0.9), (10, 1.0), (12, 1.05), (16, 1.0)))
