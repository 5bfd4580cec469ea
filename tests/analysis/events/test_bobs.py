"""Contacts must explain noisy samples better than a smooth bob does."""

import numpy as np
import pytest
from leapwright.analysis import Track
from leapwright.analysis.events.bobs import beats_a_bob, stands_out
from leapwright.analysis.events.poses import Poses
from leapwright.analysis.phases import Event, Phases

from tests.truth.worked import Worked

FPS = 60.0
NOISE = 0.003


def poses(frames, heights, noise=NOISE):
    return Poses(frames, heights, 1, False, True, noise)


def phases(crouch, takeoff, landing, absorbed):
    def event(frame):
        return None if frame is None else Event(frame, 0.1, 0.0)

    apex = (takeoff + landing) / 2
    return Phases(event(crouch), event(takeoff), event(apex), event(landing), event(absorbed), None, "curve")


def jump(noise, seed=0):
    track, truth = Worked(height=0.45, push=0.4).track(fps=FPS, phase=0.3)
    rough = track.heights + np.random.default_rng(seed).normal(0, noise, len(track.frames))
    contacts = phases(*(truth[name] for name in ("crouch", "takeoff", "landing", "absorbed")))
    return poses(track.frames, rough, noise), contacts


def bob(noise, seed=0):
    """A raised cosine, with contacts claimed where a parabola through its top would end."""
    frames = np.arange(73.0)
    heights = 0.15 * (1 - np.cos(2 * np.pi * frames / 72)) / 2
    rough = heights + np.random.default_rng(seed).normal(0, noise, 73)
    return poses(frames, rough, noise), phases(1.0, 24.0, 48.0, 71.0)


@pytest.mark.parametrize("seed", range(8))
def test_a_jump_under_noise_beats_a_bob(seed):
    assert beats_a_bob(*jump(NOISE, seed), pace=1.0)


@pytest.mark.parametrize("seed", range(8))
def test_a_bob_under_noise_does_not_beat_itself(seed):
    assert not beats_a_bob(*bob(NOISE, seed), pace=1.0)


def test_the_slower_the_flight_the_more_is_asked():
    # χ² must beat 12 noise² / pace²: what passes at real time fails where the arc is as slow as bobs are.
    sampled, contacts = jump(0.03, seed=3)
    passed = [beats_a_bob(sampled, contacts, pace=pace) for pace in (1.0, 0.5, 0.1, 0.01)]
    assert passed == sorted(passed, reverse=True)
    assert not passed[-1]
    assert beats_a_bob(sampled, contacts, 1.0) == beats_a_bob(sampled, contacts, 1.9)


def test_too_few_samples_are_given_the_benefit_of_the_doubt_under_noise_and_none_where_loose():
    frames = np.arange(9.0)
    few = poses(frames, np.maximum(0.0, 0.1 - 0.01 * (frames - 4) ** 2))
    contacts = phases(None, 1.0, 7.0, None)
    assert beats_a_bob(few, contacts, pace=1.0)
    assert not stands_out(few, contacts)


def test_a_clean_jump_stands_out_and_a_clean_bob_does_not():
    assert stands_out(*jump(1e-5))
    assert not stands_out(*bob(1e-5))


def test_it_holds_far_from_the_origin():
    sampled, contacts = bob(1e-5)
    far = Track("Moss", FPS, sampled.frames + 1e5, np.stack([sampled.heights + 1e3] * 3, axis=1))
    shifted = phases(*(event.frame + 1e5 for event in (contacts.crouch, contacts.takeoff, contacts.landing,
                                                       contacts.absorbed)))
    assert not stands_out(poses(far.frames, far.heights), shifted)
