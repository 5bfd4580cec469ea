"""The standing height as a witness, on jumps worked out by hand: rise, pace, dip, and where the toes leave."""

import math

import numpy as np
import pytest
from leapwright.analysis import Limits, Track
from leapwright.analysis.events.witnesses import stand

from tests.analysis.events.heard import only_case
from tests.truth.worked import Worked

G = 9.80665
STAND, LIFT = 1.0, 0.065
HOP = Limits().smallest_hop


def jump(*, lift: float = LIFT, height: float = 0.4, dip: float = 0.3, fps: float = 24.0) -> tuple[Track, float, float]:
    """Stand, crouch, leave the ground `lift` over the stand, fly, and back; and the frames of takeoff and landing."""
    worked = Worked(height=height, push=dip + lift, gravity=G)
    track, truth = worked.track(fps=fps, phase=0.3)
    offset = STAND + lift - float(np.interp(truth["takeoff"], track.frames, track.heights))
    count, slow = round(fps), round(0.5 * fps)
    ease = 0.5 - 0.5 * np.cos(np.pi * np.arange(slow) / slow)
    low = STAND - dip
    body = track.heights[(track.frames >= truth["crouch"] - 2) & (track.frames <= truth["absorbed"] + 2)] + offset
    down = STAND + (low - STAND) * ease
    heights = np.concatenate([np.full(count, STAND), down, body, down[::-1], np.full(count, STAND)])
    first = float(track.frames[track.frames >= truth["crouch"] - 2][0]) - count - slow
    frames = first + np.arange(len(heights))
    positions = np.stack((0 * heights, 0 * heights, heights), axis=1)
    return Track("Brindle", fps, frames, positions), truth["takeoff"], truth["landing"]


def test_rise_dip_and_pace_are_those_of_the_body() -> None:
    track, _, _ = jump()
    seen = stand.seen(only_case(track))
    rise, dip, pace = HOP * 2.0 ** seen["rise"], HOP * 2.0 ** seen["dip"], 2.0 ** seen["pace"]
    # The top sample lies at most g / 8 fps² under the apex, and the stand is held exactly.
    assert rise == pytest.approx(0.4 + LIFT, abs=G / 8 / 24**2)
    assert dip == pytest.approx(0.3, abs=0.01)
    # Above the stand it moves freely, but for the end of the push: the pace is 1, to within one frame of 15.
    assert pace == pytest.approx(1.0, abs=0.07)


def test_the_toes_leave_the_ground_where_the_body_passes_their_height() -> None:
    track, takeoff, landing = jump()
    said = stand.hear(only_case(track))
    assert said.takeoff == said.landing == (), "beside an exact parabola the stand says nothing"
    noise = np.random.default_rng(2).normal(0, 0.004, track.positions.shape)
    rough = only_case(Track(track.name, 24, track.frames, track.positions + noise))
    said = stand.hear(rough)
    for (reading,), frame in ((said.takeoff, takeoff), (said.landing, landing)):
        assert abs(reading.frame - frame) <= 2 * reading.error < 1.0
    # 4 mm at the top, at three times their deviation.
    assert HOP * 2.0 ** stand.seen(rough)["rise"] == pytest.approx(0.4 + LIFT, abs=0.012)


@pytest.mark.parametrize("lift", [0.02, 0.08])
def test_a_body_that_leaves_lower_or_higher_is_within_two_errors(lift: float) -> None:
    # Straight lines on the way up leave no parabola, so that the stand alone tells the takeoff.
    track, takeoff, _ = jump(lift=lift)
    top = float(track.frames[np.argmax(track.heights)])
    keys = [track.frames[0], takeoff - 6, round(takeoff), top, 2 * top - round(takeoff), track.frames[-1]]
    bent = np.interp(track.frames, keys, np.interp(keys, track.frames, track.heights))
    case = only_case(Track("Brindle", 24, track.frames, np.stack((0 * bent, 0 * bent, bent), 1)))
    (reading,) = stand.hear(case).takeoff
    assert abs(reading.frame - round(takeoff)) <= 2 * reading.error + 0.5


def test_a_rise_that_stays_under_the_stand_says_so_and_one_without_a_stand_too() -> None:
    t = np.arange(96.0)
    squat = 1.0 - 0.4 * np.exp(-(((t - 30) / 6) ** 2)) - 0.4 * np.exp(-(((t - 60) / 6) ** 2))
    assert stand.seen(only_case(Track("Brindle", 24, t, np.stack((0 * t, 0 * t, squat), 1)))) == {"stays under": 1.0}
    loop = 0.2 * np.sin(2 * np.pi * np.arange(30.0) / 20 - 1.0)
    around = Track("Moss", 24, np.arange(30.0), np.stack((0 * loop, 0 * loop, loop), 1))
    assert stand.seen(only_case(around))["stand unseen"] == 1.0


