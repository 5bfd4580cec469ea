"""Falls: a body leaves a ledge, or is let go, from rest and falls with the world's gravity; lifts, squats and slopes
are none."""

import numpy as np
import pytest
from leapwright.analysis import Track
from leapwright.analysis.contacts.ballistic import Parabola, Stretch
from leapwright.analysis.contacts.flights import FEWEST_STRETCH_SAMPLES
from leapwright.analysis.events import falls
from leapwright.analysis.events.falls import _carried, _from_rest, _left, falls_on_curve
from leapwright.analysis.limits import Limits
from leapwright.analysis.samples.poses import poses_of

from tests.truth import still_life

G = 9.80665
"""Standard acceleration, m/s² (3rd CGPM 1901, Resolution 2)."""


def fall(*, drop=1.2, absorb=0.3, gravity=G, fps=24.0, start=20.3, stand=0.0, slope=0.0):
    """Return a body that stands, falls `drop` meters from rest, absorbs evenly and stays; and the frames of start,
    landing, absorbed."""
    seconds = np.sqrt(2 * drop / gravity)
    speed = gravity * seconds
    frames = np.arange(0.0, start + (seconds + 2 * absorb / speed) * fps + 20)
    t = (frames - start) / fps
    late = np.clip(t - seconds, 0, 2 * absorb / speed)
    z = stand + 3.0 - 0.5 * gravity * np.clip(t, 0, seconds) ** 2 - speed * late * (1 - late * speed / (4 * absorb))
    x = slope * 0.5 * gravity * np.clip(t, 0, seconds) ** 2
    landing = start + seconds * fps
    track = Track("crate", fps, frames, np.stack((x, 0 * z, z), axis=1))
    return track, (start, landing, landing + 2 * absorb / speed * fps)


def read(track, taken=(), **limits):
    return falls_on_curve(track, poses_of(track), G, Limits(**limits), list(taken))


@pytest.mark.parametrize("fps", [24.0, 60.0])
@pytest.mark.parametrize("drop", [0.5, 1.2, 3.0])
def test_a_fall_off_a_ledge_has_its_landing_and_its_gravity(fps, drop):
    track, (start, landing, absorbed) = fall(drop=drop, fps=fps)
    (phases,) = read(track)
    assert phases.crouch is None
    assert phases.takeoff == phases.apex
    assert phases.takeoff.frame == pytest.approx(start, abs=0.05)
    assert phases.landing.frame == pytest.approx(landing, abs=0.15)
    assert phases.absorbed.frame == pytest.approx(absorbed, abs=0.5)
    assert phases.arc.gravity == pytest.approx(G, rel=0.005)


def test_where_a_level_parabola_starts_is_not_claimed_to_be_known_well():
    (phases,) = read(fall()[0])
    assert phases.takeoff.frame_error >= 0.25


def test_a_fall_is_as_sure_as_its_pace_is_known():
    """Noise of 5 mm hides how quickly a body falls by a stair, and not how quickly by 1.2 m."""
    surest = {}
    for drop in (0.15, 1.2):
        told = []
        for seed in range(40):
            track, _ = fall(drop=drop, absorb=0.06)
            noise = np.random.default_rng(seed).normal(0.0, 0.005, len(track.frames))
            told += read(Track("crate", 24.0, track.frames, track.positions + noise[:, None] * (0.0, 0.0, 1.0)))
        assert told, "none of 40 is found"
        surest[drop] = max(one.certainty for one in told)
        for one in told:
            # The pace goes as the root of gravity, so that two of its errors are one of gravity's, as shares.
            slowest = np.sqrt(one.arc.gravity / G) * (1.0 - one.arc.gravity_error / one.arc.gravity)
            assert one.certainty == pytest.approx(np.clip((slowest - 0.5) / 0.42, 0.0, 1.0), abs=0.05)
    assert surest[0.15] < 0.95 < surest[1.2], "sure, as certainty_of says"


