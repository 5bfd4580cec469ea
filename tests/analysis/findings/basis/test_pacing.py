"""How far off its arc a floaty or snappy flight runs, against what limbs move hips: meters worked out by hand."""

import pytest
from leapwright.analysis import Followed, Limits
from leapwright.analysis.findings import air_floaty, air_snappy

from tests.analysis.closed_form import G, Leap, measured

LIMBS = 0.097
"""Meters that limbs move a person's hips at most: a tenth of 0.97 m."""


@pytest.mark.parametrize(
    ("height", "off"),
    # Half as heavy, a flight of T seconds on level ground rises g T² / 16, where the world's would rise g T² / 8: as
    # much again.
    [(0.09, 0.09), (0.105, 0.105)],
)
def test_a_floaty_flight_is_as_far_off_as_the_world_would_rise_higher(height: float, off: float) -> None:
    jump = measured(Leap(height=height, push=0.3, absorb=0.2, gravity=0.5 * G, follows=Followed.BODY))
    assert (air_floaty.find(jump, Limits()).limbs is not None) is (off < LIMBS)


@pytest.mark.parametrize(("ratio", "higher"), [(0.75, 0.0829), (0.7, 0.1069)])
def test_it_keeps_its_landing_where_it_is(ratio: float, higher: float) -> None:
    # Up 0.15 m and down 0.4 m take T = (sqrt(0.15) + sqrt(0.4)) sqrt(2 / ratio g): 0.532 and 0.550 s. To land 0.25 m
    # lower in T at g, v = g T / 2 - 0.25 / T = 2.137 and 2.245 m/s, and it rises v² / 2 g - 0.15 m higher. On level
    # ground that would be 0.197 and 0.221 m.
    jump = measured(Leap(height=0.15, lower=0.25, gravity=ratio * G, follows=Followed.BODY))
    assert (air_floaty.find(jump, Limits()).limbs is not None) is (higher < LIMBS)


@pytest.mark.parametrize(("scale", "limbs"), [(0.3, True), (0.36, False)])
def test_one_that_the_world_cannot_land_is_off_by_the_middle_of_its_chord(scale: float, limbs: bool) -> None:
    # Three times as heavy it lands 0.9 of its height up, after T = sqrt(2 h / 3 g) (1 + sqrt(0.1)): g would have it
    # land while rising. Between the same ends both parabolas stand g T² / 8 and 3 g T² / 8 over the chord: 2 g T² / 8 =
    # h (1 + sqrt(0.1))² / 6 = 0.2887 h apart, 0.0866 and 0.1039 m.
    assert (0.2887 * scale < LIMBS) is limbs
    jump = measured(Leap(height=scale, lower=-0.9 * scale, gravity=3.0 * G, follows=Followed.BODY, fps=60.0))
    assert (air_snappy.find(jump, Limits()).limbs is not None) is limbs
