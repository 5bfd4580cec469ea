"""contact-slides: said when, and only when, a planted foot moves farther than its band allows."""

from dataclasses import replace

import pytest
from leapwright.analysis import Limits
from leapwright.analysis.findings import contact_slides

from tests.analysis.closed_form import Leap, found
from tests.analysis.findings.one import only
from tests.analysis.shod import Shoes, walked


@pytest.mark.parametrize(("slide", "told"), [(0.0, False), (0.015, False), (0.05, True)])
def test_a_slide_after_the_landing(slide: float, told: bool) -> None:
    # The body is 1 m over its feet at takeoff: 2 cm are its band.
    assert ("contact-slides" in found(walked(Shoes(slide=slide)))) is told


@pytest.mark.parametrize(("slide", "told"), [(0.02, False), (0.05, True)])
def test_a_slide_in_the_push(slide: float, told: bool) -> None:
    assert ("contact-slides" in found(walked(Shoes(push_slide=slide)))) is told


def test_noise_is_no_slide() -> None:
    assert "contact-slides" not in found(walked(Shoes(noise=0.006)))


def test_it_says_how_far_and_when() -> None:
    # It lands at 35.5 and slides for six frames. The foot is flat from 37 on, so that 0.10 (41.5 - 37) / 6 of it is
    # seen.
    finding = only("contact-slides", walked(Shoes(slide=0.10)))
    assert finding.measured == pytest.approx(0.10 * 4.5 / 6.0, rel=1e-3)
    assert finding.frames == pytest.approx((37.0, 42.0))
    assert finding.mend == f"Keep it where it is at frame {finding.frames[0]:.0f} until {finding.frames[1]:.0f}"


@pytest.mark.parametrize(
    ("below", "noise", "slide", "told"),
    [
        # 2 % of the height over the feet: 4 cm of 2 m, 1 cm of half a meter.
        (2.0, 0.0, 0.038, False), (2.0, 0.0, 0.042, True), (0.5, 0.0, 0.012, True),
        # Two places lie sqrt(2) of their noise apart: 2 cm and 1.5 cm of noise are 4.12 and 4.24 cm, in one error past
        # the band and in two.
        (1.0, 0.015, 0.042, False), (1.0, 0.015, 0.044, True),
    ],
)  # fmt: skip
def test_its_band_is_a_share_of_the_height_over_the_feet_and_their_noise(
    below: float, noise: float, slide: float, told: bool
) -> None:
    jump = walked(Shoes(slide=0.1), Leap(push=0.2, absorb=0.2, height=0.2))
    feet = replace(jump.feet, below=below, noise=noise, slide=replace(jump.feet.slide, distance=slide))
    assert (contact_slides.find(replace(jump, feet=feet), Limits()) is not None) is told
