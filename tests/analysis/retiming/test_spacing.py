"""Poses that leave the beat they were drawn on are told; a retiming by which held poses would never be seen is refused.
"""

import numpy as np
import pytest
from leapwright.analysis.errors import RetimeError
from leapwright.analysis.retiming.spacing import Spacing, respaced
from leapwright.analysis.time_map import TimeMap

from tests.analysis.keyed_leap import FLOATY, keyed

ON_TWOS = np.arange(1.0, 40.0, 2.0)


def test_poses_spread_or_crowded_off_twos_are_told_with_their_new_gaps():
    spread = respaced(TimeMap((7, 13), (7, 17), step=2), ON_TWOS)
    assert spread == (Spacing(7.0, 17.0, was=2.0, fewest=2.0, most=4.0),)
    crowded = respaced(TimeMap((7, 15, 23), (7, 11, 15), step=2), ON_TWOS)
    assert crowded == (Spacing(7.0, 15.0, was=2.0, fewest=1.0, most=1.0),)


def test_what_only_shifts_or_lies_on_ones_or_unevenly_is_not_told():
    assert respaced(TimeMap((7, 13), (7, 13), step=2), ON_TWOS) == ()
    assert respaced(TimeMap((7, 9, 21), (7, 13, 25), step=2), ON_TWOS) == ()
    assert respaced(TimeMap((7, 13), (7, 17)), np.arange(1.0, 40.0)) == ()
    assert respaced(TimeMap((7, 13), (7, 17)), np.array([1.0, 7.0, 9.0, 13.0, 20.0])) == ()
    assert respaced(TimeMap((7, 13), (7, 17)), None) == ()


def test_held_poses_without_a_frame_each_are_refused_with_how_many_stand_in_the_way():
    squeezed = TimeMap((7, 15), (7, 10), step=2)
    squeezed.check_room(ON_TWOS[ON_TWOS != 11.0])
    with pytest.raises(RetimeError, match="between frames 7 and 15 would be 3 on 2 frames: take 1 out"):
        squeezed.check_room(ON_TWOS)
    TimeMap((7, 15), (7, 10), step=2, whole=False).check_room(ON_TWOS)
    TimeMap((7, 15), (7, 11), step=2).check_room(ON_TWOS)


def test_a_stepped_track_refuses_what_a_drawn_one_takes():
    from leapwright.analysis.retiming.warp import warp

    more = tuple(np.arange(27.0, 38.0, 2.0))
    squeezed = TimeMap((25, 38), (25, 30))
    with pytest.raises(RetimeError, match="held poses between frames 25 and 38"):
        warp(keyed(FLOATY, extra=more, held=True), squeezed)
    assert len(warp(keyed(FLOATY, extra=more), squeezed).key_frames) == len(keyed(FLOATY, extra=more).key_frames)
