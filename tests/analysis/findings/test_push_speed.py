"""push-speed: said when, and only when, the push ends at another speed than the flight begins with."""

from dataclasses import replace

import numpy as np
import pytest
from leapwright.analysis import Limits
from leapwright.analysis.findings import push_speed

from tests.analysis.closed_form import Leap, codes, eased, found, keyed, measured
from tests.analysis.findings.one import only


@pytest.mark.parametrize(("jump", "told"), [(1.2, False), (1.45, True), (0.8, False), (0.7, True)])
def test_a_quarter_of_the_speed_is_too_much(jump: float, told: bool) -> None:
    # A constant-force push over the same distance in 1 / jump of the time ends at jump times the speed. A speed that is
    # too high is told a tenth later, since the push may fade in its last 30 ms, as recorded ones do.
    leap = Leap(height=0.8, push=0.6, fps=60, push_stretch=1 / jump)
    assert ("push-speed" in codes(leap)) is told


def test_a_push_that_fades_in_its_last_moment_is_not_told() -> None:
    # Constant force until 25 ms before takeoff, then none at all: the body slows under its own weight.
    # Recorded pushes peak 22 to 27 ms before takeoff and lose 5 to 8 % of their speed (plate records).
    speed, g, fade = 2.8, 9.80665, 0.025
    peak = speed + g * fade
    seconds = 0.25
    rise = peak * (seconds - fade) / 2
    push = rise + (peak + speed) / 2 * fade

    def shape(s: np.ndarray) -> np.ndarray:
        t = s * seconds
        late = np.maximum(t - (seconds - fade), 0)
        early = rise * (np.minimum(t, seconds - fade) / (seconds - fade)) ** 2
        return (early + peak * late - g * late**2 / 2) / push

    for fps in (24, 30, 60):
        leap = Leap(height=speed**2 / 2 / g, push=push, fps=fps, shape=shape, slope=speed * seconds / push)
        jump = measured(leap)
        assert jump.push.end is not None
        assert "push-speed" not in found(jump)


@pytest.mark.parametrize("k", [0.6, 0.78, 0.9, 1.02, 1.4])
def test_a_push_of_any_shape_that_runs_on_into_the_flight_is_not_told(k: float) -> None:
    assert "push-speed" not in codes(Leap(height=0.8, push=0.6, **eased(k)))


def test_the_two_speeds_are_named() -> None:
    finding = only("push-speed", Leap(height=0.8, push=0.6, fps=60, push_stretch=0.7))
    # v = sqrt(2 · 9.80665 · 0.8) = 3.961 m/s
    assert finding.expected == pytest.approx(3.961, abs=1e-3)
    assert finding.measured == pytest.approx(3.961 / 0.7, rel=0.1)


def test_noise_that_explains_it_keeps_it_unsaid() -> None:
    assert "push-speed" not in codes(Leap(height=0.8, push=0.6, fps=60, push_stretch=1 / 1.5, noise=0.03, seed=3))


def test_keyed_poses_have_no_speed() -> None:
    # 8 frames up at 24 fps are 54.48 cm (frame table).
    assert keyed((10, 0.6), (18, 1.0), (26, 1.5448), (34, 1.0)).push.end is None


@pytest.mark.parametrize(("share", "told"), [(-0.26, True), (-0.24, False), (0.24, False), (0.26, True)])
def test_the_gap_is_held_against_a_quarter_of_the_flights_speed(share: float, told: bool) -> None:
    jump = measured(Leap(height=0.8, push=0.6, fps=60))
    gap = replace(jump.push.end.gap, value=share * jump.flight.takeoff_speed, error=0.0)
    jump = replace(jump, push=replace(jump.push, end=replace(jump.push.end, gap=gap)))
    assert (push_speed.find(jump, Limits()) is not None) is told
