"""Every hop of the recordings is found, as sure or likely, at any rate, from the root and the center of mass.

The recording itself shows each hop: both soles are off the floor all that time, and the center of mass falls with
gravity (the spin was recorded slow). The skips of both dances (3 to 6 cm, 0.2 s) and of the run (5 to 7 cm, 0.13 s) are
left out: they rise by less than the smallest hop of 5 cm, or hardly more.
"""

from dataclasses import dataclass

import numpy as np
import pytest
from leapwright.analysis import Certainty, Track, World
from leapwright.analysis.certainty import certainty_of
from leapwright.analysis.events import find_phases
from leapwright.analysis.limits import Limits
from leapwright.analysis.phases import Phases

from .performers import Performance, performed

EARTH = 9.81
RATES = (None, 24.0, 25.0, 30.0, 60.0)
STARTS = (0.0, 0.35, 0.7)
"""Shares of a frame at which sampling starts."""


@dataclass(frozen=True)
class Hop:
    """Last frame before and first after the flight, of the recording's own; clearance in meters; gravity in m/s²."""

    name: str
    leaves: int
    touches: int
    clearance: float
    gravity: float = EARTH


HOPS = (
    Hop("humanoid3d_jump", 47, 74, 0.20),
    Hop("humanoid3d_backflip", 10, 19, 1.5),
    Hop("humanoid3d_spinkick", 31, 56, 0.6),
    Hop("humanoid3d_spin", 38, 52, 0.9, 6.0),
)
"""A jump from standing, a backflip, a flying kick (a turn in the air with the leg out) and a turning leap.

The jump leaves from its toes, its soles 3 cm up all through the push: the fall of its center of mass tells when.
"""
HOVERS = ("humanoid3d_jump",)
"""Its soles hover 3 cm over the floor in the push: when they leave it is known to what is said, not to a frame."""


def told(hop: Hop, body: Performance, track: Track, start: float) -> Phases:
    """Return the flight told on a track that has most frames in common with the hop, sure or likely."""
    first, last = ((frame / body.fps - start) * track.fps for frame in (hop.leaves, hop.touches))
    found = find_phases(track, World(), Limits()).phases
    for phases in found:
        both = min(phases.landing.frame, last) - max(phases.takeoff.frame, first)
        if both > 0.5 * (max(phases.landing.frame, last) - min(phases.takeoff.frame, first)):
            assert certainty_of(phases.certainty) is not Certainty.DOUBTFUL, phases
            return phases
    pytest.fail(f"{hop.name} at {track.fps:g} from {start:.3f} s: {found}")


@pytest.mark.parametrize("hop", HOPS, ids=lambda hop: hop.name)
def test_the_recording_shows_the_hop(hop: Hop) -> None:
    body = performed(hop.name)
    inside = slice(hop.leaves + 2, hop.touches - 1)
    assert (body.clearance[inside] > 0.04).all(), "both soles stay off the floor"
    assert body.clearance[inside].max() > hop.clearance
    stance = np.sort(body.clearance)[: len(body.seconds) // 4]
    assert np.abs(stance).max() < 0.04, "soles stand on the floor"
    bend = np.polynomial.Polynomial.fit(body.seconds[inside], body.center[inside, 2], 2).convert().coef[2]
    # Its masses are from memory: the center of mass of the spin falls 4.4 % too fast, the others' by less off.
    assert -2 * bend == pytest.approx(hop.gravity, rel=0.05)


@pytest.mark.parametrize("fps", RATES)
@pytest.mark.parametrize("center", [False, True], ids=["hips", "center of mass"])
@pytest.mark.parametrize("hop", HOPS, ids=lambda hop: hop.name)
def test_each_recorded_hop_is_sure_or_likely(hop: Hop, fps: float | None, center: bool) -> None:
    body = performed(hop.name)
    for share in STARTS if fps else (0.0,):
        start = share / (fps or body.fps)
        told(hop, body, body.track(fps=fps, start=start, center=center), start)


@pytest.mark.parametrize("hop", HOPS, ids=lambda hop: hop.name)
def test_each_recorded_hop_is_found_with_its_feet(hop: Hop) -> None:
    body = performed(hop.name)
    for fps in RATES:
        phases = told(hop, body, body.track(fps=fps, feet=True), 0.0)
        rate = fps or body.fps
        # The soles are known to one frame of the recording and one of the track; they are posed, not measured.
        for event, frame in ((phases.takeoff, hop.leaves + 0.5), (phases.landing, hop.touches - 0.5)):
            near = 1.5 / body.fps + 1.5 / rate
            near = max(near, 2 * event.frame_error / rate) if hop.name in HOVERS else near
            assert abs(event.frame / rate - frame / body.fps) < near
