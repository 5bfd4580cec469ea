"""Flights that the feet tell: a path that hardly rises, or bends where limbs swing, over feet that leave the ground."""

from dataclasses import replace

import numpy as np
import pytest
from leapwright.analysis import Limits, Track, World, audit_track
from leapwright.analysis.events import find_phases
from leapwright.analysis.notes import SENTENCES, Said

from tests.analysis.closed_form import Leap
from tests.analysis.shod import Shoes, shod
from tests.truth.motions import make

LEAP = Leap(height=0.45, push=0.4)


def muted(*, leap: Leap = LEAP, shoes: Shoes = Shoes()) -> tuple[Track, object]:  # noqa: B008 (frozen)
    """Return a jump whose root keeps a fifth of the body's way, and sways by 2 cm three times a second."""
    track, phases = shod(shoes, leap)
    first, sway = track.positions[0], 0.02 * np.sin(2 * np.pi * 3 * track.frames / track.fps)
    places = first + (track.positions - first) * [1.0, 1.0, 0.2] + np.stack((0 * sway, 0 * sway, sway), axis=1)
    return replace(track, positions=places), phases


def found(track: Track) -> tuple:
    return find_phases(track, World(), Limits()).phases


def test_feet_tell_the_flight_of_a_root_that_hardly_rises() -> None:
    track, true = muted()
    assert found(replace(track, feet=None)) == (), "the path alone shows it: the trap is not set"
    (told,) = found(track)
    for event, frame in ((told.takeoff, true.takeoff.frame), (told.landing, true.landing.frame)):
        assert abs(event.frame - frame) <= min(2 * event.frame_error, 0.5)
    assert told.crouch.frame == pytest.approx(true.crouch.frame, abs=2.5)
    assert [note.said for note in told.notes] == [Said.BY_FEET] and told.certainty > 0.8


def test_it_is_said_that_the_feet_told_it_and_that_the_path_is_no_free_flight() -> None:
    (jump,) = audit_track(muted()[0]).jumps
    said = {finding.code: finding.message for finding in jump.findings}
    assert SENTENCES[Said.BY_FEET][1:] in said["cannot-tell"]
    assert "arc-hang" in said


def test_a_rise_with_the_feet_down_or_up_for_another_time_is_no_jump() -> None:
    track, _ = muted()
    standing = np.broadcast_to(track.feet[0], track.feet.shape)
    assert found(replace(track, feet=standing)) == ()
    assert found(muted(shoes=Shoes(off=8.0, on=12.0))[0]) == ()


def test_feet_that_leave_the_ground_under_a_body_that_does_not_rise_are_no_jump() -> None:
    # Picked up and put down again, or sitting and lifting both feet.
    track, _ = shod(leap=LEAP)
    level = np.column_stack((track.positions[:, :2], np.ones(len(track.frames))))
    assert found(replace(track, positions=level)) == ()


@pytest.mark.parametrize("seed", range(6))
def test_every_flight_of_a_noisy_run_is_found_by_its_feet(seed: int) -> None:
    run = make("run, noisy, feet known", seed)
    told = found(run.track)
    assert len(told) >= 0.9 * len(run.truth)
    for phases in told:
        near = min(run.truth, key=lambda true: abs(true.apex - phases.apex.frame))
        assert abs(near.takeoff - phases.takeoff.frame) < 1.5 and abs(near.landing - phases.landing.frame) < 1.5


def test_a_foot_that_touches_for_one_pose_before_the_landing_does_not_hide_the_jump() -> None:
    """A shot on twos whose landing key was dragged three frames later, behind the pose that follows it."""
    root = {1: 0.92, 9: 0.908, 11: 0.83, 13: 0.725, 15: 0.647, 17: 0.634, 21: 0.682, 23: 0.824, 25: 1.06, 27: 1.217,
            29: 1.348, 31: 1.453, 33: 1.531, 35: 1.584, 37: 1.61, 41: 1.584, 43: 1.531, 45: 1.453, 47: 1.348,
            49: 1.217, 53: 0.911, 54: 1.06, 55: 0.805, 57: 0.741, 59: 0.72, 61: 0.734, 63: 0.772, 65: 0.82,
            67: 0.868, 69: 0.905, 71: 0.92}  # fmt: skip
    foot = {1: 0.0, 27: 0.186, 29: 0.386, 31: 0.574, 33: 0.733, 35: 0.846, 37: 0.906, 41: 0.846, 43: 0.733,
            45: 0.574, 47: 0.386, 49: 0.186, 51: 0.157, 53: 0.0, 54: 0.149, 55: 0.0}  # fmt: skip
    frames = np.arange(1.0, 72.0)

    def held(poses: dict[int, float]) -> np.ndarray:
        heights = np.array(list(poses.values()))[np.searchsorted(list(poses), frames, side="right") - 1]
        return np.stack((0.0 * heights, 0.0 * heights, heights), axis=1)

    one = held(foot)
    track = Track("Harbourer", 24.0, frames, held(root), key_frames=list(root), interpolation="constant",
                  feet=np.stack((one, one + np.array([0.2, 0.0, 0.0])), axis=1))  # fmt: skip
    (told,) = found(track)
    assert told.takeoff.frame == 25.0
    # Down on 53, up again on 54, down for good on 55.
    assert 51.0 <= told.landing.frame <= 55.0 and told.certainty > 0.8
