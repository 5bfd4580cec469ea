"""The push against its flight: worked examples and what cannot be known."""

from dataclasses import replace

import numpy as np
import pytest
from leapwright.analysis import Track, World
from leapwright.analysis.jump import measure
from leapwright.analysis.law import spring_shape
from leapwright.analysis.phases import Event, Phases

from tests.analysis.closed_form import Leap, build, eased, found, keyed, measured, pinned


def test_a_push_of_thirty_centimeters_to_a_rise_of_ninety() -> None:
    # OpenStax College Physics 2e, problem 4.46: 0.300 m, 0.900 m, g 9.80: 4.20 m/s, force 4312 N on 110 kg.
    jump = measured(Leap(height=0.9, push=0.3, gravity=9.80), World(gravity=9.80))
    assert jump.push.ratio.value == pytest.approx(3.0)
    assert jump.flight.takeoff_speed == pytest.approx(4.20)
    assert jump.push.body_weights * 110 * 9.80 == pytest.approx(4312)
    assert jump.push.expected.value / 24 == pytest.approx(0.1429, abs=1e-4)
    assert jump.flight.rise.value / 24 == pytest.approx(0.4286, abs=1e-4)


def test_common_practice_four_feet_over_a_push_of_one_foot() -> None:
    # Common practice, no source: 12 frames up and 3 for the push at 24 fps. In truth g (12 / 24)² / 2 = 4.02 ft.
    jump = keyed((7, 1.0 - 0.3048), (10, 1.0), (22, 1.0 + 4 * 0.3048), (34, 1.0))
    assert jump.push.ratio.value == pytest.approx(4)
    assert jump.push.expected.value == pytest.approx(3)
    assert jump.push.agreement.value == pytest.approx(1)


@pytest.mark.parametrize("k", [0.78, 1.0, 1.02, 1.4])
def test_the_end_of_a_smooth_push_has_the_speed_of_the_takeoff(k: float) -> None:
    # A parabola through a push's second half misses the end slope of its cubic part, 1 - a = 2 k - 2, by 0.15 of it:
    # at k = 1.4 by 0.12 of 2.8, and a little more with few samples.
    jump = measured(Leap(height=0.8, push=0.6, fps=60, **eased(k)))
    assert jump.push.end.speed.value == pytest.approx(jump.flight.takeoff_speed, rel=0.06)


def test_a_push_that_slows_has_its_top_speed_before_takeoff() -> None:
    # k = 0.4 is 2.2 s² - 1.2 s³, whose slope 4.4 s - 3.6 s² is 4.4² / 14.4 at the most, at s = 4.4 / 7.2, and 0.8 in
    # the end.
    jump = measured(Leap(height=0.3, push=0.6, fps=60, **eased(0.4)))
    assert jump.push.end.peak == pytest.approx(4.4**2 / 14.4 / 0.8 * jump.flight.takeoff_speed, rel=0.005)
    peak = jump.crouch.frame + 4.4 / 7.2 * (jump.takeoff.frame - jump.crouch.frame)
    assert jump.push.end.peak_frame == pytest.approx(peak, abs=0.5)


def test_the_error_of_the_push_speed_holds_the_truth() -> None:
    # 3 mm at 60 fps, a constant push.
    jumps = [measured(Leap(height=0.5, push=0.4, fps=60, noise=0.003, seed=seed)) for seed in range(100)]
    off = [(jump.push.end.speed.value - np.sqrt(2 * 9.80665 * 0.5)) / jump.push.end.speed.error for jump in jumps]
    # Within what the samples allow, the flight's own speed is taken, so that the figure scatters by less than its
    # error, which 100 draws tell to 7 %; but by no less than half of it.
    assert 0.5 < np.std(off) < 1.2


def test_a_fall_has_no_push() -> None:
    jump = pinned(Leap(), crouch=None)
    assert jump.push is None


def test_a_crouch_that_is_not_below_the_takeoff_has_frames_and_no_ratio() -> None:
    jump = keyed((4, 1.0), (10, 1.0), (17, 1.4), (24, 1.0))
    assert jump.push is None


def test_too_few_frames_say_nothing_of_the_speed() -> None:
    assert measured(Leap(height=0.8, push=0.1)).push.end is None


def test_a_spring_releases_as_its_law_says() -> None:
    # A mass on a spring under its own weight, from rest at the bottom to the slack spring, step by step.
    omega, sag = 20.0, 9.80665 / 400
    for amplitude in (1.5 * sag, 3.0 * sag, 6.0 * sag):
        t = np.linspace(0, np.pi / omega, 400001)
        x = -amplitude * np.cos(omega * t)
        end = int(np.argmax(x >= sag))
        distance, speed = x[end] + amplitude, amplitude * omega * np.sin(omega * t[end])
        ratio = speed**2 / (2 * 9.80665) / distance
        assert spring_shape(ratio) == pytest.approx(speed * t[end] / (2 * distance), rel=1e-4)