def test_the_moon_lets_go_more_slowly():
    # 1.62 m/s²: NASA planetary fact sheet, Moon. In Earth's world its pace is √(1.62/9.81) = 0.41: a lift's.
    track, (_, landing, _) = fall(gravity=1.62)
    (phases,) = falls_on_curve(track, poses_of(track), 1.62, Limits(), [])
    assert phases.landing.frame == pytest.approx(landing, abs=0.15)
    assert read(track) == []


def test_a_slope_that_speeds_up_sideways_too_carries():
    assert len(read(fall(slope=0.1)[0])) == 1
    assert read(fall(slope=1.0)[0]) == []


@pytest.mark.parametrize("seconds", [0.4, 0.8, 2.0])
def test_a_squat_or_a_lift_is_no_fall(seconds):
    frames = np.arange(90.0)
    s = np.clip((frames / 24 - 1.0) / seconds, 0, 1)
    z = 1.0 - 0.6 * (s * s * s * (10 - 15 * s + 6 * s * s))
    assert read(Track("Moss", 24, frames, np.stack((0 * z, 0 * z, z), axis=1))) == []


def test_a_fall_that_begins_with_the_track_shows_no_ledge():
    track, (start, *_) = fall()
    kept = track.frames >= start
    assert read(Track("crate", 24, track.frames[kept], track.positions[kept])) == []


def test_a_descent_that_is_part_of_a_jump_is_not_told_twice():
    track, _ = fall()
    (phases,) = read(track)
    assert read(track, taken=[phases]) == []


@pytest.mark.parametrize("start", [5.3, 20.6, 60.3, 400.0])
def test_however_long_it_stood_before_the_fall_is_found(start):
    track, (_, landing, _) = fall(drop=3.0, start=start)
    (phases,) = read(track)
    assert phases.landing.frame == pytest.approx(landing, abs=0.15)


# The bounds of a fall, each from both sides: a fifth within the bound it is taken, a fifth past it it is not.


def kicked(share, *, fps=24.0, stood=1.0, levels_off=1.0):
    """Return poses, stretch and last speed of a body that stands for `stood` seconds, then falls for 0.6 s; `first` is
    its first speed as a share of the last.

    levels_off: times the last speed of the fall that the fastest descent is.
    """
    lasts, before = round(0.6 * fps), round(stood * fps)
    begins = share * G * 0.6 / (1.0 - share)
    t = np.arange(lasts + 1) / fps
    z = np.concatenate((np.full(before, 3.0), 3.0 - begins * t - 0.5 * G * t**2))
    frames = np.arange(len(z), dtype=float)
    parabola = Parabola(float(before), 3.0, -begins / fps, -0.5 * G / fps**2)
    poses = poses_of(Track("crate", fps, frames, np.stack((0 * z, 0 * z, z), axis=1)))
    return poses, Stretch(before, len(z) - 1, parabola, 0.0), levels_off * (begins + G * 0.6) / fps


@pytest.mark.parametrize(("share", "is_from_rest"), [(0.12, True), (0.18, False)])
def test_a_fall_begins_with_at_most_a_seventh_of_its_speed(share, is_from_rest):
    poses, stretch, top = kicked(share)
    assert _from_rest(poses, stretch, top, 24.0) is is_from_rest


@pytest.mark.parametrize(("times", "reaches"), [(1.1, True), (1.3, False)])
def test_the_parabola_of_a_fall_reaches_most_of_the_top_speed(times, reaches):
    poses, stretch, top = kicked(0.0, levels_off=times)
    assert _from_rest(poses, stretch, top, 24.0) is reaches


@pytest.mark.parametrize(("stood", "is_seen"), [(0.15, True), (0.1, False)])
def test_an_eighth_of_a_second_of_the_ledge_must_be_seen(stood, is_seen):
    poses, stretch, top = kicked(0.0, stood=stood, fps=120.0)
    assert _from_rest(poses, stretch, top, 120.0) is is_seen


