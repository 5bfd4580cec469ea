"""Contacts where the track shows hardly any ground: placed by a usual force, and as unsure as that leaves them."""

import numpy as np
import pytest
from leapwright.analysis import Track
from leapwright.analysis.events import find_phases
from leapwright.analysis.limits import Limits
from leapwright.analysis.world import World

from tests.truth.worked import Worked

G = 9.80665


@pytest.mark.parametrize("ratio", [0.7, 1.0, 2.0])
@pytest.mark.parametrize("phase", np.linspace(0.05, 0.95, 7))
def test_a_track_that_ends_on_its_first_frame_on_the_ground_lands_within_its_stated_error(ratio, phase):
    worked = Worked(height=0.5, push=0.5 / ratio, gravity=G)
    track, truth = worked.track(fps=24.0, phase=float(phase))
    end = int(np.searchsorted(track.frames, truth["landing"])) + 1
    cut = Track("Brindle", 24.0, track.frames[:end], track.positions[:end])
    found = find_phases(cut, World(gravity=G), Limits()).phases
    if not found:  # a sample that has hardly left the arc shows no ground
        assert cut.frames[-1] - truth["landing"] < 0.15
        return
    landing = found[0].landing
    assert abs(landing.frame - truth["landing"]) <= 1.96 * landing.frame_error
    assert landing.frame_error < 0.4
