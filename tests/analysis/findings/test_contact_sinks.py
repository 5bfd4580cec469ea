"""contact-sinks: said when, and only when, a foot lies deeper in the ground than its band allows."""

from dataclasses import replace

import pytest
from leapwright.analysis import Limits
from leapwright.analysis.findings import contact_sinks

from tests.analysis.closed_form import Leap, found
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


@pytest.mark.parametrize(("below", "sink", "told"), [(2.0, 0.028, False), (2.0, 0.032, True), (0.5, 0.008, True)])
def test_its_band_is_a_share_of_the_height_over_the_feet(below: float, sink: float, told: bool) -> None:
    # 1.5 %: 3 cm of 2 m, and 7.5 mm of half a meter (legs that push no more than a quarter of one).
    jump = walked(Shoes(sink=0.05), Leap(push=0.2, absorb=0.2, height=0.2))
    feet = replace(jump.feet, below=below, noise=0.0, sink=replace(jump.feet.sink, distance=sink))
    assert (contact_sinks.find(replace(jump, feet=feet), Limits()) is not None) is told
