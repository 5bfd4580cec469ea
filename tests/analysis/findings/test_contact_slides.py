"""contact-slides: said when, and only when, a planted foot moves farther than its band allows."""

import pytest

from tests.analysis.closed_form import found
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
    assert finding.measured == pytest.approx(0.10 * 4.5 / 6.0, abs=0.018)
    assert finding.frames[0] == pytest.approx(37.0, abs=1.0)
    assert finding.frames[1] == pytest.approx(42.0, abs=1.0)
    assert finding.mend == f"Keep it where it is at frame {finding.frames[0]:.0f} until {finding.frames[1]:.0f}"
