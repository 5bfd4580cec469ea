"""Events are drawn over the keys, with names where there is room; names never overlap."""

from leapwright.addon.overlay.keyed_time import events_of, names_that_fit

from tests.addon.overlay.flown import LANDING, TAKEOFF, jump


def test_the_events_of_a_jump_are_named_in_order():
    assert [name for _, name in events_of(jump())] == ["Crouch", "Takeoff", "Apex", "Landing"]
    assert events_of(jump())[1] == (TAKEOFF, "Takeoff") and events_of(jump())[3] == (LANDING, "Landing")
    assert [name for _, name in events_of(jump(crouch=False))] == ["Takeoff", "Apex", "Landing"]


def test_with_room_each_name_stands_in_the_middle_under_its_event():
    named = [(100.0, "Takeoff", 40.0), (200.0, "Apex", 20.0)]
    assert names_that_fit(named, 4.0) == [(80.0, "Takeoff"), (190.0, "Apex")]


def test_on_a_short_time_line_names_are_left_out_and_none_runs_into_another():
    named = [(10.0, "Crouch", 40.0), (30.0, "Takeoff", 40.0), (50.0, "Apex", 26.0), (95.0, "Landing", 40.0)]
    shown = names_that_fit(named, 4.0)
    assert [text for _, text in shown] == ["Takeoff", "Landing"]
    ends = [(left, left + 40.0) for left, _ in shown]
    assert all(right + 4.0 <= left for (_, right), (left, _) in zip(ends, ends[1:], strict=False))
