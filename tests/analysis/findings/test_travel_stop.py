"""travel-stop: said when, and only when, the body all but stops over the ground in the air."""

import numpy as np
import pytest

from tests.analysis.closed_form import Leap, codes
from tests.analysis.findings.one import only


def pausing(left: float, first: float = 0.4, last: float = 0.7):
    """Return a path at an even speed but for one stretch of the airtime, where a share of the mean is left."""
    slow = left * (last - first)
    fast = (1 - slow) / (1 - (last - first))

    def path(s: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        way = fast * np.clip(s, 0, first) + left * np.clip(s - first, 0, last - first) + fast * np.clip(s - last, 0, 1)
        return 1.5 * way, 0 * way

    return path


@pytest.mark.parametrize(("left", "told"), [(0.25, False), (0.15, True), (0.0, True), (-0.5, True)])
def test_under_a_fifth_of_the_mean_speed_it_stops(left: float, told: bool) -> None:
    # 122.58 cm are 12 frames up and 12 down (frame table), so that the pause holds whole frames.
    assert ("travel-stop" in codes(Leap(height=1.2258, path=pausing(left)))) is told


def test_it_is_told_once_and_with_its_frames() -> None:
    leap = Leap(height=1.2258, path=pausing(0.0))
    finding = only("travel-stop", leap)
    assert "travel-drift" not in codes(leap)
    takeoff = leap.events()[1]
    assert takeoff + 0.4 * 24 - 1 <= finding.frames[0] <= finding.frames[1] <= takeoff + 0.7 * 24 + 1


def test_an_even_travel_never_stops() -> None:
    assert "travel-stop" not in codes(Leap())


def test_slow_in_and_slow_out_is_drift_and_no_stop() -> None:
    leap = Leap(height=1.2258, path=lambda s: (1.5 * s * s * (3 - 2 * s), 0 * s))
    assert codes(leap) & {"travel-drift", "travel-stop"} == {"travel-drift"}


def test_the_mend_gives_the_spacing() -> None:
    # 1.5 m in 24 frames, of which the samples see all but the ends.
    finding = only("travel-stop", Leap(height=1.2258, path=pausing(0.0)))
    assert finding.values["spacing"] == pytest.approx(1.5 / 24.0, rel=0.03)
