"""The examiner examined: the generated motion keeps the laws and equals published figures."""

import numpy as np
import pytest
from leapwright.analysis.world import STANDARD_GRAVITY
from scipy.integrate import quad

from . import blocked
from .leaps import Leap, path_of
from .motions import JUMPS, make
from .pieces import human_push, power_push, spring_push
from .still_life import FALLS, STILL
from .still_life import make as make_still

CLOSED = [kind for kind in JUMPS if make(kind, 0).path is not None and "noisy" not in kind]
SAMPLED = [kind for kind in CLOSED if "twos" not in kind and "threes" not in kind]
WHOLE = [kind for kind in JUMPS if "the air" not in kind]


@pytest.mark.parametrize("kind", SAMPLED)
def test_second_differences_in_the_air_are_gravity(kind):
    """g per frame²; at 24 fps and 9.80665 m/s² that is 1.7025 cm (g / 24²)."""
    for seed in range(5):
        motion = make(kind, seed)
        track = motion.track
        for truth in motion.truth:
            air = track.heights[(track.frames >= truth.takeoff) & (track.frames <= truth.landing)]
            if len(air) >= 3:
                g = -np.diff(air, 2) * track.fps**2
                assert g == pytest.approx(truth.gravity, rel=1e-9, abs=1e-9)


@pytest.mark.parametrize("kind", CLOSED)
def test_height_is_continuous_and_speed_is_at_takeoff_and_landing(kind):
    for seed in range(5):
        motion = make(kind, seed)
        path, tick = motion.path, 1e-9
        joints = path.starts[1:-1]
        assert path.at(joints - tick) == pytest.approx(path.at(joints + tick), abs=1e-7)
        for truth in motion.truth:
            for frame in (truth.takeoff, truth.landing):
                now = (frame - motion.offset) / motion.track.fps
                before, after = path.at(np.array([now - tick, now + tick]), what="speed")
                assert before == pytest.approx(after, rel=1e-6, abs=1e-6)


@pytest.mark.parametrize("kind", CLOSED)
def test_the_answer_is_read_off_the_path(kind):
    """Crouch to takeoff is the push distance, takeoff to apex the height, apex to landing the drop."""
    motion = make(kind, 1)
    for truth in motion.truth:
        at = lambda frame, m=motion: float(m.path.at(np.array([(frame - m.offset) / m.track.fps]))[0])  # noqa: E731
        assert at(truth.apex) - at(truth.takeoff) == pytest.approx(truth.jump_height, rel=1e-9)
        assert at(truth.apex) - at(truth.landing) == pytest.approx(truth.drop, rel=1e-9)
        if truth.crouch is not None:
            assert at(truth.takeoff) - at(truth.crouch) == pytest.approx(truth.push_distance, rel=1e-9)
            around = np.linspace(truth.crouch - 0.5, truth.takeoff, 101)
            assert at(truth.crouch) <= min(map(at, around)) + 1e-9


@pytest.mark.parametrize("kind", WHOLE)
def test_events_rise_and_lie_on_the_track(kind):
    for seed in range(10):
        motion = make(kind, seed)
        assert motion.truth
        for truth in motion.truth:
            events = (truth.crouch, truth.takeoff, truth.apex, truth.landing, truth.absorbed)
            known = [frame for frame in events if frame is not None]
            assert np.all(np.diff(known) > 0)
            assert motion.track.frames[0] - 1 < known[0]
            assert known[-1] <= motion.track.frames[-1] + 1e-9


@pytest.mark.parametrize(
    ("frames", "fps", "centimeters"),
    [(6, 24, 30.65), (8, 24, 54.48), (12, 24, 122.58), (8, 25, 50.21), (12, 30, 78.45), (20, 24, 340.51)],
)
def test_a_rise_of_n_frames_has_the_height_of_the_frame_table(frames, fps, centimeters):
    """h = g (n / fps)² / 2 with the standard acceleration (3rd CGPM, 1901)."""
    height = centimeters / 100
    leap = Leap(height=height, distance=0.4, gravity=STANDARD_GRAVITY, drop=height, absorb=0.3)
    _, ((_, takeoff, apex, landing, _),) = path_of([leap], [], 0.5, 0.5)
    assert (apex - takeoff) * fps == pytest.approx(frames, abs=0.002)
    assert (landing - takeoff) * fps == pytest.approx(2 * frames, abs=0.004)


def test_the_textbook_player_pushes_with_29_4_meters_a_second_squared():
    """OpenStax College Physics 2e, problem 4.46: crouch 0.300 m, rise 0.900 m, g 9.80: v 4.20, a 29.4."""
    leap = Leap(height=0.9, distance=0.3, gravity=9.80, drop=0.9, absorb=0.3)
    assert leap.speed == pytest.approx(4.20, abs=0.005)
    assert leap.speed / leap.push_seconds == pytest.approx(29.4, abs=0.05)


def test_unequal_ends_take_the_long_jumpers_time():
    """Serway & Jewett, Principles of Physics 5e, chapter 3, problem 18: 1.02, 1.85, 0.900 m; worked
    0.4116 s up and 0.4403 s down with g 9.80."""
    leap = Leap(height=0.83, distance=0.4, gravity=9.80, drop=0.95, absorb=0.3)
    _, ((_, takeoff, apex, landing, _),) = path_of([leap], [], 0.5, 0.5)
    assert (apex - takeoff, landing - apex) == pytest.approx((0.4116, 0.4403), abs=1e-4)


