"""No Jump Here marks a found jump as none; later audits leave it out."""

import bpy
import pytest
from leapwright.addon import results
from leapwright.addon.marks import marks
from leapwright.addon.sidebar import rows
from leapwright.analysis import Marks

from tests.addon.scenery import HOP, empty, key

APART = 60


@pytest.fixture
def two_hops(scene):
    keys = [(frame + shift, (0.0, 0.0, height)) for shift in (0, APART) for frame, height in HOP]
    bpy.context.view_layer.objects.active = key(empty(), keys)
    bpy.ops.leapwright.audit_jump()
    yield
    rows.of_window(bpy.context.window_manager).rows.clear()


def jumps():
    return results.latest(bpy.context.scene).audit.jumps


def deny(number, *, undo=False):
    rows.of_window(bpy.context.window_manager).chosen = number
    return bpy.ops.leapwright.no_jump_here("EXEC_DEFAULT", undo)


def kept():
    return marks.of_track(bpy.context.scene, "Crate")[0]


def test_the_chosen_jump_goes_and_stays_away(two_hops):
    assert deny(1) == {"FINISHED"}
    assert [round(jump.takeoff.frame) for jump in jumps()] == [13]
    assert kept() == (Marks(no_jump=(13 + APART, 27 + APART)),)
    bpy.ops.leapwright.audit_jump()
    assert len(jumps()) == 1


def test_the_chosen_row_is_still_one_of_the_list(two_hops):
    deny(1)
    assert rows.of_window(bpy.context.window_manager).chosen == 0


def test_it_is_one_undo_step(two_hops):
    bpy.ops.ed.undo_push(message="before")
    deny(0, undo=True)
    bpy.ops.ed.undo()
    assert kept() == ()


def test_the_pins_of_that_jump_go_with_it(two_hops):
    bpy.context.scene.frame_set(14)
    bpy.ops.leapwright.pin_event(event="takeoff")
    deny(0)
    assert len(jumps()) == 1
    assert kept() == (Marks(no_jump=(14, 27)),)


def test_a_jump_made_by_hand_only_loses_its_pins(scene):
    bpy.context.view_layer.objects.active = key(empty(), [(1, (0, 0, 1)), (20, (0, 0, 1.03)), (40, (0, 0, 1))])
    marks.put(scene, "Crate", (Marks(takeoff=15, apex=20, landing=26),))
    bpy.ops.leapwright.audit_jump()
    assert len(jumps()) == 1
    deny(0)
    assert jumps() == () and kept() == ()


def test_without_an_audit_of_this_track_there_is_nothing_to_deny(two_hops):
    bpy.context.view_layer.objects.active = key(empty("Barrel"), [(1, (0, 0, 1)), (40, (3, 0, 1))])
    with pytest.raises(RuntimeError, match="Audit a jump of what is followed first"):
        deny(0)
    assert kept() == ()
