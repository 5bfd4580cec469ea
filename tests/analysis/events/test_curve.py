"""Jumps on a sampled curve: found to a fraction of a frame, or refused with the reason."""

import numpy as np
import pytest
from leapwright.analysis import Track
from leapwright.analysis.events.curve import BOB, CUT, LOW, fastest, jumps_on_curve, overlap
from leapwright.analysis.events.poses import poses_of
from leapwright.analysis.limits import Limits
from leapwright.analysis.phases import Event, Phases

from tests.truth.worked import Worked

G = 9.80665
"""Standard acceleration, m/s² (3rd CGPM 1901, Resolution 2)."""
FPS = 24.0


def read(track, *, fps=FPS, limits=None, gravity=G):
    return jumps_on_curve(poses_of(track), fps, gravity, limits or Limits())


def part(track, first, last):
    inside = (track.frames >= first) & (track.frames <= last)
    return Track("part", track.fps, track.frames[inside], track.positions[inside])


@pytest.fixture(scope="module")
def jump():
    return Worked(height=0.45, push=0.4, gravity=G).track(fps=FPS, phase=0.3)


def test_every_event_of_a_clean_jump_lies_within_a_twentieth_of_a_frame(jump):
    track, truth = jump
    (phases,), refused = read(track)
    assert refused == []
    for name, frame in truth.items():
        assert getattr(phases, name).frame == pytest.approx(frame, abs=0.05), name
    assert phases.arc.gravity == pytest.approx(G, rel=1e-6)
    assert (phases.method, phases.step, phases.held) == ("curve", 1, False)


@pytest.mark.parametrize(("first", "last"), [("middle of the rise", None), (None, "middle of the fall")])
def test_a_flight_cut_off_by_an_end_of_the_track_is_refused(jump, first, last):
    track, truth = jump
    rise, fall = (truth["takeoff"] + truth["apex"]) / 2, (truth["apex"] + truth["landing"]) / 2
    cut = part(track, rise if first else track.frames[0], fall if last else track.frames[-1])
    found, refused = read(cut)
    assert found == []
    assert [refusal.why for refusal in refused] in ([CUT], [])
    assert all(refusal.frame == pytest.approx(truth["apex"], abs=0.1) for refusal in refused)


def test_a_flight_that_ends_with_its_landing_is_whole(jump):
    track, truth = jump
    (phases,), _ = read(part(track, 0, np.ceil(truth["landing"]) + 2))
    assert phases.landing.frame == pytest.approx(truth["landing"], abs=0.3)


def test_a_push_that_began_before_the_track_has_no_crouch_and_says_so(jump):
    track, truth = jump
    (phases,), _ = read(part(track, np.ceil(truth["crouch"]) + 2, track.frames[-1]))
    assert phases.crouch is None
    assert phases.notes == ("the track begins in the middle of the push",)


def test_a_hop_under_the_smallest_is_refused_as_low_and_the_limit_is_the_users():
    track, _ = Worked(height=0.06, push=0.05, gravity=G).track(fps=60.0, phase=0.3)
    assert len(read(track, fps=60.0)[0]) == 1
    found, refused = read(track, fps=60.0, limits=Limits(smallest_hop=0.065))
    assert found == []
    assert {refusal.why for refusal in refused} <= {LOW} and len(refused) == 1


@pytest.mark.parametrize("period", [18, 24, 30])
def test_a_bob_is_no_jump(period):
    # Where a cosine's middle parabola ends the point has most of its speed to gain: at 60 degrees 0.87 of it, but
    # there a parabola is off by 2 % already.
    z = 0.5 - 0.2 * np.cos(2 * np.pi * np.arange(5 * period) / period)
    found, _ = read(Track("Moss", FPS, range(len(z)), np.stack((0 * z, 0 * z, z), axis=1)))
    assert found == []


def test_a_bob_whose_gravity_is_right_is_none_either():
    # a cos(2πt/T) bends by a (2π/T)² at its top: with T = 0.9 s, 9.80665 m/s² at a = 0.201 m.
    t = np.arange(96) / FPS
    z = G * (0.9 / (2 * np.pi)) ** 2 * np.cos(2 * np.pi * t / 0.9)
    found, _ = read(Track("Moss", FPS, range(96), np.stack((0 * z, 0 * z, z), axis=1)))
    assert found == []


def test_under_noise_a_bob_is_no_jump_either():
    rng, reasons = np.random.default_rng(2), set()
    t = np.arange(240) / 60.0
    for _ in range(10):
        z = 0.2 * np.cos(2 * np.pi * t / 0.9) + rng.normal(0, 0.004, 240)
        found, refused = read(Track("Moss", 60, range(240), np.stack((0 * z, 0 * z, z), axis=1)), fps=60.0)
        assert found == []
        reasons |= {refusal.why for refusal in refused}
    assert reasons <= {BOB, CUT, LOW}


@pytest.mark.parametrize("pace", [0.2, 4.0])
def test_what_falls_far_too_slow_or_fast_for_this_world_is_no_flight(jump, pace):
    assert read(jump[0], gravity=G / pace**2)[0] == []


def test_the_moon_has_jumps_too():
    # 1.62 m/s²: NASA planetary fact sheet, Moon.
    track, truth = Worked(height=0.8, push=0.4, gravity=1.62).track(fps=FPS, phase=0.6)
    (phases,), _ = read(track, gravity=1.62)
    assert phases.landing.frame == pytest.approx(truth["landing"], abs=0.1)
    assert phases.arc.gravity == pytest.approx(1.62, rel=1e-6)


def test_flights_overlap_only_where_they_share_a_time():
    def flight(takeoff, landing):
        a, b, c = (Event(f, 0.0, 0.0) for f in (takeoff, (takeoff + landing) / 2, landing))
        return Phases(None, a, b, c, None, None, "curve")

    assert overlap(flight(10, 20), flight(19, 30))
    assert overlap(flight(10, 20), flight(12, 13))
    assert not overlap(flight(10, 20), flight(20, 30))


def test_the_fastest_rise_is_told_with_the_index_it_starts_at():
    heights = np.array([0.0, 0.1, 0.4, 0.9, 1.0])
    assert fastest(np.arange(5.0), heights, 1) == (pytest.approx(0.5), 2)
    assert fastest(2 * np.arange(5.0), heights, 2) == (pytest.approx(0.2), 1)
