"""contact-sinks: said when, and only when, a foot lies deeper in the ground than its band allows."""

import pytest

from tests.analysis.closed_form import found
from tests.analysis.findings.one import only
from tests.analysis.shod import Shoes, walked


@pytest.mark.parametrize("ground", [None, 0.0])
@pytest.mark.parametrize(("sink", "told"), [(0.0, False), (0.012, False), (0.03, True), (0.2, True)])
def test_a_foot_that_goes_into_the_ground(sink: float, told: bool, ground: float | None) -> None:
    # The body is 1 m over its feet at takeoff: 1.5 cm are its band.
    assert ("contact-sinks" in found(walked(Shoes(sink=sink, ground=ground)))) is told


def test_noise_is_no_sinking() -> None:
    assert "contact-sinks" not in found(walked(Shoes(noise=0.006)))


def test_it_says_how_deep_and_when() -> None:
    finding = only("contact-sinks", walked(Shoes(sink=0.08)))
    assert finding.measured == pytest.approx(0.08, abs=1e-9)
    assert finding.message == "A foot sinks 0.080 m into the ground"
    first, last = finding.frames
    assert finding.mend == f"Raise it by 0.080 m from frame {first:.0f} to {last:.0f}"
    assert (first, last) == (36.0, 38.0)
