"""arc-hang: said when, and only when, too much of the airtime passes near the top."""

import pytest

from tests.analysis.closed_form import Leap, codes
from tests.analysis.findings.one import only


@pytest.mark.parametrize(("share", "told"), [(0.5, False), (0.58, False), (0.62, True), (0.75, True)])
def test_a_tenth_of_the_airtime_too_long_near_the_top_is_a_hang(share: float, told: bool) -> None:
    # A hang of x in a flight of T frames gives the share ½ + x / 2 T: x = T0 (2 s - 1) / (2 - 2 s).
    rise = 10.0
    hang = 2 * rise * (2 * share - 1) / (2 - 2 * share)
    assert ("arc-hang" in codes(Leap(height=0.8513, rise=rise, fall=rise, hang=hang))) is told


def test_the_mend_takes_the_hang_out_in_whole_frames() -> None:
    finding = only("arc-hang", Leap(height=0.8513, rise=10.0, fall=10.0, hang=6.0))
    assert finding.mend.startswith("Take 6 frames out around frame ")
    # (½ · 20 + 6) / 26
    assert finding.measured == pytest.approx(16 / 26, abs=0.01)


def test_a_landing_below_the_takeoff_is_no_hang() -> None:
    assert "arc-hang" not in codes(Leap(lower=1.5))


def test_a_floaty_flight_is_no_hang() -> None:
    assert "arc-hang" not in codes(Leap(gravity=3.0))


def test_it_names_the_frames_near_the_top_and_how_far_over_its_arc_it_stays() -> None:
    # 10 frames up 0.8513 m fall at g: 16 of 26 frames pass in the top quarter, 8 to each side of the apex. Without the
    # 6 of its hang it would have fallen g (3 / 24)² / 2 = 0.0766 m by their ends.
    leap = Leap(height=0.8513, rise=10.0, fall=10.0, hang=6.0)
    finding = only("arc-hang", leap)
    apex = leap.events()[2]
    assert finding.frames == pytest.approx((apex - 8.0, apex + 8.0), abs=0.25)
    assert finding.values["off"] == pytest.approx(0.0766, rel=0.1)
