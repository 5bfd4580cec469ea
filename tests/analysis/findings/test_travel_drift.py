"""travel-drift: said when, and only when, the horizontal speed changes in the air past its tolerance."""

from dataclasses import replace

import pytest
from leapwright.analysis import Followed, Limits
from leapwright.analysis.findings import travel_drift
from leapwright.analysis.quantity import as_ratio

from tests.analysis.closed_form import Leap, build, codes, found, keyed, measured
from tests.analysis.findings.one import only


def slowing(spread: float, distance: float = 0.8):
    """Return a path whose speed falls evenly by a share of its mean over the flight."""
    return lambda s: (distance * (s * (1 + spread / 2) - spread / 2 * s * s), 0 * s)


def _seen(leap: Leap) -> float:
    """Return the share of the airtime that the samples span: the ends themselves are not seen."""
    _, phases = build(leap)
    return (phases.arc.last - phases.arc.first) / (phases.landing.frame - phases.takeoff.frame)


@pytest.mark.parametrize(("spread", "told"), [(0.0, False), (0.28, False), (0.32, True), (-0.32, True), (0.8, True)])
def test_a_root_may_change_by_three_tenths(spread: float, told: bool) -> None:
    # The band is ours, twice a center of mass's; one recorded jump's hips change by 28 to 51 % (truth/test_travel).
    leap = Leap(height=0.8)
    leap = Leap(height=0.8, path=slowing(spread / _seen(leap)), follows=Followed.BODY)
    assert ("travel-drift" in codes(leap)) is told


@pytest.mark.parametrize(("spread", "told"), [(0.13, False), (0.17, True)])
def test_a_center_of_mass_may_change_by_half_of_that(spread: float, told: bool) -> None:
    # That of one recorded jump keeps within 4 % (tests/truth/test_travel).
    leap = Leap(height=0.8, path=slowing(spread / _seen(Leap(height=0.8))))
    assert ("travel-drift" in codes(leap)) is told


def test_a_jump_in_place_has_no_travel_to_drift() -> None:
    assert "travel-drift" not in codes(Leap(path=slowing(0.9, distance=0.04)))
    assert "travel-drift" not in codes(Leap(distance=0.0))


def test_the_mend_gives_the_spacing() -> None:
    finding = only("travel-drift", Leap(height=1.2258, path=slowing(0.6, distance=2.4)))
    # 122.58 cm are 12 frames up and 12 down (frame table): 2.4 m in 24 frames.
    # The samples end short of both ends.
    assert finding.values["spacing"] == pytest.approx(0.1, rel=0.01)


def test_an_eased_block_is_not_told_of_its_easing() -> None:
    jump = keyed((4, 0.7), (10, 1.0), (17, 1.417), (24, 1.0), held=False, eased_curve=True)
    assert jump.travel.course is None
    assert not {code for code in found(jump) if code.startswith("travel")}


@pytest.mark.parametrize("seed", range(20))
def test_noise_is_no_drift(seed: int) -> None:
    assert "travel-drift" not in codes(Leap(height=0.5, fps=60, noise=0.006, seed=seed, distance=1.0))


@pytest.mark.parametrize(("spread", "told"), [(0.225, False), (0.235, True)])
def test_the_noise_of_a_spread_is_in_it_already(spread: float, told: bool) -> None:
    # The band of 0.15, 0.04 that noise makes of itself, and one error of 0.04 past both.
    jump = measured(Leap(height=0.8))
    course = replace(jump.travel.course, spread=as_ratio(spread, 0.04))
    jump = replace(jump, travel=replace(jump.travel, course=course))
    assert (travel_drift.find(jump, Limits()) is not None) is told
