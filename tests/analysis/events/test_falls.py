"""Falls: off a ledge or let go, from rest, with the world's gravity; a lift, a squat and a slope are none."""

import numpy as np
import pytest
from leapwright.analysis import Track
from leapwright.analysis.events.falls import falls_on_curve
from leapwright.analysis.limits import Limits
from leapwright.analysis.samples.poses import poses_of

G = 9.80665
"""Standard acceleration, m/s² (3rd CGPM 1901, Resolution 2)."""


def fall(*, drop=1.2, absorb=0.3, gravity=G, fps=24.0, start=20.3, stand=0.0, slope=0.0):
    """Stand, fall `drop` metres from rest, absorb evenly, stay; and the frames of start, landing, absorbed."""
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
