"""Blocked poses of a body that may leave the ground from where it stands: without a crouch, or out of a held one."""

import numpy as np
import pytest
from leapwright.analysis import Limits
from leapwright.analysis.cases.blocking import jumps_in_poses
from leapwright.analysis.cases.ground import popped_share

from .keyed_poses import STAND_HELD, frames_of, read


def test_a_body_that_leaves_its_stand_without_a_crouch_has_none():
    (phases,) = read(STAND_HELD)
    assert frames_of(phases) == [None, 13, 20, 27, None]


@pytest.mark.parametrize("off", [-0.02, 0.0, 0.02])
def test_a_breakdown_on_the_arc_out_of_a_stand_is_no_takeoff(off):
    # Stand 13 and apex 20 ask for an arc; a pose on it at 16 and one at 24, by eye up to a twentieth of 0.41 m off. A
    # push from 13 to 16 would lift the body by 0.67 of the rise in 3 of 7 frames, faster than it then flies.
    arc = [(at, 1.41 - 0.41 * ((at - 20) / 7) ** 2 + off) for at in (16, 24)]
    (phases,) = read([*STAND_HELD[:2], arc[0], STAND_HELD[2], arc[1], *STAND_HELD[3:]])
    assert frames_of(phases) == [None, 13, 20, 27, None]


def test_a_leap_out_of_a_held_crouch_and_back_into_it_keeps_its_takeoff():
    # Out of the held 13, 0.3 m in 5 frames, then 0.41 m in the 7 frames that gravity needs: no arc from 13 to 25 has
    # the takeoff at 0.9, since on one it would lie at 0.66 of the rise, and lies at 0.42; and people crouch to 0.67 of
    # the height at which they leave the ground.
    keys = [(1, 0.6), (13, 0.6), (18, 0.9), (25, 1.31), (32, 0.9), (37, 0.6), (48, 0.6)]
    (phases,) = read(keys)
    assert frames_of(phases) == [13, 18, 25, 32, 37]


def test_a_root_that_lies_on_the_ground_leaves_it_whatever_its_breakdowns_are():
    # The root between a body's feet, half way up by half of the time, as a curve is eased: it crouches nowhere. The
    # second leap starts where the first one ends, and rests nowhere; from a crouch it could start at any of them.
    first = [(1, 0.0), (13, 0.0), (19, 0.35), (25, 0.7), (31, 0.35), (37, 0.0)]
    second = [(41, 0.2), (45, 0.4), (49, 0.2), (53, 0.0), (65, 0.0)]
    assert [frames_of(one) for one in read([*first, *second])] == [
        [None, 13, 25, 37, None],
        [None, 37, 45, 53, None],
    ]
    higher = [(frame, height + 0.5) for frame, height in [*first, *second]]
    assert [frames_of(one) for one in read(higher)] != [[None, 13, 25, 37, None], [None, 37, 45, 53, None]]


def test_a_crouch_held_on_the_origin_is_one_where_the_body_stood_higher_before():
    # As deep as only a drawn body crouches: from 0.92 m to the floor, held there, and up from 1.06 m at 24.
    keys = [(1, 0.92), (10, 0.92), (18, 0.0), (21, 0.0), (24, 1.06), (32, 2.57), (42, 0.92), (46, 0.4), (58, 0.92)]
    (phases,) = read(keys)
    assert frames_of(phases)[:3] == [21, 24, 32]


def test_breakdowns_that_ease_out_of_a_stand_speak_half_as_much_for_it():
    # Half way up by half of the time, far off the arc. Either both sides are left from the stand, or both contacts are
    # the breakdowns, up to a fiftieth of the weight: a rise and a fall of unlike gravities.
    frames, heights = np.array([(1, 1.0), (13, 1.0), (19, 1.2), (25, 1.4), (31, 1.2), (37, 1.0), (49, 1.0)]).T
    (posed,) = jumps_in_poses(frames, heights, Limits())
    share = popped_share(1.0, 1.2)
    odds = (0.5 * share / (1.0 - share)) ** 2
    assert dict(posed.takeoffs)[13] == pytest.approx(odds / (1.0 + odds), abs=0.03)


def test_a_seat_that_is_left_without_a_pose_in_between_is_left_to_the_curve():
    # Half way up lies 0.875 m: 0.55 m is 0.63 of that, as deep as people crouch; 1 m of 1.325 m is a stand.
    keys = [(1, 0.55), (13, 0.55), (25, 1.2), (34, 0.6), (45, 1.0)]
    assert jumps_in_poses(*np.array(keys).T, Limits()) == []
    higher = [(frame, height + 0.45) for frame, height in keys]
    assert len(jumps_in_poses(*np.array(higher).T, Limits())) == 1
