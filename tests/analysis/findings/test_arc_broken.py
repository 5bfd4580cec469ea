"""arc-broken: said when, and only when, the path leaves its parabola by more than its tolerance."""

from dataclasses import replace

import numpy as np
import pytest
from leapwright.analysis import Limits
from leapwright.analysis.findings import arc_broken

from tests.analysis.closed_form import Leap, build, codes, measured
from tests.analysis.findings.one import only


def _wave(size: float):
    """Return a wave of three half turns: no parabola follows it, and it neither hangs nor skews."""
    return lambda s: size * np.sin(4 * np.pi * s)


@pytest.mark.parametrize(("share", "told"), [(0.03, False), (0.06, True)])
def test_four_hundredths_of_the_height_off_the_arc_is_told(share: float, told: bool) -> None:
    leap = Leap(height=1.2258, bend=_wave(share * 1.2258))
    assert ("arc-broken" in codes(leap)) is told


def test_it_names_the_frames() -> None:
    leap = Leap(height=1.2258, bend=lambda s: np.where(np.abs(s - 0.3) < 0.06, -0.12, 0.0))
    finding = only("arc-broken", leap)
    _, phases = build(leap)
    at = phases.takeoff.frame + 0.3 * (phases.landing.frame - phases.takeoff.frame)
    assert finding.frames[0] - 0.5 <= at <= finding.frames[1] + 0.5
    assert finding.frames[1] - finding.frames[0] <= 3


def test_one_frame_is_named_alone() -> None:
    finding = only("arc-broken", Leap(height=1.2258, bend=lambda s: np.where(np.abs(s - 0.3) < 0.02, -0.12, 0.0)))
    first, last = finding.frames
    assert first == last
    assert finding.message.endswith(f" m at frame {first:g}") and finding.mend.startswith(f"Put frame {first:g} back")


def test_a_hang_is_told_as_a_hang_only() -> None:
    told = codes(Leap(height=0.8513, rise=10.0, fall=10.0, hang=8.0))
    assert "arc-hang" in told
    assert "arc-broken" not in told


@pytest.mark.parametrize("seed", range(20))
def test_noise_is_not_a_break(seed: int) -> None:
    assert "arc-broken" not in codes(Leap(height=0.5, fps=60, noise=0.006, seed=seed))


def test_noise_is_known_from_the_samples() -> None:
    noises = [measured(Leap(height=0.5, fps=60, noise=0.004, seed=seed)).flight.noise for seed in range(40)]
    assert np.median(noises) == pytest.approx(0.004, rel=0.25)


@pytest.mark.parametrize(("worst", "told"), [(0.068, False), (0.072, True)])
def test_the_noise_of_its_samples_widens_the_band(worst: float, told: bool) -> None:
    # 4 % of a meter and three times a noise of 1 cm.
    jump = measured(Leap(height=1.0))
    shape = replace(jump.shape, residual=replace(jump.shape.residual, worst=worst))
    jump = replace(jump, shape=shape, flight=replace(jump.flight, noise=0.01))
    assert (arc_broken.find(jump, Limits()) is not None) is told
