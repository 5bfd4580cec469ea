"""Retimings of seeded shots end as forecast, leave no jump worse, and are undone to the last bit."""

import pytest

from tests.addon.round_trip import KEEPS, round_trip

SHOTS = 30
"""Number of shots, each retimed in four ways; `make retimings` runs others."""
LEAST_MOVED = 0.5
"""Share of the retimings that move keys: with fewer, little would be tested."""


@pytest.fixture(scope="module")
def trips(leapwright_registered):
    return [round_trip(seed, way) for seed in range(SHOTS) for way in range(len(KEEPS))]


def test_every_retiming_ends_as_forecast_no_worse_and_can_be_undone(trips):
    assert [(trip.said, trip.faults) for trip in trips if trip.faults] == []


def test_most_shots_can_be_retimed(trips):
    ends = [trip.end for trip in trips]
    assert ends.count("moved") > LEAST_MOVED * len(ends)
