"""Which samples a flight is read from, and how closely they follow a parabola."""

from dataclasses import replace

import numpy as np
import pytest
from leapwright.analysis import Track, World
from leapwright.analysis.jump import Jump, measure
from leapwright.analysis.measures.arc import air_samples, scatter
from leapwright.analysis.phases import Event, Phases

from tests.analysis.closed_form import G, Leap, build, fitted, keyed, measured


def _gravity(track: Track, samples: slice) -> float:
    c2, _, _ = np.polyfit(track.frames[samples] / track.fps, track.heights[samples], 2)
    return -2 * c2


@pytest.mark.parametrize(("n", "ratio"), [(6, 1), (8, 1), (12, 1), (24, 1), (8, 2)])
@pytest.mark.parametrize("phase", np.arange(0.5, 8) / 8)
def test_one_contact_frame_each_side_reads_gravity_low_and_the_air_alone_does_not(
    n: int, ratio: float, phase: float
) -> None:
    # A push of constant force speeds up by ratio times g: a time l before takeoff it is (ratio + 1) g l² / 2 off the
    # flight's parabola. A fit over N samples x frames from their middle weighs it by p over the sum of p², where p is
    # x² less its mean (N² - 1) / 12 and p² sums to N (N² - 1) (N² - 4) / 180; gravity is twice that weight.
    height = G * (n / 2 / 24) ** 2 / 2
    track, phases = build(Leap(height=height, push=height / ratio, absorb=height / ratio, crouch_at=20 + phase))
    air = air_samples(track, phases)
    assert _gravity(track, air) == pytest.approx(G)
    wide = slice(air.start - 1, air.stop + 1)
    frames = track.frames[wide]
    late = np.clip(np.maximum(phases.takeoff.frame - frames, frames - phases.landing.frame), 0, None)
    count, p = len(frames), (frames - frames.mean()) ** 2
    p -= (count**2 - 1) / 12
    lost = (ratio + 1) * (p @ late**2) / (count * (count**2 - 1) * (count**2 - 4) / 180)
    assert _gravity(track, wide) == pytest.approx(G * (1 - lost))
    assert lost > 0


def test_samples_on_takeoff_and_landing_are_not_in_the_air() -> None:
    # 12 frames up and down at 24 fps from frame 20: 21 to 43.
    height = G * 0.5**2 / 2
    track, phases = build(Leap(height=height, push=height, crouch_at=8.0))
    phases = replace(
        phases,
        takeoff=replace(phases.takeoff, frame=20.0),
        landing=replace(phases.landing, frame=44.0),
    )
    air = air_samples(track, phases)
    assert (track.frames[air][0], track.frames[air][-1]) == (21, 43)


