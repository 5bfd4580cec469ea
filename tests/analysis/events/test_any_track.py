"""Whatever track comes, finding its events neither raises nor warns, and what is found is finite and in order.

Seeded, so that a failure can be had again: `invented(np.random.default_rng(seed))`.
"""

import math

import numpy as np
import pytest
from leapwright.analysis import Track, World, audit_track
from leapwright.analysis.events import find_phases
from leapwright.analysis.limits import Limits
from leapwright.analysis.notes import Said
from leapwright.analysis.phases import Phases
from leapwright.analysis.track import EVENTS

from tests.analysis.events.strange_tracks import broken, invented

pytestmark = pytest.mark.filterwarnings("error")
EACH, BATCHES = 50, 5


def assert_sound(phases: Phases) -> None:
    """Assert finite values, errors not below 0, crouch < takeoff ≤ apex < landing < absorbed, an arc that bends down.
    """
    events = [event for name in EVENTS if (event := getattr(phases, name)) is not None]
    for event in events:
        assert all(map(math.isfinite, (event.frame, event.frame_error, event.height)))
        assert event.frame_error >= 0
    frames = [event.frame for event in events]
    assert phases.takeoff.frame <= phases.apex.frame
    if phases.takeoff.frame == phases.apex.frame:
        frames.remove(phases.apex.frame)
    assert all(a < b for a, b in zip(frames, frames[1:], strict=False)), frames
    if phases.arc is not None:
        assert all(map(math.isfinite, (phases.arc.apex_frame, phases.arc.apex_height, phases.arc.residual_rms)))
        assert phases.arc.gravity > 0 and math.isfinite(phases.arc.gravity_error)


def check(track: Track, seed: int) -> int:
    world = World(gravity=(9.81, 1.62, 24.8)[seed % 3], step=1 + seed % 4)
    found = find_phases(track, world, Limits())
    for phases in found.phases:
        assert_sound(phases)
    assert found.phases or found.notes[0].said is Said.NO_JUMP
    return len(found.phases)


@pytest.mark.parametrize("batch", range(BATCHES))
def test_invented_tracks_are_taken_as_they_come(batch):
    for seed in range(batch * EACH, (batch + 1) * EACH):
        check(invented(np.random.default_rng(seed)), seed)


@pytest.mark.parametrize("batch", range(BATCHES))
def test_broken_jumps_are_taken_as_they_come(batch):
    found = sum(check(broken(np.random.default_rng(seed)), 0) for seed in range(batch * EACH, (batch + 1) * EACH))
    # Most jumps are spoiled too much to be found; a batch without any found jump would test nothing.
    assert found > 5


def test_a_whole_audit_of_them_is_as_calm():
    for seed in range(40):
        rng = np.random.default_rng([7, seed])
        for jump in audit_track(broken(rng)).jumps:
            assert math.isfinite(jump.flight.height.value) and math.isfinite(jump.flight.airtime.value)


@pytest.mark.parametrize("seed", range(20))
def test_a_stray_sample_beside_a_contact_keeps_the_apex_between_the_contacts(seed):
    rng = np.random.default_rng(seed)
    t = np.arange(60.0)
    z = np.where((t > 18.4) & (t < 34.6), 0.0085 * (t - 18.4) * (34.6 - t), 0.0)
    z = z - np.where(t < 18.4, 0.02 * np.clip(t - 13, 0, 5.4) * (18.4 - t) / 5.4, 0.0)
    z[int(rng.choice([18, 19, 33, 34, 35]))] += rng.choice([-1, 1]) * rng.uniform(0.2, 1.5)
    for phases in find_phases(Track("stray", 24, t, np.stack((0 * z, 0 * z, z), 1)), World(), Limits()).phases:
        assert_sound(phases)
