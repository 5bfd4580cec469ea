"""Blocked poses: where few keyed poses make the jump, its events are those poses, exactly."""

import numpy as np
import pytest
from leapwright.analysis import Track, World
from leapwright.analysis.beat import ROUNDING
from leapwright.analysis.cases.blocking import jumps_in_poses
from leapwright.analysis.events import find_phases
from leapwright.analysis.limits import Limits

from .keyed_poses import FPS, KEYS, STAND_HELD, G, frames_of, read


def test_the_keys_are_the_events():
    (phases,) = read(KEYS)
    assert frames_of(phases) == [8, 13, 20, 27, 34]
    assert [phases.crouch.height, phases.takeoff.height, phases.apex.height] == [0.6, 1.0, 1.41]
    assert (phases.method, phases.arc, phases.held) == ("keys", None, True)


@pytest.mark.parametrize("step", [1, 2, 3])
def test_a_key_is_known_to_a_step_divided_by_the_root_of_twelve(step):
    # Standard deviation of a time rounded to whole steps: uniform over one of them (JCGM 100:2008, 4.3.7).
    (phases,) = read(KEYS, step=step)
    assert {event.frame_error for event in (phases.crouch, phases.apex, phases.landing)} == {step * ROUNDING}
    assert pytest.approx(0.288675, abs=1e-6) == ROUNDING


def test_a_breakdown_on_the_way_up_does_not_hide_the_takeoff():
    # A pose lies between takeoff (13) and apex (20), on the arc at 16.5. The pair whose rise and fall ask for one
    # gravity is still takeoff 13 and landing 27.
    keys = [*KEYS[:3], (17, 1.41 - 0.5 * G * (3 / FPS) ** 2), *KEYS[3:]]
    (phases,) = read(keys)
    assert frames_of(phases) == [8, 13, 20, 27, 34]


@pytest.mark.parametrize("over", [0.0, 0.004])
@pytest.mark.parametrize("held", [(21, 23), (21, 22, 23)])
def test_an_apex_held_by_several_keys_of_one_height_has_its_landing_after_them(held, over):
    # The apex, 4 mm over its hold as when it settles, and held up to frame 23; then the ground as far off as before.
    rest = [(27 + 3, 1.0), (34 + 3, 0.7), (45 + 3, 1.0)]
    (phases,) = read([*KEYS[:3], (20, 1.41 + over), *[(at, 1.41) for at in held], *rest])
    assert (phases.crouch.frame, phases.takeoff.frame) == (8, 13)
    assert (phases.landing.frame, phases.absorbed.frame) == (30, 37)


def test_a_pair_of_unlike_gravities_keeps_a_fiftieth_of_the_weight_of_one_that_agrees():
    # 13 and 27 ask for one gravity, 7 frames and 0.41 m either side of the apex: weight 1 + 1/50. From 9 the body would
    # rise by 0.43 m in 11 frames, at 0.42 of the gravity of its fall, five errors off: weight 1/50, times e to the
    # power of 12 (18 − 14) / 26 for the longer flight between the bottoms 8 and 34. Their ratio is 0.1242.
    frames, heights = np.array([*KEYS[:2], (9, 0.98), *KEYS[2:]], dtype=float).T
    (jump,) = jumps_in_poses(frames, heights, Limits())
    shares = dict(jump.takeoffs)
    assert shares[9.0] / shares[13.0] == pytest.approx(0.1242, rel=1e-3)


def test_of_a_skewed_arc_the_takeoff_is_the_outermost_pose():
    # Drawn with a late apex: up in 13 frames, down in 6; no pair asks for one gravity, and the pose at 12 lies on the
    # way up.
    keys = [(1, 0.86), (5, 0.6), (8, 0.92), (12, 1.31), (21, 1.75), (27, 0.92), (29, 0.65), (44, 0.86)]
    (phases,) = read(keys)
    assert frames_of(phases) == [5, 8, 21, 27, 29]


