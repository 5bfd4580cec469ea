"""Two days are compared: what got better or worse is told of the right jump, even where jumps moved. Worked by hand."""

import pytest
from leapwright.analysis.dailies.compare import compare_days

from .rowing import jump, rows, shot, unreadable


def told(later, earlier):
    """Return the change of each jump: (its takeoff, or that of the one that is gone, its change, the earlier
    takeoff).
    """
    def takeoff(row):
        return row.jump["takeoff"]["frame"] if row is not None and row.jump else None

    return [(takeoff(pair.row), str(pair.change), takeoff(pair.earlier)) for pair in compare_days(later, earlier)]


@pytest.mark.parametrize(
    ("then", "now", "change"),
    [
        (("fix",), (), "better"),
        (("fix",), ("check",), "better"),
        (("fix", "fix"), ("fix",), "better"),
        ((), ("note",), "worse"),
        (("check",), ("fix",), "worse"),
        (("check",), ("check",), "same"),
        ((), (), "same"),
    ],
)
def test_a_jump_is_better_or_worse_by_its_gravest_findings(then, now, change):
    later, earlier = (rows(shot("tq010.blend", jump(10, 26, *severities))) for severities in (now, then))
    assert told(later, earlier) == [(10, change, 10)]


def test_of_findings_as_grave_the_size_decides_from_a_tenth_on():
    for ratio, change in ((2.0, "same"), (2.15, "same"), (2.4, "worse"), (1.6, "better")):
        later = rows(shot("tq010.blend", jump(10, 26, "fix", ratio=ratio)))
        assert told(later, rows(shot("tq010.blend", jump(10, 26, "fix", ratio=2.0))))[0][1] == change


def test_a_new_take_is_compared_with_the_last_one_before_it():
    earlier = rows(shot("mon/tq010_v01.blend", jump(10, 26)), shot("mon/tq010_v02.blend", jump(10, 26, "fix")))
    assert told(rows(shot("tue/tq010_v03.blend", jump(10, 24))), earlier) == [(10, "better", 10)]
    assert told(rows(shot("tue/tq010_v01.blend", jump(10, 24, "note"))), earlier) == [(10, "worse", 10)]


def test_retiming_every_jump_moves_them_and_they_are_still_the_same_ones():
    # Each of five jumps gets 8 frames longer: the last one moves by 36, more than its airtime of 24.
    earlier = rows(shot("tq010.blend", *(jump(40 * n, 40 * n + 16, "fix") for n in range(5))))
    later = rows(shot("tq010.blend", *(jump(48 * n, 48 * n + 24) for n in range(5))))
    assert told(later, earlier) == [(48 * n, "better", 40 * n) for n in range(5)]


def test_a_take_moved_as_a_whole_keeps_its_jumps():
    earlier = rows(shot("tq010.blend", jump(10, 26)))
    assert told(rows(shot("tq010.blend", jump(1010, 1026, "fix"))), earlier) == [(1010, "worse", 10)]


def test_a_jump_taken_out_of_the_middle_is_gone_and_one_put_in_is_new():
    three = rows(shot("tq010.blend", jump(10, 26), jump(60, 84, height=0.9), jump(120, 136)))
    two = rows(shot("tq010.blend", jump(10, 26), jump(120, 136)))
    assert told(two, three) == [(10, "same", 10), (120, "same", 120), (None, "gone", 60)]
    assert told(three, two) == [(10, "same", 10), (60, "new", None), (120, "same", 120)]


def test_one_taken_out_in_front_and_one_added_behind_do_not_shift_the_rest():
    earlier = rows(shot("tq010.blend", *(jump(50 * n, 50 * n + 16, height=0.3 + 0.2 * n) for n in range(3))))
    later = rows(shot("tq010.blend", *(jump(50 * n, 50 * n + 16, height=0.3 + 0.2 * n) for n in range(1, 4))))
    assert told(later, earlier) == [(50, "same", 50), (100, "same", 100), (150, "new", None), (None, "gone", 0)]


def test_shots_that_came_went_or_cannot_be_read_any_more():
    earlier = rows(shot("tq010.blend", jump(10, 26)), shot("tq020.blend", jump(10, 26)))
    later = rows(unreadable("tq010.blend"), shot("tq030.blend", jump(10, 26)))
    assert told(later, earlier) == [(None, "worse", None), (10, "new", None), (None, "gone", 10)]
    assert told(later, later)[0] == (None, "same", None)


def test_a_doubtful_jump_does_not_make_a_day_worse():
    later = rows(shot("tq010.blend", jump(10, 26, "note", certainty="doubtful")))
    assert told(later, rows(shot("tq010.blend", jump(10, 26)))) == [(10, "same", 10)]
