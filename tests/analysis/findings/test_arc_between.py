"""arc-between: said of the curve drawn between right keys when it leaves their arc, and of nothing else."""

from dataclasses import replace

import pytest
from leapwright.analysis.measures.arc import Departure

from tests.analysis.closed_form import codes, found, keyed
from tests.analysis.findings.one import only

RIGHT = ((6, 0.7), (10, 1.0), (20, 1.8513), (30, 1.0))
"""85.13 cm up in 10 frames at 24 fps (frame table), over a push of 0.3 m in 4 frames."""


def test_straight_lines_are_told_with_how_far_they_run_from_the_arc() -> None:
    finding = only("arc-between", keyed(*RIGHT, held=False))
    # Half way in time a line has half the height and a parabola three quarters: they differ by a quarter of 0.8513 m.
    assert finding.measured == pytest.approx(0.25 * 0.8513, rel=1e-3)
    assert finding.severity == "check"
    assert finding.message == "The curve leaves the arc of its keys by 0.213 m at frame 15, 25% of the height"


def test_an_eased_curve_is_told() -> None:
    # Eased both ways, s² (3 - 2 s), the rise runs under its parabola, 1 - (1 - s)², by 2 s (1 - s)²: 0.294 at 0.3.
    jump = keyed(*RIGHT, held=False, eased_curve=True)
    assert only("arc-between", jump).measured == pytest.approx(0.294 * 0.8513, rel=1e-3)


@pytest.mark.parametrize(("share", "told"), [(0.05, False), (0.079, False), (0.081, True)])
def test_what_nobody_sees_is_not_told(share: float, told: bool) -> None:
    jump = keyed(*RIGHT)
    jump = replace(jump, shape=replace(jump.shape, drawn=Departure(share * 0.8513, 15.0, 0.0)))
    assert ("arc-between" in found(jump)) is told


@pytest.mark.parametrize(("share", "told"), [(0.089, False), (0.091, True)])
def test_it_is_told_past_the_error_that_whole_frames_leave(share: float, told: bool) -> None:
    jump = keyed(*RIGHT)
    jump = replace(jump, shape=replace(jump.shape, drawn=Departure(share * 0.8513, 15.0, 0.01 * 0.8513)))
    assert ("arc-between" in found(jump)) is told


def test_keys_on_whole_frames_leave_the_arc_open_by_as_much_as_their_times() -> None:
    # Half way up, s is 1/2; an apex or a takeoff that is off by 1/√12 of a frame (JCGM 100:2008, 4.3.7) moves s by half
    # of that over 10 frames, and the depth there, s² of 0.8513 m, by 2 s of it: both together.
    drawn = keyed(*RIGHT, held=False).shape.drawn
    assert drawn.frame == 15.0
    assert drawn.error == pytest.approx(0.8513 * (0.5 / 10.0) / 12**0.5 * 2**0.5, rel=1e-3)
    # At 13, three tenths of the way up, s is 0.7: the apex moves it by 0.3 of a tenth, the takeoff by 0.7 of one.
    eased = keyed(*RIGHT, held=False, eased_curve=True).shape.drawn
    assert eased.frame == 13.0
    assert eased.error == pytest.approx(0.8513 * 2.0 * 0.7 * (0.3**2 + 0.7**2) ** 0.5 / 10.0 / 12**0.5, rel=1e-3)


def test_held_poses_and_a_drawn_flight_have_no_curve_between_keys() -> None:
    assert "arc-between" not in found(keyed(*RIGHT)) | codes()