def test_poses_held_lower_than_the_body_stood_are_a_crouch_and_no_takeoff():
    frames, heights = np.array([(1, 1.3), *[(at + 11, height) for at, height in STAND_HELD]], dtype=float).T
    assert jumps_in_poses(frames, heights, Limits()) == []
    (jump,) = jumps_in_poses(frames[1:], heights[1:], Limits())
    assert (jump.is_popped, jump.takeoffs, jump.apex, jump.landings) == (True, ((24.0, 1.0),), 31.0, ((38.0, 1.0),))


def test_a_landing_without_an_absorb_ends_on_the_stand():
    (phases,) = read([*KEYS[:5], (38, 1.0)])
    assert frames_of(phases) == [8, 13, 20, 27, None]


def test_a_crouch_held_by_two_keys_ends_with_the_second():
    keys = [KEYS[0], (5, 0.6), (8, 0.605), *KEYS[2:]]
    (phases,) = read(keys)
    assert phases.crouch.frame == 8


def test_landing_on_the_lowest_pose_absorbs_nothing():
    (phases,) = read([*KEYS[:4], (27, 1.0), (45, 1.0)])
    assert frames_of(phases)[-2:] == [27, None]


def test_two_jumps_in_a_row_are_two():
    second = [(frame + 40, height) for frame, height in KEYS[1:]]
    assert [phases.apex.frame for phases in read([*KEYS[:-1], *second])] == [20, 60]


def test_poses_on_a_beat_are_poses_still():
    """Eight of thirteen gaps are of seven frames: set on a beat, and yet no samples. Each contact is its key."""
    twice = [(frame + shift, height) for shift in (0, 60) for frame, height in KEYS]
    at, heights = np.array(twice, dtype=float).T
    gaps = np.diff(at)
    assert np.count_nonzero(gaps == 7) == 8
    frames = np.arange(at[0], at[-1] + 1)
    z = np.interp(frames, at, heights)
    track = Track("Moss", FPS, frames, np.stack((0 * z, 0 * z, z), 1), key_frames=at, interpolation="bezier")
    found = find_phases(track, World(gravity=G), Limits()).phases
    assert [(one.takeoff.frame, one.landing.frame) for one in found] == [(13, 27), (73, 87)]


@pytest.mark.parametrize(
    ("keys", "why"),
    [
        ([(1, 1.0), (8, 0.6), (13, 1.0), (20, 1.03), (27, 1.0), (34, 0.7)], "a rise of 3 cm"),
        ([(1, 1.0), (20, 1.41), (45, 1.0)], "no takeoff between crouch and apex"),
        ([(1, 1.0), (8, 0.6), (13, 1.0), (120, 1.41), (230, 1.0), (240, 0.7), (250, 1.0)], "far too slow"),
        ([(1, 1.4), (8, 0.6), (13, 1.0), (20, 1.41), (27, 1.0), (34, 0.7), (45, 1.4)], "rising to a stand"),
        ([(1, 1.0)] * 1 + [(9, 1.0), (12, 1.0), (15, 1.0)], "nothing moves"),
    ],
)
def test_what_is_not_a_jump_is_none(keys, why):
    assert read(keys) == [], why


def test_the_smallest_hop_is_the_users():
    keys = [(1, 1.0), (8, 0.9), (11, 1.0), (13, 1.04), (15, 1.0), (19, 0.95), (45, 1.0)]
    assert read(keys) == []
    assert len(read(keys, limits=Limits(smallest_hop=0.03))) == 1


def test_many_poses_are_left_to_the_curve():
    frames = np.arange(1.0, 46.0)
    heights = np.interp(frames, *np.array(KEYS).T)
    assert jumps_in_poses(frames, heights, Limits()) == []


def test_negative_and_broken_frames_are_kept_as_they_are():
    (phases,) = read([(frame - 100.25, height) for frame, height in KEYS])
    assert frames_of(phases) == [-92.25, -87.25, -80.25, -73.25, -66.25]