def test_on_twos_only_the_frames_where_a_pose_begins_count() -> None:
    track, phases = build(Leap(height=1.2258))
    on = (track.frames // 2 * 2).astype(int)
    held = Track("twos", 24, track.frames, track.positions[on])
    arc = replace(phases.arc, first=float(np.ceil(phases.takeoff.frame / 2) * 2), count=12)
    jump = measure(held, replace(phases, arc=arc, step=2, held=True), World())
    assert jump.flight.samples == 12
    assert jump.shape.top_share.value == pytest.approx(0.5, abs=1e-6)
    assert jump.travel.course.spread.value == pytest.approx(0, abs=1e-6)
    assert jump.flight.noise < 1e-9


@pytest.mark.parametrize("lower", [0.0, 0.4, 2.0, -0.2])
@pytest.mark.parametrize("height", [0.3, 1.0])
def test_half_of_the_airtime_of_a_parabola_passes_above_three_quarters(lower: float, height: float) -> None:
    # Each half is counted from its own end, so that it holds for any landing height.
    jump = measured(Leap(height=height, lower=lower))
    assert jump.shape.top_share.value == pytest.approx(0.5, abs=1e-6)
    assert jump.shape.skew.value == pytest.approx(0.0, abs=1e-6)


def test_a_hang_adds_its_frames_to_the_top() -> None:
    jump = measured(Leap(height=0.8513, rise=10.0, fall=10.0, hang=5.0))
    assert jump.shape.top_share.value == pytest.approx((10 + 5) / 25, abs=0.01)
    assert jump.shape.skew.value == pytest.approx(0, abs=0.01)


@pytest.mark.parametrize("rise", [7.0, 9.0, 12.0, 17.0])
def test_the_skew_is_the_distance_of_the_apex_from_its_place(rise: float) -> None:
    jump = measured(Leap(height=1.2258, rise=rise, fall=24.0 - rise))
    assert jump.shape.skew.value == pytest.approx((rise - 12) / 24, abs=0.01)


def test_the_highest_sample_is_below_the_apex_by_no_more_than_an_eighth_of_gravity_a_frame_squared() -> None:
    # At most half a frame away from it: 2.1 mm at 24 fps, which one of these phases comes near.
    below = []
    for phase in np.linspace(0, 1, 25):
        track, phases = build(Leap(crouch_at=15 + phase))
        below.append(phases.apex.height - track.heights.max())
    assert min(below) >= 0
    assert 0.9 * G / (8 * 24**2) < max(below) <= G / (8 * 24**2)


def test_noise_is_read_from_the_samples_and_a_parabola_or_a_single_hitch_has_none() -> None:
    t = np.arange(40.0)
    smooth = 3 * t - 0.07 * t**2 + 1e-4 * t**3
    assert scatter(smooth) == pytest.approx(0, abs=1e-12)
    hitch = smooth.copy()
    hitch[20] += 1.0
    assert scatter(hitch) == pytest.approx(0, abs=1e-12)
    rng = np.random.default_rng(5)
    seen = [scatter(smooth + rng.normal(0, 0.01, 40)) for _ in range(200)]
    assert np.mean(seen) == pytest.approx(0.01, rel=0.1)


def _fallen(off: float, start: float = 10.3) -> Jump:
    """Return a fall of 1.5 m from rest, off its arc by so many meters four times; frames of 24 fps."""
    lands = start + 24.0 * np.sqrt(2.0 * 1.5 / G)
    frames = np.arange(0.0, 40.0)
    part = np.clip((frames - start) / (lands - start), 0.0, 1.0)
    heights = 1.0 - 1.5 * part**2 + off * np.sin(4.0 * np.pi * part)
    heights -= 0.3 * np.clip((frames - lands) / 6.0, 0.0, 1.0)
    track = Track("Brindle", 24.0, frames, np.stack((0.0 * frames, 0.0 * frames, heights), axis=1))
    top, ground = Event(start, 0.1, 1.0), Event(lands, 0.1, -0.5)
    phases = Phases(None, top, top, ground, Event(lands + 6.0, 0.1, -0.8), fitted(track, start, lands), "curve")
    return measure(track, phases, World())


@pytest.mark.parametrize("start", [10.0, 10.1, 10.25, 10.3, 10.5, 10.75, 10.9])
def test_a_fall_that_keeps_to_its_arc_is_measured_by_it(start: float) -> None:
    # Nothing rises, so that 2 % of the rise would be nothing, and the last bit would tell; of the drop it is 3 cm.
    assert _fallen(0.0, start).flight.free is None
    assert _fallen(0.02, start).flight.free is None


def test_a_fall_that_leaves_its_arc_is_measured_by_its_lower_part() -> None:
    assert _fallen(0.06).flight.free is not None


@pytest.mark.parametrize(("late", "share"), [("takeoff", 0.75), ("apex", 1.0), ("landing", 0.25)])
def test_a_keyed_skew_is_as_unsure_as_its_poses_are_each_by_its_own_share(late: str, share: float) -> None:
    # Up 0.1 m and down 0.9 m: roots 1 and 3, so that the apex belongs a quarter of the airtime T after the takeoff. The
    # skew is (apex - takeoff) / T - 1/4: a takeoff a frame later takes 1/T off and adds 1/4 T, a landing takes 1/4 T.
    frames, heights = {"takeoff": 10.0, "apex": 16.0, "landing": 34.0}, {"takeoff": 1.0, "apex": 1.1, "landing": 0.2}
    at = np.arange(0.0, 44.0)
    z = np.interp(at, [4.0, *frames.values(), 38.0], [0.8, *heights.values(), 0.0])
    keys = [4.0, *frames.values(), 38.0]
    track = Track("Brindle", 24.0, at, np.stack((0.0 * at, 0.0 * at, z), axis=1), key_frames=keys)
    events = {name: Event(frames[name], 3.0 if name == late else 1e-9, heights[name]) for name in frames}
    phases = Phases(Event(4.0, 0.3, 0.8), *events.values(), Event(38.0, 0.3, 0.0), None, "keys")
    # No pose is known better than a frame's rounding, 1 / sqrt(12).
    least = np.array([0.75, 1.0, 0.25]) / np.sqrt(12.0)
    least[list(frames).index(late)] = 3.0 * share
    error = measure(track, phases, World()).shape.skew.error
    assert error == pytest.approx(float(np.sqrt(least @ least)) / 24.0, rel=1e-6)


def test_straight_lines_between_keys_leave_their_arc_by_a_quarter_of_the_height_halfway() -> None:
    # Up 0.4 m in 6 frames: u frames of 6 from the apex the arc is 0.4 u² / 36 under it and the line 0.4 u / 6: 0.1 m
    # apart at u = 3.
    jump = keyed((4, 0.8), (10, 1.0), (16, 1.4), (22, 1.0), (26, 0.8), held=False)
    assert jump.shape.drawn.off == pytest.approx(0.1)
    assert jump.shape.drawn.frame in (13.0, 19.0)
