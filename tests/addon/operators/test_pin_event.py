"""Pin Event makes the pinned frame the event, in one undo step; or nothing changes, and a message says why."""

import bpy
import pytest
from leapwright.addon import results
from leapwright.addon.marks import marks
from leapwright.addon.sidebar import figures, rows
from leapwright.analysis import Marks

from tests.addon.scene_state import state
from tests.addon.scenery import HOP, empty, hopping, key

APART = 60
"""Frames from one hop to the next."""


def pin(event, frame, *, undo=False):
    whole, part = divmod(frame, 1)
    bpy.context.scene.frame_set(int(whole), subframe=part)
    return bpy.ops.leapwright.pin_event("EXEC_DEFAULT", undo, event=event)


def jumps():
    return results.latest(bpy.context.scene).audit.jumps


def kept():
    return marks.of_track(bpy.context.scene, "Crate")[0]


def active(thing):
    bpy.context.view_layer.objects.active = thing
    return thing


@pytest.fixture(autouse=True)
def no_rows_left(scene):
    yield
    rows.of_window(bpy.context.window_manager).rows.clear()


@pytest.fixture
def crate(scene):
    return active(hopping(empty()))


@pytest.fixture
def two_hops(scene):
    keys = [(frame + shift, (0.0, 0.0, height)) for shift in (0, APART) for frame, height in HOP]
    return active(key(empty(), keys))


@pytest.fixture
def no_hop(scene):
    return active(key(empty(), [(1, (0, 0, 1)), (20, (0, 0, 1.03)), (40, (0, 0, 1))]))


@pytest.mark.parametrize(
    ("event", "frame"), [("crouch", 9), ("takeoff", 14), ("apex", 21), ("landing", 26), ("absorbed", 35)]
)
def test_each_event_is_pinned_to_the_current_frame_and_the_figures_follow(crate, event, frame):
    bpy.ops.leapwright.audit_jump()
    assert not getattr(jumps()[0], event).pinned
    assert pin(event, frame) == {"FINISHED"}
    pinned = getattr(jumps()[0], event)
    assert (pinned.frame, pinned.pinned, pinned.frame_error) == (frame, True, 0.0)
    assert kept() == (Marks(**{event: frame}),)


def test_a_pin_needs_no_audit_before(crate):
    assert pin("takeoff", 14) == {"FINISHED"}
    assert jumps()[0].takeoff.pinned


def test_a_pin_may_lie_between_frames(crate):
    pin("takeoff", 13.25)
    assert jumps()[0].takeoff.frame == 13.25


def test_pins_of_one_jump_are_kept_together_and_pinning_again_moves_the_pin(crate):
    for event, frame in (("takeoff", 14), ("landing", 26), ("takeoff", 12)):
        pin(event, frame)
    assert kept() == (Marks(takeoff=12, landing=26),)


def test_pins_survive_a_new_audit_and_the_file(crate, tmp_path):
    pin("takeoff", 14)
    bpy.ops.leapwright.audit_jump()
    assert jumps()[0].takeoff.pinned
    path = str(tmp_path / "tq010_crate.blend")
    bpy.ops.wm.save_as_mainfile(filepath=path)
    bpy.ops.wm.open_mainfile(filepath=path)
    active(bpy.context.scene.objects["Crate"])
    bpy.ops.leapwright.audit_jump()
    assert (jumps()[0].takeoff.frame, jumps()[0].takeoff.pinned) == (14, True)


def test_a_pin_is_one_undo_step(crate):
    bpy.ops.ed.undo_push(message="before")
    pin("takeoff", 14, undo=True)
    bpy.ops.ed.undo()
    assert kept() == ()
    bpy.ops.ed.redo()
    assert kept() == (Marks(takeoff=14),)


def test_a_pin_touches_neither_keys_nor_frame_nor_selection(crate):
    bpy.context.scene.frame_set(14, subframe=0.25)
    before = state(bpy.context.scene)
    bpy.ops.leapwright.pin_event(event="takeoff")
    assert state(bpy.context.scene) == before


def test_the_pin_goes_to_the_jump_it_lies_in_and_that_one_is_shown(two_hops):
    bpy.ops.leapwright.audit_jump()
    listed = rows.of_window(bpy.context.window_manager)
    listed.chosen = 0
    pin("takeoff", 14 + APART)
    assert [jump.takeoff.pinned for jump in jumps()] == [False, True]
    assert listed.chosen == 1


def test_two_jumps_have_pins_of_their_own(two_hops):
    pin("takeoff", 14)
    pin("takeoff", 14 + APART)
    pin("landing", 28)
    assert kept() == (Marks(takeoff=14, landing=28), Marks(takeoff=14 + APART))
    assert [jump.takeoff.frame for jump in jumps()] == [14, 14 + APART]


def test_a_pin_that_the_events_would_not_rise_with_is_refused_and_changes_nothing(crate):
    pin("landing", 26)
    with pytest.raises(RuntimeError, match="the events of the jump would not rise in time"):
        pin("takeoff", 24)
    with pytest.raises(RuntimeError, match="Marks must rise from crouch to absorbed"):
        pin("takeoff", 26)
    assert kept() == (Marks(landing=26),)
    assert jumps()[0].landing.frame == 26


def test_a_jump_where_none_was_found_is_made_by_three_pins(no_hop, capfd):
    assert pin("takeoff", 15) == {"FINISHED"}
    assert "Warning: No jump was found at the marks takeoff 15; to make one, pin landing too" in (
        capfd.readouterr().out
    )
    pin("apex", 20)
    assert jumps() == ()
    pin("landing", 26)
    (jump,) = jumps()
    assert kept() == (Marks(takeoff=15, apex=20, landing=26),)
    assert jump.takeoff.pinned and jump.apex.pinned and jump.landing.pinned


def test_a_third_pin_that_makes_no_jump_is_refused(no_hop):
    pin("takeoff", 2)
    pin("landing", 25)
    with pytest.raises(RuntimeError, match="the apex at 3 is not above its takeoff and landing"):
        pin("apex", 3)
    assert kept() == (Marks(takeoff=2, landing=25),)


def test_a_second_jump_can_be_made_right_after_one_that_was_found(scene):
    bump = ((46, 0.9), (50, 0.93), (56, 0.94), (62, 0.93), (66, 0.9), (90, 0.9))
    active(key(empty(), [(frame, (0.0, 0.0, height)) for frame, height in (*HOP[:-1], *bump)]))
    bpy.ops.leapwright.audit_jump()
    assert len(jumps()) == 1
    for event, frame in (("takeoff", 50), ("apex", 56), ("landing", 62)):
        pin(event, frame)
    assert [jump.takeoff.pinned for jump in jumps()] == [False, True]


def test_a_pin_takes_back_that_there_is_no_jump(crate):
    marks.put(bpy.context.scene, "Crate", (Marks(no_jump=(10, 30)), Marks(no_jump=(200, 230))))
    bpy.ops.leapwright.audit_jump()
    assert jumps() == ()
    pin("takeoff", 14)
    assert kept() == (Marks(no_jump=(200, 230)), Marks(takeoff=14))
    assert jumps()[0].takeoff.pinned


def test_what_is_pinned_is_called_pinned_among_the_jumps_events(crate):
    pin("takeoff", 14)
    shown = {row.name: row.measured for row in figures.events(jumps()[0], bpy.context.scene.unit_settings)}
    assert shown["Takeoff (pinned)"] == "14"
    assert "Apex" in shown and "Apex (pinned)" not in shown


def test_the_button_says_what_to_select(scene):
    with pytest.raises(RuntimeError, match="Select an object or pose bone"):
        pin("takeoff", 14)