@pytest.mark.parametrize("fall", [5, 7, 9])
@pytest.mark.parametrize("rise", [4, 6, 7])
def test_breakdowns_on_the_arc_are_not_the_contacts(rise, fall):
    # Every pose on one parabola asks for its gravity: the outermost pair is where it leaves the ground and meets it.
    def arc(frame):
        return 2.0 - 0.5 * G * ((frame - 30) / FPS) ** 2

    takeoff, landing = 30 - rise, 30 + fall
    low = min(arc(takeoff), arc(landing)) - 0.4
    air = [(f, arc(f)) for f in (takeoff, 30 - rise // 2, 30, 30 + fall // 2, landing)]
    (phases,) = read([(1, low + 0.4), (takeoff - 6, low), *air, (landing + 6, low), (landing + 20, low + 0.4)])
    assert frames_of(phases) == [takeoff - 6, takeoff, 30, landing, landing + 6]


DOWN = [(1, 1.0), (8, 0.6), (13, 1.0), (20, 1.41), (29, 0.72), (33, 0.4), (37, 0.72), (43, 1.02), (53, 0.22)]
"""Off a box and at once onto the next: no stand between, and each apex lies under the first stand or little over it."""


def test_a_rest_before_another_jump_does_not_speak_against_this_one():
    first, second = read([*DOWN, (57, -0.1), (70, 0.2)])
    assert frames_of(first) == [8, 13, 20, 29, 33]
    assert frames_of(second) == [33, 37, 43, 53, 57]


def test_a_shallow_crouch_after_a_deep_landing_is_the_nearest_dip():
    # 24 frames after the first jump has come to rest there is a dip of 3 cm: less than a smallest hop, and less deep
    # than the one before.
    again = [(58, 0.97), (63, 1.03), (67, 1.17), (71, 1.03), (75, 0.9), (85, 1.0)]
    _, second = read([*KEYS, (50, 1.0), *again])
    assert frames_of(second) == [58, 63, 67, 71, 75]


def test_a_breakdown_by_eye_over_the_apex_does_not_move_the_contacts():
    # The pose after the apex is 2 % of the rise too high, so that the top comes a frame late; another pose lies on the
    # rise.
    keys = [(1, 1.0), (8, 0.6), (13, 1.0), (18, 1.37), (20, 1.41), (21, 1.417), (27, 1.0), (34, 0.7), (45, 1.0)]
    (phases,) = read(keys)
    assert [phases.takeoff.frame, phases.landing.frame] == [13, 27]


def told(keys):
    """Return what few poses tell, whatever is made of it."""
    at, heights = np.array(keys, dtype=float).T
    return jumps_in_poses(at, heights, Limits())


@pytest.mark.parametrize(("drift", "crouch"), [(0.02, 10.0), (0.045, 8.0)])
def test_poses_within_three_hundredths_of_the_swing_are_one_moving_hold(drift, crouch):
    # The swing from the crouch at 0.6 m to the apex at 1.41 m is 0.81 m; the pose at 10 lies a share of it higher.
    (posed,) = told([*KEYS[:2], (10, 0.6 + drift * 0.81), *KEYS[2:]])
    assert posed.crouch == crouch


@pytest.mark.parametrize(("rest", "count"), [(1.28, 1), (1.34, 0)])
def test_an_apex_lies_a_quarter_of_the_height_above_what_is_held_beside_it(rest, count):
    # The height is 0.41 m, a quarter of it 0.10 m: the apex at 1.41 m may be one over a rest of 1.31 m at most.
    assert len(told([(1, rest), *KEYS[1:-1], (45, rest)])) == count


def test_of_pairs_that_agree_the_outer_is_the_likelier():
    """Poses 4 and 6 frames from the apex, all on one parabola, between bottoms that are 24 frames apart.

    The pairs take up 8, 10, 10 and 12 of these, which is worth 12 nats in all: so the outer takeoff is
    (e⁶ + e⁵) / (e⁵ + e⁴) = e times as likely as the inner one; twice or half the nats make it e² or √e times.
    """
    air = [(30 + n, 2.0 - 0.5 * G * (n / FPS) ** 2) for n in (-6, -4, 0, 4, 6)]
    (posed,) = told([(1, 1.5), (18, 1.2), *air, (42, 1.2), (60, 1.5)])
    shares = dict(posed.takeoffs)
    assert 2.0 < shares[24.0] / shares[26.0] < 4.5