@pytest.mark.parametrize("k", [0.5, 0.7854, 1.0, 1.5])
def test_a_power_push_has_its_k_and_the_force_law(k):
    """k = t v / 2d; mean force over distance is R + 1 body weights for any shape (work and energy)."""
    push = power_push(0.0, 0.4, 3.0, k)
    assert push.seconds * 3.0 / 0.8 == pytest.approx(k)
    assert float(push.height(push.seconds)) == pytest.approx(0.4)
    assert float(push.speed(push.seconds)) == pytest.approx(3.0)


@pytest.mark.parametrize("front", [0.0, 0.3, 0.6])
def test_a_human_push_peaks_early_and_keeps_distance_and_speed(front):
    """The acceleration falls evenly to −g over the last `lead`, so the peak is g · lead / 2 faster than the takeoff:
    4.7 % here, and 4.8 to 7.6 % in five plate records (BMC laboratory, CC BY 4.0)."""
    g, lead, speed, distance = STANDARD_GRAVITY, 0.025, 2.6, 0.45
    push, _ = human_push(0.0, distance, speed, gravity=g, lead=lead, front=front)
    assert float(push.height(push.seconds)) == pytest.approx(distance, rel=1e-9)
    assert float(push.speed(push.seconds)) == pytest.approx(speed, rel=1e-9)
    t = np.linspace(0, push.seconds, 100_001)
    peak = t[np.argmax(push.speed(t))]
    assert push.seconds - peak == pytest.approx(lead, abs=1e-4)
    assert push.speed(t).max() == pytest.approx(speed + g * lead / 2, rel=1e-6)
    tick = 1e-6
    last = (push.speed(push.seconds) - push.speed(push.seconds - tick)) / tick
    assert float(last) == pytest.approx(-g, rel=1e-3)
    assert quad(lambda x: float(push.speed(x)), 0, push.seconds, limit=200)[0] == pytest.approx(
        distance, rel=1e-6
    )


def test_a_running_push_ends_without_force_at_its_distance_and_speed():
    """Quarter-cosine ground force: at takeoff the acceleration is −g, the work law holds."""
    g = STANDARD_GRAVITY
    push = spring_push(0.0, 0.08, 1.3, g)
    assert float(push.height(push.seconds)) == pytest.approx(0.08)
    assert float(push.speed(push.seconds)) == pytest.approx(1.3)
    last = (push.speed(push.seconds) - push.speed(push.seconds - 1e-6)) / 1e-6
    assert float(last) == pytest.approx(-g, rel=1e-3)


def test_human_pushes_have_the_k_of_plate_records():
    """0.78 to 1.02 (five plate records, BMC laboratory, CC BY 4.0)."""
    for seed in range(50):
        (truth,) = make("human push", seed).truth
        k = (truth.takeoff - truth.crouch) / (truth.apex - truth.takeoff) * truth.push_ratio
        assert 0.78 <= k <= 1.02


@pytest.mark.parametrize("kind", ["stepped poses", "stepped poses on twos", "stepped poses, keys unknown"])
def test_stepped_poses_hold_the_heights_of_the_events_at_whole_frames(kind):
    for seed in range(20):
        motion = make(kind, seed)
        (truth,) = motion.truth
        track = motion.track
        at = lambda frame, t=track: t.heights[np.searchsorted(t.frames, frame)]  # noqa: E731
        assert truth.takeoff == int(truth.takeoff)
        assert at(truth.apex) - at(truth.takeoff) == pytest.approx(truth.jump_height)
        assert at(truth.takeoff) - at(truth.crouch) == pytest.approx(truth.push_distance)


def test_the_same_seed_is_the_same_motion():
    for one, two in ((make("noisy, 60 fps", 7), make("noisy, 60 fps", 7)), (make_still("ship", 3),) * 2):
        assert np.array_equal(one.track.positions, two.track.positions)


@pytest.mark.parametrize("kind", STILL)
def test_still_life_has_no_jump_and_moves_as_said(kind):
    """Nothing but noise, held keys and low flights pulls downward with more than 1.2 g twice in a row."""
    for seed in range(5):
        motion = make_still(kind, seed)
        assert motion.truth == ()
        assert np.ptp(motion.track.heights) <= 30.0  # a big wheel of 15 m radius
        if not any(
            word in kind for word in ("noisy", "noise", "twos", "stepped", "run", "car", "random", "slide")
        ):
            pull = np.diff(motion.track.heights, 2) * motion.track.fps**2
            assert pull.min() > -1.2 * STANDARD_GRAVITY


@pytest.mark.parametrize("kind", FALLS)
def test_a_fall_has_no_push_and_falls_freely(kind):
    (truth,) = make_still(kind, 0).truth
    assert truth.crouch is None and truth.push_ratio is None
    motion = make_still("fall", 0)
    (truth,) = motion.truth
    track = motion.track
    air = track.heights[(track.frames >= truth.takeoff) & (track.frames <= truth.landing)]
    assert -np.diff(air, 2) * track.fps**2 == pytest.approx(STANDARD_GRAVITY, rel=1e-9)


@pytest.mark.parametrize("kind", blocked.KINDS)
def test_the_host_draws_blocking_through_the_poses(kind):
    """Its own default handles: keys are met, an apex key is not overshot (AUTO_CLAMPED)."""
    pytest.importorskip("bpy")
    for seed in range(3):
        motion = blocked.make(kind, seed)
        (truth,) = motion.truth
        track = motion.track
        top = track.heights[int(truth.apex - track.frames[0])]
        assert top == pytest.approx(track.heights.max(), abs=1e-6)
        rise = top - track.heights[int(truth.takeoff - track.frames[0])]
        assert rise == pytest.approx(truth.jump_height, abs=1e-5)
