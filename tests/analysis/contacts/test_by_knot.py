"""Contacts where the track shows hardly any ground: a usual force places them, and its spread is their error."""

import numpy as np
import pytest
from leapwright.analysis import Track
from leapwright.analysis.events import find_phases
from leapwright.analysis.limits import Limits
from leapwright.analysis.track import Followed
from leapwright.analysis.world import World

from tests.truth.worked import Worked

G = 9.80665


@pytest.mark.parametrize("ratio", [0.7, 1.0, 2.0])
@pytest.mark.parametrize("phase", np.linspace(0.05, 0.95, 7))
def test_a_track_that_ends_on_its_first_frame_on_the_ground_lands_within_its_stated_error(ratio, phase):
    worked = Worked(height=0.5, push=0.5 / ratio, gravity=G)
    track, truth = worked.track(fps=24.0, phase=float(phase))
    end = int(np.searchsorted(track.frames, truth["landing"])) + 1
    # This holds for a center of mass. Hips tell a contact less well, since limbs swing.
    cut = Track("Brindle", 24.0, track.frames[:end], track.positions[:end], follows=Followed.CENTER_OF_MASS)
    found = find_phases(cut, World(gravity=G), Limits()).phases
    if not found:  # a sample that has hardly left the arc shows no ground
        assert cut.frames[-1] - truth["landing"] < 0.15
        return
    landing = found[0].landing
    assert abs(landing.frame - truth["landing"]) <= 1.96 * landing.frame_error
    assert landing.frame_error < 0.4


def test_a_body_that_stops_dead_lands_on_the_ground_it_stops_on():
    f = np.arange(1.0, 45.0)
    air = (f - 20) / 24
    flight = 0.9 + 3.27 * air - 0.5 * G * air**2
    z = np.where(f < 20, 0.5 + 0.4 * np.clip((f - 10) / 10, 0, 1) ** 2, np.maximum(flight, 0.9))
    (phases,) = find_phases(Track("Brindle", 24, f, np.stack((0 * z, 0 * z, z), 1)), World(gravity=G), Limits()).phases
    # Thrown up at 3.27 m/s from 0.9 m it is back there after 2 v / g.
    assert phases.landing.frame == pytest.approx(20 + 24 * 2 * 3.27 / G, abs=0.01)
    assert phases.landing.height == pytest.approx(0.9, abs=1e-3)
