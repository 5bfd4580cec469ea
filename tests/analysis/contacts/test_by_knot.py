"""Contacts where the track shows hardly any ground: a usual force places them, and its spread is their error."""

import numpy as np
import pytest
from leapwright.analysis import Track
from leapwright.analysis.contacts.ballistic import Stretch, parabola_over
from leapwright.analysis.contacts.by_knot import free_contact
from leapwright.analysis.contacts.side import rising_side
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


def miss(force, *, fps, phase, noise=0.0, seed=0, seconds=0.4, speed=3.0):
    """Return by how many frames the takeoff of a push is missed, whose force over its time, 0 to 1, is summed twice.

    The track begins with the push, so that no sample tells of a bottom.
    """
    clock = np.linspace(0.0, 1.0, 4001)
    sums = [force(clock)]
    for _ in range(2):
        added = 0.5 * (sums[-1][1:] + sums[-1][:-1]) * (clock[1] - clock[0])
        sums.append(np.concatenate(([0.0], np.cumsum(added))))
    rises = speed * seconds * (sums[2] - sums[2][-1]) / sums[1][-1]
    off = seconds * fps + phase
    frames = np.arange(float(int(off + 1.6 * speed / G * fps)))
    t = (frames - off) / fps
    z = np.where(t < 0.0, np.interp(t / seconds + 1.0, clock, rises), speed * t - 0.5 * G * t**2)
    z = z + np.random.default_rng(seed).normal(0.0, noise, len(z))
    first, last = int(np.ceil(off)), len(frames) - 1
    parabola, rss, _ = parabola_over(frames[first:], z[first:])
    stretch = Stretch(first, last, parabola, float(np.sqrt(rss / (last - first))))
    side = rising_side(frames, z, stretch, parabola, fps, measured=noise > 0.0)
    found = free_contact(side, None, noise=max(noise, 1e-6), fps=fps)
    return found.frame - off - (side.late if noise else 0.0)


def test_what_a_force_was_like_five_frames_before_the_takeoff_of_a_clean_track_changes_nothing():
    # It falls to two fifths at 0.6 of the push, 3.8 frames before its end.
    off = [miss(lambda s: np.where(s < 0.6, 2.5, 1.0), fps=24.0, phase=phase) for phase in np.arange(0.0, 1.0, 0.1)]
    assert np.abs(off).max() < 0.02


def test_a_noisy_takeoff_is_read_off_enough_samples_to_outdo_the_noise():
    # 2 mm of noise at 120 fps leave a takeoff known to half a sample.
    off = [miss(np.ones_like, fps=120.0, phase=seed / 40, noise=0.002, seed=seed) for seed in range(40)]
    assert np.std(off) < 0.7


def test_a_noisy_takeoff_is_read_off_few_enough_samples_to_know_one_force():
    # A force as a half sine over 24 samples is not followed by two powers of time. It leaves a takeoff within half a
    # sample.
    off = [miss(lambda s: 0.3 + np.sin(np.pi * s), fps=60.0, phase=i / 40, noise=0.002, seed=i) for i in range(40)]
    assert abs(np.mean(off)) < 0.5
