"""The landing: the law of the push with time reversed."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from leapwright.analysis import World
from leapwright.analysis.jump import measure
from leapwright.analysis.measures.landing import stops_dead

from tests.analysis.closed_form import Leap, build, measured


@settings(max_examples=40, deadline=None)
@given(height=st.floats(0.2, 2.0), lower=st.floats(-0.1, 2.0), absorb=st.floats(0.1, 0.8))
def test_a_constant_deceleration_takes_the_fall_over_the_absorb_ratio(height, lower, absorb) -> None:
    jump = measured(Leap(height=height, lower=lower, absorb=absorb))
    assert jump.absorb.frames.value == pytest.approx(jump.absorb.expected.value, rel=1e-6)
    assert jump.absorb.ratio.value == pytest.approx((height + lower) / absorb)


@pytest.mark.parametrize(("absorb", "weights"), [(0.300, 3.00), (0.015, 41.0)])
def test_stopping_a_fall_of_sixty_centimeters(absorb: float, weights: float) -> None:
    # OpenStax College Physics 2e, problem 7.52: 0.600 m, stopped in 0.300 m or 1.50 cm: 3.00 and 41.0 weights.
    jump = measured(Leap(height=0.6, absorb=absorb, gravity=9.80), World(gravity=9.80))
    assert jump.absorb.ratio.value + 1 == pytest.approx(weights)


def test_a_landing_shifted_by_its_error_moves_the_ratio_by_its_own() -> None:
    leap = Leap(height=0.6, error=0.1)
    jump = measured(leap)
    # v = sqrt(2 g 0.6) = 3.4305 m/s; 0.1 frame is 14.29 mm; 2 · (1 / 0.6 + 1 / 0.3) of it.
    assert jump.absorb.ratio.error == pytest.approx(2 * 0.014293 * 5.0, rel=1e-3)


def test_a_track_without_an_absorb_has_none_of_its_figures() -> None:
    track, phases = build(Leap())
    jump = measure(track, replace(phases, absorbed=None), World())
    assert jump.absorb is None
    assert not jump.stops_dead


def test_a_lowest_point_level_with_the_landing_has_no_ratio() -> None:
    track, phases = build(Leap())
    level = replace(phases.absorbed, height=phases.landing.height)
    jump = measure(track, replace(phases, absorbed=level), World())
    assert jump.absorb is None


@pytest.mark.parametrize("absorb", [0.2, 0.4])
def test_an_absorb_is_off_by_its_frames_less_those_that_its_fall_asks_for(absorb: float) -> None:
    track, phases = build(Leap(height=0.5, absorb=absorb))
    late = replace(phases, absorbed=replace(phases.absorbed, frame=phases.absorbed.frame + 3.0))
    # The constant deceleration takes what the fall asks for; three frames more are three too many.
    assert measure(track, late, World()).absorb.excess.value == pytest.approx(3.0, abs=1e-6)


def test_an_absorb_is_asked_for_by_the_lower_part_of_a_flight_that_hangs() -> None:
    # Down 0.8513 m in 10 frames after a hang of 6: 0.3 m ask for 10 · 0.3 / 0.8513 = 3.52 frames, 4.58 with half
    # of the hang. Its lower part is read between samples.
    jump = measured(Leap(height=0.8513, rise=10.0, fall=10.0, hang=6.0))
    assert jump.absorb.expected.value == pytest.approx(3.52, rel=0.02)


@pytest.mark.parametrize(
    ("drop", "noise", "off", "dead"),
    [
        # 3 % of the drop, and three times what the samples in the air scatter: 3 cm of a meter, 6 cm of 2 cm's noise
        (1.0, 0.0, 0.028, True),
        (1.0, 0.0, 0.032, False),
        (1.0, 0.02, 0.088, True),
        (1.0, 0.02, 0.092, False),
    ],
)
def test_a_body_that_does_not_give_way_stops_dead(drop: float, noise: float, off: float, dead: bool) -> None:
    track, phases = build(Leap(height=drop, absorb=off))
    flight = replace(measure(track, phases, World()).flight, noise=noise)
    assert stops_dead(track, replace(phases, absorbed=None), flight=flight) is dead