@pytest.mark.parametrize(("dropped", "told"), [(True, False), (False, True)])
def test_a_rebound_may_be_as_short_as_a_spring_and_a_push_from_a_hold_may_not(dropped: bool, told: bool) -> None:
    # Ratio 1: a spring's shape is 0.676. The push takes 0.68 of what the flight asks for. The landing of the jump
    # before lies as long before the crouch as the push lasts.
    leap = Leap(height=0.6, push=0.6, crouch_at=20.0, **eased(0.68))
    track, phases = build(leap)
    if dropped:
        before = track.frames < 20
        late = np.clip((20 - track.frames) / (phases.takeoff.frame - 20), 0, 1)
        z = np.where(before, 0.4 + 0.6 * leap.shape(late), track.heights)
        track = Track("drop", 24, track.frames, np.column_stack((track.positions[:, :2], z)))
    landing = Event(40.0 - phases.takeoff.frame, 0.0, 1.0)
    before = replace(phases, landing=landing, takeoff=Event(2.0, 0.0, 1.0)) if dropped else None
    jump = measure(track, phases, World(), before=before)
    assert jump.push.rebounds is dropped
    assert ("push-short" in found(jump)) is told


@pytest.mark.parametrize(
    ("step", "spacing"), [(2, (4, 2, 6, 8, 8, 4, 4)), (3, (3, 6, 9, 9, 6, 3, 3)), (1, (4, 3, 6, 8, 8, 4, 4))]
)
def test_poses_keyed_on_twos_are_known_by_their_spacing(step: int, spacing: tuple[int, ...]) -> None:
    keys = 7 + np.cumsum((0, *spacing))
    z = np.array([1.0, 0.9, 0.7, 1.0, 1.5, 1.0, 0.8, 0.9])
    frames = np.arange(keys[0], keys[-1] + 5)
    held = z[np.searchsorted(keys, frames, side="right") - 1]
    track = Track("poses", 24, frames, np.column_stack((0 * held, 0 * held, held)), key_frames=keys)
    events = [Event(float(keys[i]), 0.29, z[i]) for i in range(2, 7)]
    assert measure(track, Phases(*events, None, "keys", held=True), World()).step == step


def test_a_quick_dip_alone_is_no_rebound() -> None:
    # The same quick dip from standing: no landing comes before it, so no fall has loaded a spring.
    leap = Leap(height=0.6, push=0.6, crouch_at=20.0, **eased(0.6))
    track, phases = build(leap)
    late = np.clip((20 - track.frames) / (phases.takeoff.frame - 20), 0, 1)
    z = np.where(track.frames < 20, 0.4 + 0.6 * leap.shape(late), track.heights)
    jump = measure(Track("dip", 24, track.frames, np.column_stack((track.positions[:, :2], z))), phases, World())
    assert not jump.push.rebounds
    assert "push-short" in found(jump)


def test_the_speed_of_a_run_up_is_measured_before_the_push() -> None:
    track, phases = build(Leap(fps=24))
    x = track.frames / 24 * 5.0
    run = Track("run", 24, track.frames, np.column_stack((x, 0 * x, track.heights)))
    assert measure(run, phases, World()).push.approach == pytest.approx(5.0)
    assert measured(Leap()).push.approach == 0.0


def test_a_takeoff_that_no_fit_knows_leaves_figures_whose_errors_are_numbers() -> None:
    # A path 1 km high at 1 fps once gave such a fit. Its takeoff lies somewhere in the flight, not 100 000 frames away.
    track, phases = build(Leap())
    jump = measure(track, replace(phases, takeoff=replace(phases.takeoff, frame_error=1e5)), World())
    push = jump.push
    for figure in (push.frames, push.expected, push.excess, push.ratio, push.pace, push.agreement):
        assert np.isfinite(figure.error)
    assert push.frames.error < 2.0 * jump.flight.airtime.value


@pytest.mark.parametrize("k", [0.5, 0.78, 1.0, 1.5, 2.0])
def test_the_shape_is_half_the_end_slope_of_the_push(k: float) -> None:
    # Exact: k = t v / (2 d) is half the end slope of the push, normalized in height and time.
    jump = measured(Leap(height=0.8, push=0.4, fps=60, **eased(k)))
    assert jump.push.shape.value == pytest.approx(k, rel=1e-6)
    assert jump.push.agreement.value == pytest.approx(1.0 / k, rel=1e-6)


def test_a_slow_flight_and_its_push_have_a_pace_of_the_world_they_are_judged_in() -> None:
    # A quarter of the gravity: half the speed for the same height, so a push of constant force takes twice as long.
    jump = measured(Leap(gravity=9.80665 / 4.0))
    assert jump.push.pace.value == pytest.approx(0.5, rel=1e-6)
    assert jump.flight.pace.value == pytest.approx(0.5, rel=1e-6)
    assert jump.push.agreement.value == pytest.approx(1.0, rel=1e-6)


