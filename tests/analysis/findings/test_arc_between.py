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
    jump = replace(jump, shape=replace(jump.shape, drawn=Departure(share * 0.8513, 15.0)))
    assert ("arc-between" in found(jump)) is told


def test_held_poses_and_a_drawn_flight_have_no_curve_between_keys() -> None:
    assert "arc-between" not in found(keyed(*RIGHT)) | codes()
