"""air-floaty: said when, and only when, the flight is slow by over a frame and a quarter of g."""

import pytest
from leapwright.analysis import World

from tests.analysis.closed_form import G, Leap, codes, found, keyed, measured
from tests.analysis.findings.one import only


@pytest.mark.parametrize(("ratio", "told"), [(1.0, False), (0.82, False), (0.78, True), (0.5, True)])
def test_a_long_flight_floats_below_four_fifths_of_gravity(ratio: float, told: bool) -> None:
    # 1 / 0.8 = 1.25: the band of a quarter, told in either direction; 16 air frames need no wider one.
    assert ("air-floaty" in codes(Leap(height=0.6, gravity=ratio * G))) is told


@pytest.mark.parametrize(("ratio", "told"), [(0.68, False), (0.58, True)])
def test_a_short_flight_has_the_wider_band_of_rounding(ratio: float, told: bool) -> None:
    # With n frames in the air the band is 2 / n. A hop of 3 cm has n = 4.55 and 4.93, 1 / ratio = 1.47 and 1.72, and
    # bands to 1.44 and 1.41. But 4.55 frames are only 0.8 more than the 3.75 at g, while 4.93 are 1.2 more.
    leap = Leap(height=0.03, push=0.03, absorb=0.03, gravity=ratio * G)
    assert ("air-floaty" in codes(leap)) is told


def test_one_frame_too_many_is_rounding() -> None:
    # A jump of 7.66 cm has 6 frames in the air at 24 fps. Keyed in 7, its gravity reads (6/7)² = 0.73: that is
    # rounding.
    assert not found(keyed((9, 0.95), (10, 1.0), (13, 1.0766), (17, 1.0))) & {"air-floaty", "air-snappy"}


def test_a_floaty_jump_whose_push_goes_with_it_is_only_noted() -> None:
    finding = only("air-floaty", Leap(gravity=0.4 * G))
    assert finding.severity == "note"
    assert codes(Leap(gravity=0.4 * G)) == {"air-floaty"}
    assert finding.mend.startswith("Leave it, if the style is meant")


def test_a_floaty_jump_with_a_real_push_is_to_fix_and_a_milder_one_to_check() -> None:
    # A push of 0.4 g stretched by sqrt(0.4) lasts as long as one at g.
    assert only("air-floaty", Leap(gravity=0.4 * G, push_stretch=0.4**0.5)).severity == "fix"
    assert only("air-floaty", Leap(gravity=0.7 * G, push_stretch=0.5)).severity == "check"


def test_a_floaty_fall_without_a_push_is_to_check() -> None:
    jump = keyed(None, (10, 1.0), (22, 1.5), (34, 1.0))
    assert only("air-floaty", jump).severity == "check"


def test_on_the_moon_a_moon_jump_is_real() -> None:
    assert "air-floaty" not in found(measured(Leap(gravity=1.62), World(gravity=1.62)))
