"""travel-swerve: said when, and only when, the direction over the ground turns in the air too far."""

import math
from dataclasses import replace

import pytest
from leapwright.analysis import Limits
from leapwright.analysis.findings import travel_swerve
from leapwright.analysis.quantity import as_ratio

from tests.analysis.closed_form import Leap, build, codes, measured
from tests.analysis.findings.one import only


def bending(degrees: float, leap: Leap):
    """Return a parabola seen from above that turns by so many degrees between the first and last air sample."""
    _, phases = build(leap)
    seen = (phases.arc.last - phases.arc.first) / (phases.landing.frame - phases.takeoff.frame)
    # Direction atan(c (1 - 2 s)) at constant forward speed; the samples lie about the middle.
    c = math.tan(math.radians(degrees) / 2) / seen
    return lambda s: (s, c * s * (1 - s))


@pytest.mark.parametrize(("degrees", "told"), [(0.0, False), (11.0, False), (13.0, True), (60.0, True)])
def test_twelve_degrees_are_a_swerve(degrees: float, told: bool) -> None:
    leap = Leap(height=1.2258)
    # 122.58 cm are 12 frames up and 12 down (frame table).
    assert ("travel-swerve" in codes(Leap(height=1.2258, path=bending(degrees, leap)))) is told


def test_the_direction_itself_does_not_matter() -> None:
    for angle in range(0, 360, 15):
        c, s = math.cos(math.radians(angle)), math.sin(math.radians(angle))
        assert "travel-swerve" not in codes(Leap(path=lambda t, c=c, s=s: (c * t, s * t)))


def test_across_the_seam_of_the_angles_a_swerve_is_its_own_size() -> None:
    leap = Leap(height=1.2258)
    bend = bending(40.0, leap)

    def backward(t):
        x, y = bend(t)
        return -x, y

    assert only("travel-swerve", Leap(height=1.2258, path=backward)).measured == pytest.approx(40, abs=0.01)


def test_a_jump_in_place_has_no_direction() -> None:
    assert "travel-swerve" not in codes(Leap(path=lambda t: (0.02 * t, 0.02 * t * t)))


@pytest.mark.parametrize(("degrees", "told"), [(15.9, False), (16.1, True)])
def test_the_noise_of_a_turn_is_in_it_already(degrees: float, told: bool) -> None:
    # The band of 12 degrees, 2 that noise makes of itself, and one error of 2 past both.
    jump = measured(Leap(height=0.8))
    course = replace(jump.travel.course, turn=as_ratio(math.radians(degrees), math.radians(2.0)))
    jump = replace(jump, travel=replace(jump.travel, course=course))
    assert (travel_swerve.find(jump, Limits()) is not None) is told