def test_lengths_are_told_in_smallest_hops_as_powers_of_two() -> None:
    seen = stand.seen(only_case(jump()[0]))
    # The jump rises 0.4 m from where the toes leave, 6.5 cm over the stand, and crouches 0.3 m; a smallest hop is 5 cm.
    assert seen["rise"] == pytest.approx(math.log2(0.465 / 0.05), abs=0.02)
    # Hips 1 m over the ground: toes lift them by 6 cm of that, less than the rise by a factor of 7.75.
    assert seen["reach"] == pytest.approx(math.log2(0.465 / 0.06), abs=0.02)
    assert seen["dip to rise"] == pytest.approx(math.log2(0.3 / 0.465), abs=0.06)


def test_a_crossing_is_unsure_by_no_more_than_the_whole_way_up() -> None:
    # A shrew-sized hop on top of a mountain: no body's toes are 3 % of the mountain's height long. 4 mm of noise, since
    # beside an exact parabola the stand says nothing.
    track, *_ = jump(height=0.2, dip=0.1)
    noise = np.random.default_rng(2).normal(0, 0.004, track.positions.shape)
    high = Track("Brindle", 24, track.frames, track.positions + noise + [0, 0, 3000])
    case = only_case(high)
    said = stand.hear(case)
    for (reading,), side in ((said.takeoff, case.rising), (said.landing, case.falling)):
        assert reading.error <= side.samples.frames[-1] - side.samples.frames[0]


def test_a_seat_that_is_left_long_before_the_body_is_fastest_is_believed_less() -> None:
    # Off a seat 0.5 m high, from 6 cm under it, it rises by 1 cm a frame, from 0.56 m on by 10: fast far over the seat.
    up = np.concatenate([np.full(24, 0.5), [0.47], 0.44 + 0.01 * np.arange(13), 0.56 + 0.1 * np.arange(1, 6)])
    top = up[-1] + np.array([0.05, 0.07, 0.05])
    case = only_case(_still(np.concatenate([up, top, up[::-1]])))
    assert case.rising.levels and not case.rising.samples.is_near(case.rising.levels[0])
    (reading,) = stand.hear(case).takeoff
    assert reading.trust == pytest.approx(0.6 * 0.9)


def test_what_is_held_at_the_bottom_may_be_the_stand() -> None:
    # A stand of 1 m, up by half a meter, and back on it: no level is lower, none is higher but the top.
    arc = 1.0 + 0.5 * np.sin(np.pi * np.arange(15) / 14)
    case = only_case(_still(np.concatenate([np.full(20, 1.0), arc, np.full(20, 1.0)])))
    (reading,) = stand.hear(case).takeoff
    # Fastest in the first fifth of the way, at 1.1 m and more: nobody holds a crouch of a tenth.
    assert reading.trust == pytest.approx(case.rising.popped_share * 0.9) and case.rising.popped_share > 0.5
    # Half of the 6 % of 1 m by which toes leave the ground: sin⁻¹(0.03 / 0.5) / π of 14 frames after frame 20.
    assert abs(reading.frame - (20 + 14 * math.asin(0.06) / math.pi)) < 0.1


def _still(heights: np.ndarray) -> Track:
    return Track("Brindle", 24.0, np.arange(float(len(heights))), np.stack((0 * heights, 0 * heights, heights), 1))


def test_it_is_told_how_far_over_its_stand_the_point_is_fastest() -> None:
    # A rise of 1 m out of a dip of 0.2 m, up and down by straight lines, from 0.2 m over the stand on 6 cm a frame more
    # than before: fastest from there to 0.8 m, half way, on both sides.
    steps = [0.04] * 10 + [0.1] * 6 + [0.04] * 5
    up = np.concatenate([np.full(24, 1.0), [0.93, 0.86], 0.8 + np.cumsum([0.0, *steps])])
    seen = stand.seen(only_case(_still(np.concatenate([up, up[-2::-1]]))))
    assert seen["fastest at"] == pytest.approx(0.5)


def test_a_climb_is_fastest_half_way_and_a_jump_about_where_it_stands() -> None:
    assert stand.seen(only_case(jump()[0]))["fastest at"] < 0.2
    # Onto a box 0.6 m high by a cosine, out of a dip of 0.1 m, and back: half way up from the dip is 0.25 of 0.6 m.
    t = np.arange(25.0) / 24
    ease = 0.5 - 0.5 * np.cos(np.pi * t)
    down = 1.6 - 0.6 * ease
    climb = np.concatenate([np.full(24, 1.0), 1.0 - 0.1 * ease[::4], 0.9 + 0.7 * ease, down, np.full(24, 1.0)])
    assert stand.seen(only_case(_still(climb)))["fastest at"] == pytest.approx(0.25 / 0.6, abs=0.05)


def test_what_the_track_cuts_off_on_one_side_the_other_tells() -> None:
    track, *_ = jump()
    whole, last = stand.seen(only_case(track)), int(np.argmax(track.heights)) + 4
    cut = only_case(Track("Brindle", 24, track.frames[:last], track.positions[:last]))
    assert cut.falling.is_cut
    half = stand.seen(cut)
    # Rise and dip are those of the way up; up to the apex it takes half of the time, so that the pace is as before.
    assert half["rise"] == pytest.approx(whole["rise"], abs=0.01)
    assert half["pace"] == pytest.approx(whole["pace"], abs=0.1)
