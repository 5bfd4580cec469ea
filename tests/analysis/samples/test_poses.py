"""Which samples are poses of their own: every frame of a curve, every second on twos, the keys when stepped."""

import numpy as np
import pytest
from leapwright.analysis import Track
from leapwright.analysis.samples.flaws import BadFrame, Flaw
from leapwright.analysis.samples.poses import QUIET, keyed_samples, poses_of, thinned

FLIGHT = np.array([0.0, 0.4, 0.7, 0.9, 1.0, 1.0, 0.9, 0.7, 0.4, 0.0, 0.0, 0.2, 0.5, 0.2])


def track(heights, *, frames=None, fps=24.0, **known):
    z = np.asarray(heights, dtype=float)
    return Track("Moss", fps, range(len(z)) if frames is None else frames, np.stack((z * 0, z * 0, z), 1), **known)


def test_every_sample_of_a_curve_counts():
    poses = poses_of(track(FLIGHT))
    assert poses.frames.tolist() == list(range(14))
    assert (poses.step, poses.held, poses.even) == (1, False, True)


@pytest.mark.parametrize("step", [2, 3, 4])
def test_on_twos_threes_and_fours_the_frames_where_a_pose_begins_count(step):
    path = np.arange(14.0) + FLIGHT
    poses = poses_of(track(np.repeat(path, step), frames=np.arange(14 * step) + 101))
    assert poses.frames.tolist() == list(range(101, 101 + 14 * step, step))
    assert poses.heights.tolist() == path.tolist()
    assert (poses.step, poses.held, poses.even) == (step, True, True)


def test_a_pose_that_stays_for_another_on_twos_is_taken_twice():
    # A hold of two poses repeats one height four times: two samples at the beat of the twos.
    heights = np.repeat([0, 1, 2, 3, 3, 4, 5, 6, 7.0], 2)
    assert poses_of(track(heights)).frames.tolist() == list(range(0, 18, 2))


def test_moving_sideways_is_a_new_pose_too():
    z = np.zeros(16)
    x = np.repeat(np.arange(8.0), 2)
    poses = poses_of(Track("Moss", 24, range(16), np.stack((x, z, z), 1)))
    assert (poses.step, poses.held) == (2, True)


def test_stepped_keys_at_uneven_times_are_the_poses():
    keys = [1, 9, 12, 19, 26, 30]
    heights = np.array([1, 0.6, 1, 1.6, 1, 0.7])[np.searchsorted(keys, np.arange(1, 41), side="right") - 1]
    poses = poses_of(track(heights, frames=range(1, 41), key_frames=keys, interpolation="constant"))
    assert poses.frames.tolist() == keys
    assert poses.heights.tolist() == [1, 0.6, 1, 1.6, 1, 0.7]
    assert poses.held and not poses.even


def test_a_stepped_key_that_repeats_the_pose_before_counts_where_keys_are_known():
    keys = [1, 9, 12, 19, 26, 30]
    heights = np.array([1, 0.6, 0.6, 1.6, 1, 0.7])[np.searchsorted(keys, np.arange(1, 41), side="right") - 1]
    known = poses_of(track(heights, frames=range(1, 41), key_frames=keys, interpolation="constant"))
    unknown = poses_of(track(heights, frames=range(1, 41), interpolation="constant"))
    assert known.frames.tolist() == keys
    assert unknown.frames.tolist() == [1, 9, 19, 26, 30]


def test_straight_lines_between_keys_on_twos_are_no_curve():
    heights = np.interp(np.arange(27), np.arange(0, 27, 2), FLIGHT)
    poses = poses_of(track(heights, key_frames=np.arange(0, 27, 2), interpolation="linear"))
    assert poses.heights.tolist() == FLIGHT.tolist()
    assert (poses.step, poses.held, poses.even) == (2, False, True)


def test_few_keys_joined_by_lines_carry_no_noise_however_they_go_up_and_down():
    # 41 keys, four frames apart, high and low in turn: differences of what is drawn, which noise would fill too.
    keys = 4.0 * np.arange(41)
    frames = np.arange(keys[-1] + 1)
    drawn = track(np.interp(frames, keys, 1 + 0.03 * (-1) ** np.arange(41)), key_frames=keys, interpolation="linear")
    assert poses_of(drawn).noise == QUIET


