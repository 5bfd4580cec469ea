"""landing-mushy: said when, and only when, a landing sinks for more than twice what its fall asks for."""

import pytest

from tests.analysis.closed_form import Leap, codes, keyed
from tests.analysis.findings.one import only


@pytest.mark.parametrize(("stretch", "told"), [(1.21, False), (1.95, False), (2.05, True), (4.0, True)])
def test_past_twice_its_frames_it_is_mushy(stretch: float, told: bool) -> None:
    # Recorded landings take up to 1.21 of fall frames / absorb ratio (plate records, BMC laboratory).
    assert ("landing-mushy" in codes(Leap(absorb_stretch=stretch))) is told


@pytest.mark.parametrize(("over", "told"), [(1.9, False), (2.1, True)])
def test_a_landing_of_a_frame_or_two_may_be_off_by_one_at_each_end(over: float, told: bool) -> None:
    # 0.45 m drop into 0.08 m: fall 7.27 frames, ratio 5.6, 1.29 frames asked.
    asked = 7.2705 * 0.08 / 0.45
    assert ("landing-mushy" in codes(Leap(absorb=0.08, absorb_stretch=(asked + over) / asked))) is told


def test_the_mend_names_the_frame_of_the_lowest_pose() -> None:
    # Fall 12 frames over 1.2258 m, ratio 2: 6 frames asked, 16 taken.
    jump = keyed((8, 0.4), (10, 1.0), (22, 2.2258), (34, 1.0), (50, 1.0 - 0.6129))
    assert only("landing-mushy", jump).mend.startswith("Move the lowest pose from 50 to 40")
