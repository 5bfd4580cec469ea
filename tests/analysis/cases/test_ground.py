"""Which bottoms are the ground, and how deep people crouch."""

import pytest
from leapwright.analysis.cases.ground import is_ground, popped_share


def test_a_bottom_is_the_ground_within_a_tenth_of_the_rise() -> None:
    assert [is_ground(bottom, bottom + 0.6) for bottom in (-0.07, -0.05, 0.05, 0.07)] == [False, True, True, False]


PUSHED, STATURE = (0.30, 0.45), 1.75
"""Meters of push distance of standing and squat jumps, from the records of plates.py; a stature in meters."""


def test_a_bottom_as_deep_as_people_crouch_is_more_likely_a_crouch_than_a_stand() -> None:
    # The center of mass stands at 0.556 of the stature (de Leva 1996, J. Biomech. 29:1223, segments stacked straight),
    # and leaves the ground some 8 % higher, on the toes.
    left = 1.08 * 0.556 * STATURE
    assert all(popped_share(left - distance, left) < 0.5 for distance in PUSHED)


@pytest.mark.parametrize(
    ("share", "least", "most"),
    [(-0.3, 0.3, 0.4), (-0.15, 0.5, 0.8),  # under the origin, the ground lies elsewhere
     (-0.1, 0.9, 1.0), (0.0, 0.9, 1.0), (0.1, 0.9, 1.0), (0.2, 0.4, 0.75),  # on it, nothing crouches
     (0.35, 0.15, 0.3), (0.5, 0.15, 0.3), (0.65, 0.15, 0.3), (0.725, 0.4, 0.6),  # as deep as people crouch
     (0.8, 0.7, 0.9), (0.9, 0.7, 0.9), (0.96, 0.45, 0.7), (1.05, 0.3, 0.4)],  # a stand, its own or a ledge's
)  # fmt: skip
def test_how_likely_a_held_bottom_is_a_stand_goes_by_its_height(share: float, least: float, most: float) -> None:
    # Common practice, no source, but for how deep people crouch (above).
    assert least <= popped_share(1.07 * share, 1.07) <= most
    assert popped_share(share, -1.0) == popped_share(-1.0, 1.0)