def test_keys_beyond_the_track_are_left_aside():
    heights = np.repeat([0, 1, 2.0], 4)
    poses = poses_of(track(heights, key_frames=[-8, 0, 4, 8, 99], interpolation="constant"))
    assert poses.frames.tolist() == [0, 4, 8]


@pytest.mark.parametrize("interpolation", [None, "constant", "linear", "bezier"])
def test_a_track_that_stands_still_has_poses_and_no_noise(interpolation):
    poses = poses_of(track(np.ones(20), interpolation=interpolation, key_frames=[0, 19]))
    assert set(poses.heights) == {1.0}
    assert poses.noise == QUIET


@pytest.mark.parametrize("sigma", [0.0005, 0.002, 0.006])
def test_white_noise_on_a_jump_is_measured(sigma):
    # Standard error of a standard deviation from n values is 1/√(2n): 240 samples and correlated differences
    # give some 10 %; the mean of 40 draws must lie within a quarter of the truth.
    seconds = np.arange(240) / 60
    smooth = np.where((seconds > 1.5) & (seconds < 2.1), 4.905 * (seconds - 1.5) * (2.1 - seconds), 0.0)
    rng = np.random.default_rng(11)
    found = [poses_of(track(smooth + rng.normal(0, sigma, 240), fps=60)).noise for _ in range(40)]
    assert np.mean(found) == pytest.approx(sigma, rel=0.25)


def test_a_clean_jump_has_no_noise_though_its_contacts_are_sharp():
    seconds = np.arange(96) / 24
    flight = np.where((seconds > 1.5) & (seconds < 2.1), 4.905 * (seconds - 1.5) * (2.1 - seconds), 0.0)
    assert poses_of(track(flight)).noise < 1e-5


def test_a_capture_is_thinned_to_the_rate_of_film():
    poses = poses_of(track(np.sin(np.arange(241) / 20), fps=120))
    thin = thinned(poses, 4.0)
    assert thin.frames.tolist() == list(range(0, 241, 4))
    assert thinned(thin, 4.0) is thin


def moving():
    """Along x at 0.1 m a frame, up and down by a sine."""
    f = np.arange(60.0)
    return np.stack((0.1 * f, 0 * f, 1 + 0.4 * np.sin(f / 7)), axis=1)


@pytest.mark.parametrize("at", [5, 20, 33, 50])
def test_a_frame_that_was_dropped_and_filled_is_drawn_through(at):
    positions = moving()
    true = positions[at, 2]
    positions[at] = positions[at - 1]
    poses = poses_of(Track("Moss", 24, range(101, 161), positions))
    assert poses.bad == (BadFrame(101.0 + at, Flaw.REPEATED),)
    assert poses.heights[at] == pytest.approx(true, abs=1e-3)


def test_a_hold_a_turn_and_a_keyed_repeat_are_no_dropped_frames():
    assert poses_of(Track("Moss", 24, range(60), moving())).bad == ()
    held = moving()
    held[20:23] = held[20]  # stays for three frames
    assert poses_of(Track("Moss", 24, range(60), held)).bad == ()
    assert poses_of(track([0, 1, 2, 3, 3, 2, 1, 0, 1, 2.0])).bad == ()  # the same height on both sides of a top
    keyed = moving()
    keyed[20] = keyed[19]
    known = Track("Moss", 24, range(60), keyed, key_frames=[0, 19, 20, 59], interpolation="bezier")
    assert poses_of(known).bad == ()


def test_the_samples_that_carry_a_key_are_those_at_its_frame():
    frames = np.array([1.0, 2.0, 3.5, 5.0, 8.0])
    keys = np.array([0.0, 2.0, 3.0, 3.5, 8.0, 9.0])
    assert keyed_samples(frames, keys).tolist() == np.flatnonzero(np.isin(frames, keys)).tolist() == [1, 2, 4]
