"""The parabola as a witness: that of a flight reaches the fastest rise and fall beside it, that of a bob does not."""

import numpy as np
import pytest
from leapwright.analysis import Track
from leapwright.analysis.events.weights import nats
from leapwright.analysis.events.witnesses import parabola

from tests.analysis.events.heard import only_case
from tests.truth.worked import Worked

G = 9.80665


def level(heights: np.ndarray, *, fps: float = 24.0) -> Track:
    positions = np.stack((0 * heights, 0 * heights, heights), axis=1)
    return Track("Moss", fps, np.arange(len(heights), dtype=float), positions)


def test_a_jump_is_exact_at_full_strength_and_its_contacts_are_read() -> None:
    track, truth = Worked(height=0.5, push=0.4, gravity=G).track(fps=24.0, phase=0.3)
    case = only_case(track)
    assert parabola.strength(case, case.flight) == 1.0
    assert "exact" in parabola.seen(case)
    said = parabola.hear(case)
    assert said.takeoff[0].frame == pytest.approx(truth["takeoff"], abs=0.02)
    assert said.landing[0].frame == pytest.approx(truth["landing"], abs=0.02)
    assert said.nats > 5.0


@pytest.mark.parametrize("seconds", [0.8, 1.2, 2.0])
def test_a_bob_has_no_parabola_to_its_fastest_and_speaks_against_a_flight(seconds: float) -> None:
    # A sine is fastest at its middle. The parabola that fits its top is as steep there as one of a third more height.
    bob = 0.2 * np.sin(2 * np.pi * np.arange(round(1.5 * seconds * 24)) / (seconds * 24) - 1.5)
    case = only_case(level(bob))
    assert "exact" not in parabola.seen(case)
    assert parabola.hear(case).nats < 0.0


def test_the_pace_is_the_root_of_the_gravity() -> None:
    # Half the gravity takes √2 as long: log2 of √½ is -½.
    track, _ = Worked(height=0.5, push=0.4, gravity=G / 2).track(fps=24.0, phase=0.3)
    assert parabola.seen(only_case(track))["parabola's pace"] == pytest.approx(-0.5, abs=0.01)


def test_a_loose_flight_counts_for_less_and_is_trusted_less() -> None:
    track, _ = Worked(height=0.5, push=0.4, gravity=G).track(fps=24.0, phase=0.3)
    sway = 0.01 * np.sin(np.arange(len(track.frames)) / 1.9)
    loose = only_case(level(track.heights + sway))
    assert loose.flight.loose
    assert 0.0 < parabola.strength(loose, loose.flight) <= parabola.LOOSELY
    whole = parabola.hear(only_case(track))
    assert nats(parabola.seen(loose)) < whole.nats