def test_the_gap_of_the_speeds_turns_with_the_takeoff_by_both_forces() -> None:
    # The same distance in half the time ends at 2 v and gains 4 R g a second there, while the flight's speed falls by
    # g. With R = 2 a takeoff that is off by 1/60 s changes the gap of both speeds by 9 g / 60 = 1.471 m/s.
    jump = measured(Leap(height=0.8, push=0.4, fps=60, push_stretch=0.5, error=1.0))
    assert jump.push.end.gap.error == pytest.approx(9.0 * 9.80665 / 60.0)


def test_a_last_bit_decides_no_error_of_a_speed() -> None:
    # A push of constant force ends at the flight's speed but for rounding, a little over it or under: it is the
    # flight's then, with the flight's error. A takeoff that is off by a tenth of a frame of 24 changes the height by v
    # / 240, and so v by g / 240 = 0.04086 m/s.
    ends = [measured(Leap(height=height, push=0.4, error=0.1)).push.end for height in np.linspace(0.4, 0.5, 21)]
    assert [end.speed.error for end in ends] == pytest.approx([9.80665 / 240.0] * 21, rel=1e-6)


def test_a_push_is_asked_for_by_the_lower_part_of_a_flight_that_hangs() -> None:
    # Up 0.8513 m in 10 frames, hung for 6: without them a push of 0.35 m takes 10 · 0.35 / 0.8513 = 4.11 frames.
    jump = measured(Leap(height=0.8513, rise=10.0, fall=10.0, hang=6.0))
    assert jump.push.expected.value == pytest.approx(4.11, rel=0.02)
    # It ends at 2 · 0.8513 m / 10 frames = 4.086 m/s, and lasts 0.7 / sqrt(2 g 0.8513) s = 0.1713 s: k = v T / 2 d.
    assert jump.push.shape.value == pytest.approx(4.086 * 0.1713 / 0.7, rel=0.02)


def test_a_push_half_as_long_again_is_over_by_half_of_what_is_asked() -> None:
    # As deep as high: the rise of 0.4 m takes 24 sqrt(0.8 / g) = 6.855 frames, and so should the push.
    jump = measured(Leap(height=0.4, push=0.4, push_stretch=1.5))
    assert jump.push.excess.value == pytest.approx(0.5 * 6.8548, rel=1e-4)


def test_a_push_that_is_faster_than_its_flight_ends_at_least_at_the_mean_of_its_last_tenth() -> None:
    # At twice the flight's v = sqrt(2 g 0.5) = 3.1316 m/s, 2.0355 m take 2 d / 2 v = 39 frames of 60. x = d s², whose
    # last 4 frames, the first of them more than a tenth, pass d (1 - (35 / 39)²): 5.942 m/s.
    jump = measured(Leap(height=0.5, push=2.03551, fps=60, push_stretch=0.5, crouch_at=15.0, error=0.5))
    end = jump.push.end
    assert end.speed.value == pytest.approx(5.942, rel=1e-4)
    # It speeds up by 2 d / T² = 9.636 m/s²: half a frame more is worth 0.0803 m/s.
    assert end.speed.error == pytest.approx(9.636 * 0.5 / 60.0, rel=1e-4)


def test_the_speed_at_the_end_of_a_slow_push_scatters_by_its_error() -> None:
    # Half as fast as the flight, the parabola through its second half is what tells its speed, with all its noise.
    leap = Leap(height=0.5, push=0.4, fps=60, push_stretch=2.0, noise=1e-3)
    jumps = [measured(replace(leap, seed=seed)) for seed in range(200)]
    speeds = [jump.push.end.speed for jump in jumps]
    assert np.mean([speed.value for speed in speeds]) == pytest.approx(0.5 * np.sqrt(2.0 * 9.80665 * 0.5), rel=0.03)
    assert np.median([speed.error for speed in speeds]) == pytest.approx(np.std([s.value for s in speeds]), rel=0.15)


@pytest.mark.parametrize(("share", "rebounds"), [(0.65, False), (0.75, True)])
def test_a_rebound_comes_down_most_of_what_it_pushes(share: float, rebounds: bool) -> None:
    # Its landing lies as long before the crouch as the push lasts, and so much of the push distance over it.
    track, phases = build(Leap(height=0.6, push=0.6, crouch_at=20.0))
    length = phases.takeoff.frame - 20.0
    late = np.clip((20.0 - track.frames) / length, 0.0, 1.0)
    z = np.where(track.frames < 20.0, 0.4 + share * 0.6 * late, track.heights)
    z[track.frames < np.floor(20.0 - length) + 1.0] = 0.4 + share * 0.6
    track = Track("drop", 24, track.frames, np.column_stack((track.positions[:, :2], z)))
    before = replace(phases, landing=Event(20.0 - length, 0.0, 1.0), takeoff=Event(2.0, 0.0, 1.0))
    assert measure(track, phases, World(), before=before).push.rebounds is rebounds
