"""Feet: when they are on the ground, how they leave it and touch it, slide and sink."""

from dataclasses import replace

import numpy as np
import pytest
from leapwright.analysis import Track
from leapwright.analysis.measures.contact import Contact, flights_by_feet, measure_contact, spans

from tests.analysis.closed_form import Leap, build
from tests.analysis.shod import LIFT, Shoes, shod, walked


def test_a_track_without_feet_says_nothing_of_them() -> None:
    track, phases = build(Leap())
    assert measure_contact(track, phases) == Contact()
    assert spans(track).shape == (len(track.frames), 0)
    assert flights_by_feet(track) == ()


@pytest.mark.parametrize("crouch_at", [15.0, 15.3, 15.75])
@pytest.mark.parametrize("fps", [24.0, 60.0])
def test_feet_leave_and_touch_between_the_frames(crouch_at: float, fps: float) -> None:
    # The feet rise as LIFT sin(pi u): straight near the ground but for its third power, under 0.1 frame here.
    track, phases = shod(leap=Leap(crouch_at=crouch_at, fps=fps))
    (gap,) = flights_by_feet(track)
    assert gap.takeoff == pytest.approx(phases.takeoff.frame, abs=0.1)
    assert gap.landing == pytest.approx(phases.landing.frame, abs=0.1)
    assert 0.0 < gap.takeoff_error < 0.5 and 0.0 < gap.landing_error < 0.5


def test_each_foot_has_its_own_spans() -> None:
    track, phases = shod()
    down = spans(track)
    assert down.shape == (len(track.frames), 2)
    air = (track.frames > phases.takeoff.frame) & (track.frames < phases.landing.frame)
    assert (down == ~air[:, None]).mean() > 0.95


def test_a_foot_that_stays_down_keeps_the_body_on_the_ground() -> None:
    track, phases = shod()
    feet = track.feet.copy()
    feet[:, 1] = feet[0, 1]
    assert flights_by_feet(replace(track, feet=feet)) == ()
    assert measure_contact(replace(track, feet=feet), phases).feet_off is None


def test_the_last_foot_to_leave_and_the_first_to_touch_count() -> None:
    track, phases = shod()
    long = shod(Shoes(off=2.0, on=-3.0))[0].feet
    feet = np.stack((track.feet[:, 0], long[:, 1]), axis=1)
    told = measure_contact(replace(track, feet=feet), phases)
    assert told.feet_off == pytest.approx(phases.takeoff.frame + 2.0, abs=0.15)
    assert told.feet_on == pytest.approx(phases.landing.frame - 3.0, abs=0.15)


@pytest.mark.parametrize("ground", [None, 2.0])
def test_the_ground_need_not_be_at_zero(ground: float | None) -> None:
    told = measure_contact(*shod(Shoes(floor=2.0, ground=ground)))
    phases = shod()[1]
    assert told.feet_off == pytest.approx(phases.takeoff.frame, abs=0.1)
    assert told.feet_below == pytest.approx(1.0, abs=0.01)


def test_a_bone_over_its_sole_stands_where_it_stands_over_a_given_ground() -> None:
    told = measure_contact(*shod(Shoes(sole=0.06, ground=0.0)))
    assert told.feet_sink == pytest.approx(0.0, abs=1e-9)
    assert told.feet_off == pytest.approx(shod()[1].takeoff.frame, abs=0.1)


def test_a_ledge_lower_than_the_takeoff_is_ground_too() -> None:
    track, phases = shod(leap=Leap(lower=0.4))
    (gap,) = flights_by_feet(track)
    assert gap.landing == pytest.approx(phases.landing.frame, abs=0.3)


def test_the_top_of_a_flight_is_no_ground() -> None:
    # One m/s² keeps a foot within 2 cm of its top for 0.4 s.
    track, phases = shod(leap=Leap(gravity=1.0, height=0.8, absorb=0.5))
    (gap,) = flights_by_feet(track)
    assert gap.landing - gap.takeoff == pytest.approx(phases.landing.frame - phases.takeoff.frame, abs=0.5)


@pytest.mark.parametrize("sink", [0.02, 0.06])
def test_a_foot_that_dips_and_comes_back_has_sunk(sink: float) -> None:
    jump = walked(Shoes(sink=sink))
    assert jump.feet_sink == pytest.approx(sink, abs=1e-9)
    landing = jump.landing.frame
    assert landing <= jump.feet_sink_frames[0] <= jump.feet_sink_frames[1] <= landing + 3
    assert jump.feet_on == pytest.approx(landing, abs=1.0)


def test_a_foot_that_stays_sunk_shows_against_a_given_ground_only() -> None:
    track, phases = shod()
    low = track.feet - np.where(track.frames >= phases.landing.frame, 0.05, 0.0)[:, None, None] * [0, 0, 1]
    assert measure_contact(replace(track, feet=low), phases).feet_sink < 1e-9
    told = measure_contact(replace(track, feet=low, ground=0.0), phases)
    assert told.feet_sink == pytest.approx(0.05, abs=1e-9)


def test_the_slide_is_how_far_a_planted_foot_moves() -> None:
    # Of the 5.65 frames of the push, the five from 16 to 20 have the foot flat: four steps between them.
    jump = walked(Shoes(push_slide=0.10))
    assert jump.feet_slide == pytest.approx(0.10 * 4.0 / 5.65, rel=0.01)
    assert jump.crouch.frame <= jump.feet_slide_frames[0] < jump.feet_slide_frames[1] <= jump.takeoff.frame
    assert walked().feet_slide == pytest.approx(0.0, abs=1e-9)


def test_noise_moves_a_contact_little_and_is_told() -> None:
    told = measure_contact(*shod(Shoes(noise=0.003)))
    phases = shod()[1]
    assert told.feet_off == pytest.approx(phases.takeoff.frame, abs=0.5)
    assert told.feet_on == pytest.approx(phases.landing.frame, abs=0.5)
    assert 0.001 < told.feet_noise < 0.009


def test_on_twos_a_contact_lies_on_a_pose() -> None:
    frames = np.arange(1, 41)
    pose = (frames - 1) // 2 * 2 + 1
    z = np.where((pose > 15) & (pose < 27), LIFT, 0.0)
    feet = np.stack((0.0 * z, 0.0 * z, z), axis=1)[:, None]
    track = Track("twos", 24, frames, np.stack((0 * z, 0 * z, 1 + z), axis=1), feet=feet)
    (gap,) = flights_by_feet(track, step=2, held=True)
    assert (gap.takeoff, gap.landing) == (15.0, 27.0)


def test_feet_in_the_air_at_the_ends_leave_an_end_open() -> None:
    track, phases = shod()
    keep = (track.frames > phases.takeoff.frame + 2)
    cut = Track("cut", 24, track.frames[keep], track.positions[keep], feet=track.feet[keep])
    (gap,) = flights_by_feet(cut)
    assert gap.takeoff is None
    assert gap.landing == pytest.approx(phases.landing.frame, abs=0.1)
