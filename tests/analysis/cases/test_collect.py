"""What a track holds besides its jumps: levels at rest, and whether its keys tell anything. The bounds are ours, each
held from both sides."""

import numpy as np
import pytest
from leapwright.analysis import Limits, Track, World
from leapwright.analysis.cases.collect import cases_of
from leapwright.analysis.events import find_phases
from leapwright.analysis.samples.poses import poses_of

from tests.analysis.events.heard import only_case
from tests.analysis.events.witnesses.test_stand import jump

POSES = [1.0, 0.6, 1.0, 1.41, 1.0, 0.7, 1.0]
"""Stand, crouch, takeoff, apex, landing, absorbed, stand: meters, a key on every seventh frame, which is real time."""


@pytest.mark.parametrize(("stands", "is_posed"), [(0, True), (3, False)])
def test_from_eight_keys_on_a_regular_beat_is_no_accident(stands: int, is_posed: bool) -> None:
    """Seven keys at one beat are the poses of a jump; ten, with stands before it, are samples of a curve."""
    heights = np.array([1.0] * stands + POSES)
    case = only_case(keyed([(7.0 * i, height) for i, height in enumerate(heights)], "bezier"))
    assert (case.posed is not None) is is_posed
    assert case.keys is None


def test_keys_that_leave_the_beat_for_the_jump_are_its_poses() -> None:
    """Four steps of a run on every fourth frame, before a jump and after it, whose gaps are of 4, 5, 7, 7 and 4."""
    track = keyed([*STEPS, *LEAP, *AFTER], "bezier")
    (case,) = (one for one in cases_of(track, poses_of(track), None, World(), Limits()) if one.turn.top == 48)
    assert case.posed is not None and case.posed.apex == 48.0
    assert case.keys is not None and len(case.keys) == len(STEPS) + len(LEAP) + len(AFTER)
    (step,) = (one for one in cases_of(track, poses_of(track), None, World(), Limits()) if one.turn.top == 8)
    assert step.posed is None and step.keys is None


def keyed(keys: list[tuple[float, float]], joined: str) -> Track:
    """Return what these keys, frames and meters, make at 24 frames a second."""
    at, heights = np.array(keys).T
    frames = np.arange(at[0], at[-1] + 1)
    z = heights[np.searchsorted(at, frames, "right") - 1] if joined == "constant" else np.interp(frames, at, heights)
    return Track("Moss", 24.0, frames, np.stack((0 * z, 0 * z, z), axis=1), key_frames=at, interpolation=joined)


STEPS = [(4.0 * i, 0.95 + 0.03 * (-1) ** i) for i in range(9)]
"""Four steps of a run, a pose on every fourth frame."""
LEAP = [(37.0, 0.85), (41.0, 1.05), (48.0, 1.48), (55.0, 1.05), (59.0, 0.85)]
"""Crouch, takeoff, apex, landing, absorbed, off that beat: ½ g (7/24)² = 0.42 m high."""
AFTER = [(63.0 + 4 * i, height) for i, (_, height) in enumerate(STEPS)]


def test_a_leap_off_the_beat_of_a_run_is_read_off_its_keys() -> None:
    (phases,) = find_phases(keyed([*STEPS, *LEAP, *AFTER], "constant"), World(), Limits()).phases
    events = (phases.crouch, phases.takeoff, phases.apex, phases.landing, phases.absorbed)
    assert [event and event.frame for event in events] == [frame for frame, _ in LEAP]


def test_a_leap_off_the_beat_of_a_run_joined_by_lines_is_found() -> None:
    # The same keys at a beat tell samples of a curve, so its contacts are known to their errors only.
    (phases,) = find_phases(keyed([*STEPS, *LEAP, *AFTER], "linear"), World(), Limits()).phases
    for event, (frame, _) in zip((phases.takeoff, phases.apex, phases.landing), LEAP[1:4], strict=True):
        assert abs(event.frame - frame) <= 2 * event.frame_error


def test_a_way_up_in_one_straight_line_is_no_cut() -> None:
    """Stand, crouch, apex, absorb, stand, joined by lines: the toes, 6 % over the stand, are passed 11.5 frames up.

    (1.06 - 0.6) / (1.56 - 0.6) of 24 frames after the crouch at 20. A cut takes one frame.
    """
    track = keyed([(0, 1.0), (10, 1.0), (20, 0.6), (44, 1.56), (68, 0.6), (78, 1.0), (88, 1.0)], "linear")
    case = only_case(track)
    assert not case.rising.is_open
    (phases,) = find_phases(track, World(), Limits()).phases
    assert abs(phases.takeoff.frame - 31.5) < phases.takeoff.frame_error + 1.0
    cut = only_case(keyed([(0, 1.0), (20, 0.6), (21, 1.56), (45, 0.6), (60, 1.0), (61, 1.0), (80, 1.0)], "linear"))
    assert cut.rising.is_open and cut.rising.is_cut


@pytest.mark.parametrize(("sway", "rests"), [(0.016, True), (0.026, False)])
def test_a_level_may_vary_by_two_centimeters(sway: float, rests: bool) -> None:
    """A stand of one second that sways by so many meters from lowest to highest, once in 0.3 s, before the jump."""
    track, _, _ = jump()
    z = track.heights + 0.5 * sway * np.sin(2 * np.pi * np.arange(len(track.frames)) / 7.2) * (np.arange(
        len(track.frames)) < 24)  # fmt: skip
    swaying = Track("Brindle", 24.0, track.frames, np.stack((0 * z, 0 * z, z), axis=1))
    case = only_case(swaying)
    assert bool([rest for rest in case.course.rests if rest.first < 12]) is rests


@pytest.mark.parametrize(("seconds", "counts"), [(2.5, True), (3.5, False)])
def test_a_rest_within_three_seconds_tells_where_the_body_stands(seconds: float, counts: bool) -> None:
    """A stand at 1 m for half a second, so long a way down to the bottom at 0.6 m, a jump, and as long a way back up.

    Over 0.3 s the way moves 3 cm at the least, so that it is no rest itself.
    """
    far = 24 * seconds
    knots = np.cumsum([0, 12, far, 6, 6, far, 12])
    f = np.arange(knots[-1] + 1)
    z = np.interp(f, knots, (1.0, 1.0, 0.6, 1.7, 0.6, 1.0, 1.0))
    case = only_case(Track("Brindle", 24.0, f, np.stack((0 * z, 0 * z, z), axis=1)))
    # What is held may vary by two centimeters, so that a little of the way belongs to it.
    stand = pytest.approx(1.0, abs=0.02) if counts else None
    assert case.rising.stand == stand and case.falling.stand == stand
