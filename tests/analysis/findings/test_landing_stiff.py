"""landing-stiff: said when, and only when, a landing gives way too little, too fast, or not at all."""

from dataclasses import replace

import numpy as np
import pytest
from leapwright.analysis import Limits, Track, World, audit_track
from leapwright.analysis.findings import landing_stiff
from leapwright.analysis.jump import measure
from leapwright.analysis.quantity import as_ratio, in_frames

from tests.analysis.closed_form import Leap, build, codes, found, keyed, measured, pinned
from tests.analysis.findings.one import only


@pytest.mark.parametrize(("ratio", "told"), [(1.9, False), (5.8, False), (6.2, True), (7.3, True)])
def test_past_a_sixth_of_the_drop_it_gives_way_too_little(ratio: float, told: bool) -> None:
    # Recorded soft landings reach 1.91, one stiff landing 7.3 (plate records, BMC laboratory, CC BY 4.0).
    assert ("landing-stiff" in codes(Leap(absorb=0.45 / ratio))) is told


@pytest.mark.parametrize(("stretch", "told"), [(1.0, False), (0.55, False), (0.45, True)])
def test_under_half_of_its_frames_it_gives_way_too_fast(stretch: float, told: bool) -> None:
    # Recorded landings take 0.80 to 1.21 of fall frames / absorb ratio (same records).
    assert ("landing-stiff" in codes(Leap(absorb_stretch=stretch))) is told


def test_the_mend_names_the_frame_of_the_lowest_pose() -> None:
    # Fall 12 frames over 1.2258 m, ratio 2: 6 frames asked, 2 taken.
    jump = keyed((8, 0.4), (10, 1.0), (22, 2.2258), (34, 1.0), (36, 1.0 - 0.6129))
    finding = only("landing-stiff", jump)
    assert finding.mend == "Move the lowest pose from 36 to 40"


def test_a_body_that_does_not_sink_at_all_stops_dead() -> None:
    jump = pinned(_dead(), absorbed=None)
    finding = only("landing-stiff", jump)
    assert finding.message == "The landing stops dead after a fall of 0.45 m"


def test_a_track_that_ends_with_the_landing_tells_nothing() -> None:
    track, phases = build(_dead())
    n = int(phases.landing.frame) + 2
    cut = Track("cut", 24, track.frames[:n], track.positions[:n])
    assert "landing-stiff" not in found(measure(cut, replace(phases, absorbed=None), World()))


def test_the_last_pose_of_a_block_is_no_dead_stop() -> None:
    # 7 frames up at 24 fps are 41.7 cm (frame table).
    assert "landing-stiff" not in found(keyed((4, 0.7), (10, 1.0), (17, 1.417), (24, 1.0)))


def _dead() -> Leap:
    return Leap(absorb=1e-9, absorb_stretch=1e3)


def test_a_body_that_bounces_up_again_has_not_stopped_dead() -> None:
    track, phases = build(Leap())
    z = np.where(track.frames > phases.landing.frame, 1 + 0.1 * (track.frames - phases.landing.frame), track.heights)
    again = Track("again", 24, track.frames, np.stack((0 * z, 0 * z, z), axis=1))
    assert "landing-stiff" not in found(measure(again, replace(phases, absorbed=None), World()))


@pytest.mark.parametrize(("takes", "told"), [(0.3, False), (0.1, True)])
def test_an_absorb_within_a_frame_of_what_is_asked_is_rounding(takes: float, told: bool) -> None:
    # 1.2 frames asked: half of them is 0.6, under the frame that rounding allows.
    jump = measured()
    times = {"frames": in_frames(takes, 0.0), "expected": in_frames(1.2, 0.0), "excess": in_frames(takes - 1.2, 0.0)}
    absorb = replace(jump.absorb, **times, ratio=as_ratio(2.0, 0.0))
    assert (landing_stiff.find(replace(jump, absorb=absorb), Limits()) is not None) is told


@pytest.mark.parametrize(
    ("drop", "deep", "soft"),
    [
        # Half of a drop of a meter, which falls in 24 sqrt(2 / g) = 10.84 frames: half of those.
        (1.0, 0.5, 5),
        # Of two meters half is more than a person's hips sink, 0.6 of 0.97 m: 15.33 frames times 0.582 / 2 are 4.46.
        (2.0, 0.582, 4),
    ],
)
def test_it_says_how_deep_and_in_how_many_frames(drop: float, deep: float, soft: int) -> None:
    finding = only("landing-stiff", Leap(height=drop, absorb=0.1, push=0.25))
    assert finding.expected == pytest.approx(deep, rel=1e-3)
    assert finding.values["soft"] == soft


@pytest.mark.parametrize(
    ("over", "error", "told"),
    [
        # A share of 1 / 17.5 = 0.057 with an error of 9 / 17.5² = 0.029 is under a sixth, 0.167, by four of them:
        # a landing of a frame or so, whose depth is known to a half.
        (17.5, 9.0, True),
        # 1 / 7 = 0.1429, and 1.0 / 49 = 0.0204 or 1.2 / 49 = 0.0245 of error.
        (7.0, 1.0, True),
        (7.0, 1.2, False),
    ],
)
def test_how_little_it_gives_way_is_held_against_what_that_share_errs_by(over: float, error: float, told: bool) -> None:
    jump = measured()
    jump = replace(jump, absorb=replace(jump.absorb, ratio=as_ratio(over, error)))
    assert (landing_stiff.find(jump, Limits()) is not None) is told


def test_a_fall_of_meters_that_a_frame_takes_up_is_stiff_through_the_whole_audit() -> None:
    # 3.5 m into 0.2 m: 2 · 0.2 / sqrt(2 g 3.5) s are 1.2 frames of 24.
    track, _ = build(Leap(height=0.3, lower=3.2, push=0.3, absorb=0.2))
    (jump,) = audit_track(track).jumps
    assert "landing-stiff" in {finding.code for finding in jump.findings}