@pytest.mark.parametrize(("slope", "is_carried"), [(0.2, False), (0.3, True)])
def test_a_quarter_of_the_fall_sideways_is_a_slope(slope, is_carried):
    track, (start, landing, _) = fall(slope=slope)
    first, last = int(np.ceil(start)), int(landing)
    s = track.frames[first : last + 1] - first
    a, b, c = np.polyfit(s, track.heights[first : last + 1], 2)
    stretch = Stretch(first, last, Parabola(float(first), c, b, a), 0.0)
    assert bool(_carried(track, stretch, track.frames)) is is_carried


def test_three_thousandths_of_the_drop_are_off_the_ledge():
    """Level up to sample 19; the next two samples lie 2.1 and 4.2 thousandths of the drop lower; then it falls."""
    z = np.concatenate((np.ones(20), 1.0 - np.array([0.0021, 0.0042]), 1.0 - np.linspace(0.02, 1.0, 20)))
    assert _left(z, 0, len(z) - 1) == 20 - FEWEST_STRETCH_SAMPLES


@pytest.mark.parametrize(("drop", "absorb", "count"), [(0.9, 0.5, 1), (0.9, 0.72, 0)])
def test_a_squat_takes_as_long_to_slow_down_as_to_speed_up(drop, absorb, count):
    # Drop over absorb distance 1.8 and 1.25, on either side of 1.5.
    assert len(read(fall(drop=drop, absorb=absorb)[0])) == count


def test_the_start_of_a_fall_is_known_to_the_rounding_of_its_frame_however_clean_it_is():
    (phases,) = read(fall(drop=3.0)[0])
    # A time rounded to whole frames is off by 1/√12 of one (JCGM 100:2008, 4.3.7).
    assert phases.takeoff.frame_error == pytest.approx(0.2887, abs=1e-4)


@pytest.mark.parametrize(("pace", "least", "most"), [
    (0.55, 0.0, 0.2), (0.6, 0.2, 0.4), (0.7, 0.4, 0.6), (0.8, 0.6, 0.8), (0.86, 0.8, 0.9), (0.92, 0.95, 1.0),
    (1.0, 0.95, 1.0),
])  # fmt: skip
def test_the_nearer_to_real_time_the_surer_a_fall(pace, least, most):
    """At half the pace of a fall it is a slide; in real time it is sure, as `certainty` says
    (0.95)."""
    (phases,) = read(fall(gravity=pace**2 * G)[0])
    assert least <= phases.certainty <= most


@pytest.mark.parametrize(("rise", "searched"), [(0.35, 1), (0.65, 0)])
def test_a_descent_that_is_risen_over_by_half_its_depth_is_a_crouch_and_is_not_searched(monkeypatch, rise, searched):
    """A meter down, then up by a meter and a part of one: a jump follows."""
    looked_at = []
    monkeypatch.setattr(falls, "_fall", lambda *asked: looked_at.append(asked))
    z = np.concatenate((np.ones(12), np.linspace(1.0, 0.0, 12), np.linspace(0.0, 1.0 + rise, 12)))
    read(Track("Moss", 24.0, np.arange(36.0), np.stack((z * 0, z * 0, z), axis=1)))
    assert len(looked_at) == searched


@pytest.mark.parametrize("seed", [368, 636, 1052])
def test_steps_down_stairs_are_no_falls_under_noise(seed: int) -> None:
    """Each step drops by 15 to 20 cm; the fastest descent is told over three samples, or noise of 4 mm makes it one."""
    assert read(still_life.make("stairs, noisy", seed).track) == []


@pytest.mark.filterwarnings("error")
def test_a_fall_whose_inner_samples_lie_level_is_read_without_a_division_by_zero() -> None:
    read(still_life.make("stairs, on twos", 1018).track)
